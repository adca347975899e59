/** What of channels and lanes changed between two versions of a board, in sentences. */
import { someOf, say } from '../base/index.ts'
import { laneIdOf, lanePart, regionNameOf } from './lanes.ts'
import type { BoardDescription, LaneDescription } from './schema.ts'

interface LaneAt {
  readonly channel: string
  /** Its place among the lanes of its channel, from 0. */
  readonly place: number
  readonly region: string
  readonly balls: string
  readonly corridor: string
}

/** @param newRef later refs of parts that were renamed; a rename alone changes no lane */
export function compareMemory(
  before: BoardDescription,
  after: BoardDescription,
  newRef: ReadonlyMap<string, string>,
): string[] {
  const [earlier, later] = [lanesAt(before, newRef), lanesAt(after, new Map())]
  const added = [...later.keys()].filter((id) => !earlier.has(id))
  const gone = [...earlier.keys()].filter((id) => !later.has(id))
  const both = [...later].flatMap(([id, is]) => {
    const was = earlier.get(id)
    return was === undefined ? [] : [{ id, was, is }]
  })
  const having = (differs: (was: LaneAt, is: LaneAt) => boolean): string[] =>
    both.filter(({ was, is }) => differs(was, is)).map(({ id }) => id)
  return [
    ...lanesThat(added, (lanes) => say('{lanes} {count, plural, one {is a new lane} other {are new lanes}}.', lanes)),
    ...lanesThat(gone, (lanes) =>
      say('{lanes} {count, plural, one {is no lane any more} other {are no lanes any more}}.', lanes),
    ),
    ...lanesThat(
      having((was, is) => was.channel !== is.channel),
      (lanes) =>
        say('{lanes} {count, plural, one {belongs to another channel} other {belong to other channels}}.', lanes),
    ),
    ...lanesThat(
      having((was, is) => was.channel === is.channel && was.place !== is.place),
      (lanes) =>
        say(
          '{lanes} {count, plural, one {carries other data bits of its channel} other {carry other data bits of their channel}}.',
          lanes,
        ),
    ),
    ...lanesThat(
      having((was, is) => was.region !== is.region),
      (lanes) => say('{lanes} {count, plural, one {ends in another region} other {end in other regions}}.', lanes),
    ),
    ...lanesThat(
      having((was, is) => was.balls !== is.balls),
      (lanes) => say('{lanes} {count, plural, one {is on other balls} other {are on other balls}}.', lanes),
    ),
    ...lanesThat(
      having((was, is) => was.corridor !== is.corridor),
      (lanes) => say('{lanes} {count, plural, one {has another corridor} other {have other corridors}}.', lanes),
    ),
  ]
}

const lanesThat = (
  ids: readonly string[],
  told: (lanes: { readonly lanes: string; readonly count: number }) => string,
): string[] => (ids.length === 0 ? [] : [told({ lanes: someOf(ids, 6), count: ids.length })])

function lanesAt(board: BoardDescription, newRef: ReadonlyMap<string, string>): Map<string, LaneAt> {
  const lanes = new Map<string, LaneAt>()
  for (const channel of board.memory.channels)
    for (const [place, lane] of channel.lanes.entries()) {
      const part = lanePart(channel, lane)
      const ref = newRef.get(part) ?? part
      lanes.set(laneIdOf(ref, lane), { channel: channel.id, place, ...endsOf(lane) })
    }
  return lanes
}

const endsOf = (lane: LaneDescription): Pick<LaneAt, 'region' | 'balls' | 'corridor'> => ({
  region: `${regionNameOf(lane)} ${lane.coreRegion ?? ''}`,
  balls: JSON.stringify([lane.bits, lane.swaps]),
  corridor: JSON.stringify([lane.corridor, lane.corridorWidthMm]),
})
