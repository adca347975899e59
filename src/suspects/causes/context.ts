/** What every cause of a card is made from: the board, the figures, what was observed, which parts can come off. */
import { type BoardModel, standsOnBoard } from '../../board/index.ts'
import type { Assumptions } from '../assumptions.ts'
import type { SharedTouch, Touch } from '../network/cause.ts'
import { NEVER, type Observed } from '../network/observations.ts'

export interface CauseContext {
  readonly model: BoardModel
  readonly assumptions: Assumptions
  readonly observed: Observed
  /** Index of a part that can come off, or -1. */
  readonly partIndex: (ref: string) => number
}

/** Parts that can come off: memory that stands on the board, the core, and what makes the rails. */
export function liftableParts(model: BoardModel): string[] {
  const stages = model.rails.flatMap((rail) => rail.stages).filter((ref) => model.partByRef.has(ref))
  const kinds = model.parts.filter((part) => part.kind === 'power-stage').map((part) => part.ref)
  const core = model.core === undefined ? [] : [model.core.ref]
  return [...new Set([...core, ...model.memories.filter(standsOnBoard).map(({ ref }) => ref), ...stages, ...kinds])]
}

/** Touches of tested lanes, each with the same q. */
export function laneTouches({ observed }: CauseContext, lanes: Iterable<string>, q: number): Touch[] {
  return [...new Set(lanes)].flatMap((lane) => {
    const finding = observed.lane.get(lane)
    return finding === undefined ? [] : [{ finding, q }]
  })
}

/** A touch that nothing puts right but what is done to the variable as a whole. */
export const lasting = (touch: Touch): SharedTouch => ({ ...touch, end: 'other', rightFrom: NEVER })

/** Ids of the lanes that a memory part serves, in the board's order; none for a part of another kind. */
export const lanesOfPart = (model: BoardModel, ref: string): string[] =>
  model.lanes.filter((lane) => lane.part === ref).map((lane) => lane.id)

/** From so many channels on a package is a stack of dies, of which one channel may be bad alone. */
const CHANNELS_OF_A_STACK = 8

export interface DieForm {
  readonly at: string
  readonly lanes: readonly string[]
  /** Of the die's prior; shares of one part sum to one. */
  readonly share: number
}

/** How the die of a memory part can be bad: all of it; of a stack also one channel. */
export function dieForms({ model, assumptions }: CauseContext, ref: string): DieForm[] {
  const lanes = lanesOfPart(model, ref)
  const own = new Set(lanes)
  const channels = model.channels
    .map((channel) => ({ id: channel.id, lanes: channel.lanes.filter((lane) => own.has(lane)) }))
    .filter((channel) => channel.lanes.length > 0)
  if (channels.length < CHANNELS_OF_A_STACK) return [{ at: ref, lanes, share: 1 }]
  const ofOne = assumptions.core['stack-channel']
  return [
    { at: ref, lanes, share: 1 - ofOne },
    ...channels.map(({ id, lanes: some }): DieForm => {
      return { at: `channel ${id} in ${ref}`, lanes: some, share: ofOne / channels.length }
    }),
  ]
}

/** Index of a part that has to come off for a cause, or -1 where that was done. */
export const toLift = ({ observed, partIndex }: CauseContext, ref: string): number =>
  observed.rightFrom(ref) === NEVER ? partIndex(ref) : -1

/** How a cause fared that work was to put right: cured by a run, or there still (`NEVER`). */
export interface Version {
  readonly share: number
  readonly rightFrom: number
}

/**
 * @param runs before which it was worked on, ascending
 * @param uncured how seldom one such work leaves it there all the same
 * @returns shares that sum to one: cured the first time, the second, … or not at all
 */
export function versionsOf(runs: readonly number[], uncured: number): Version[] {
  const cured = runs.map((rightFrom, at): Version => ({ share: (1 - uncured) * uncured ** at, rightFrom }))
  return [...cured, { share: uncured ** runs.length, rightFrom: NEVER }]
}
