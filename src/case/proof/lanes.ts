/** Each lane before and after the work: gone, fresh, still there, clean, untested, or not told. */
import type { BoardModel } from '../../board/index.ts'
import type { ChannelTally, LaneTally, PartTally, Tally } from '../../report/index.ts'
import type { LaneState } from '../../suspects/index.ts'

/**
 * `gone` failed before and passes now; `fresh` fails now and did not fail before (it passed or was untested: see
 * `before`); `still` fails in both; `clean` passes now and did not fail before; `untested` is covered by no retest;
 * `not-told`: the retest has errors in its part or channel and does not say in which lane.
 */
export const laneVerdicts = ['fresh', 'still', 'not-told', 'untested', 'gone', 'clean'] as const
export type LaneVerdict = (typeof laneVerdicts)[number]

export interface LaneProof {
  readonly id: string
  readonly part: string
  readonly channel: string
  readonly verdict: LaneVerdict
  readonly before: LaneState
  readonly after: LaneState
  readonly errorsBefore: number
  readonly errorsAfter: number
  /** Of a lane that fails in both runs: towards fewer or more errors, per pass where both runs say their passes. */
  readonly trend?: 'fewer' | 'more' | 'same'
  /** Data bits of the lane, from 0, by what became of them; only of a lane that a retest covers. */
  readonly bits: {
    readonly gone: readonly number[]
    readonly fresh: readonly number[]
    readonly still: readonly number[]
  }
}

interface Counted {
  readonly lane: LaneTally
  /** It counts as failing only since an error lies somewhere in its part or channel. */
  readonly inDoubt: boolean
}

/** Passes that the runs stand for, where they say so. */
export interface RunPasses {
  readonly before: number | undefined
  readonly after: number | undefined
}

/** All lanes in the board's order; a lane that a tally leaves out is untested in it. */
export function laneProofs(
  model: BoardModel,
  tally: Tally | undefined,
  retest: Tally | undefined,
  passes: RunPasses,
): LaneProof[] {
  const before = countedLanes(tally)
  const after = countedLanes(retest)
  return model.lanes.map(({ id, part, channel }) => {
    const was = before.get(id)
    const is = after.get(id)
    const states = { before: was?.lane.state ?? 'untested', after: is?.lane.state ?? 'untested' } as const
    const errors = { before: was?.lane.errors ?? 0, after: is?.lane.errors ?? 0 }
    const verdict = verdictOf(states, is?.inDoubt ?? false)
    const trend = verdict === 'still' ? trendOf(errors, passes) : undefined
    return {
      id,
      part,
      channel,
      verdict,
      ...states,
      errorsBefore: errors.before,
      errorsAfter: errors.after,
      ...(trend === undefined ? {} : { trend }),
      bits: bitsOf(was?.lane, is?.lane),
    }
  })
}

function countedLanes(tally: Tally | undefined): Map<string, Counted> {
  const lanes = new Map<string, Counted>()
  for (const part of tally?.parts ?? []) {
    for (const channel of part.channels) {
      for (const lane of channel.lanes) lanes.set(lane.id, { lane, inDoubt: isInDoubt(lane, channel, part) })
    }
  }
  return lanes
}

/** Without a count of its own, unless it is the only lane of the channel or part in which the errors lie. */
function isInDoubt(lane: LaneTally, channel: ChannelTally, part: PartTally): boolean {
  if (lane.state !== 'fail' || lane.errors > 0) return false
  if (channel.lanes.length === 1 && (channel.errors ?? 0) > 0) return false
  return part.channels.reduce((sum, { lanes }) => sum + lanes.length, 0) > 1
}

function verdictOf({ before, after }: { before: LaneState; after: LaneState }, inDoubt: boolean): LaneVerdict {
  if (after === 'untested') return 'untested'
  if (after === 'fail') return inDoubt ? 'not-told' : before === 'fail' ? 'still' : 'fresh'
  return before === 'fail' ? 'gone' : 'clean'
}

function trendOf(errors: { before: number; after: number }, passes: RunPasses): LaneProof['trend'] {
  if (errors.before === 0 || errors.after === 0) return undefined
  const perPass = (passes.before ?? 0) > 0 && (passes.after ?? 0) > 0
  const before = errors.before / (perPass ? (passes.before ?? 1) : 1)
  const after = errors.after / (perPass ? (passes.after ?? 1) : 1)
  if (before === after) return 'same'
  return after < before ? 'fewer' : 'more'
}

function bitsOf(was: LaneTally | undefined, is: LaneTally | undefined): LaneProof['bits'] {
  const failing = (lane: LaneTally | undefined): number[] =>
    (lane?.bits ?? []).flatMap((errors, bit) => (errors > 0 ? [bit] : []))
  if (is === undefined || is.state === 'untested') return { gone: [], fresh: [], still: [] }
  const before = failing(was)
  const after = failing(is)
  // A failing lane whose report does not go down to bits says nothing about which of them are gone.
  const told = is.state === 'pass' || after.length > 0
  const toldBefore = was?.state !== 'fail' || before.length > 0
  return {
    gone: told ? before.filter((bit) => !after.includes(bit)) : [],
    fresh: toldBefore ? after.filter((bit) => !before.includes(bit)) : [],
    still: after.filter((bit) => before.includes(bit)),
  }
}
