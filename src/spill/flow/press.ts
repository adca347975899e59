/** Whether something pressed a substance on, and how far that pushed it: what was said, else spread over. */
import { spillAssumptions } from '../assumptions.ts'
import { normalQuantile } from '../draws.ts'
import type { Behaviour } from './film.ts'
import type { SpillMark } from '../marks.ts'
import type { Substance } from '../substance/substance.ts'

export interface Pushed {
  /** 0 where nothing pushed it. */
  readonly pushMm: number
  readonly weight: number
}

/** Distances that stand for "about so far": the middles of equally likely slices. */
const PUSH_SHARES = [0.125, 0.375, 0.625, 0.875]

/** What pressing does to the substance: how likely it was where nobody knows, and how far it pushes. */
export const pressingOf = ({ usual }: Substance): { chance: number; pushMm: number; pushSdLog: number } =>
  usual?.pressed ?? spillAssumptions.pressing.value

/** How likely it is that it was pressed on, from 0 to 1. An older mark that states how far says that it was. */
export function pressedChance(mark: SpillMark, substance: Substance): number {
  if (mark.pressed === 'no') return 0
  return mark.pressed === 'yes' || mark.pushMm > 0 ? 1 : pressingOf(substance).chance
}

/** The distances that it may have been pushed, ascending, with weights that sum to one; only what bodies keep out is pushed. */
export function pushesOf(mark: SpillMark, substance: Substance, behaviour: Behaviour): Pushed[] {
  const chance = behaviour.bodies === 'kept-out' ? pressedChance(mark, substance) : 0
  const still = { pushMm: 0, weight: 1 - chance }
  if (chance === 0) return [still]
  const about = mark.pushMm > 0 ? [mark.pushMm] : likelyPushes(substance)
  const pushed = about.map((pushMm) => ({ pushMm, weight: chance / about.length }))
  return chance === 1 ? pushed : [still, ...pushed]
}

function likelyPushes(substance: Substance): number[] {
  const { pushMm, pushSdLog } = pressingOf(substance)
  return PUSH_SHARES.map((share) => pushMm * Math.exp(pushSdLog * normalQuantile(share)))
}

/** How far it was pushed if it was: what is stated, else what is usual. */
export const pushIfPressedMm = (mark: SpillMark, substance: Substance): number =>
  mark.pushMm > 0 ? mark.pushMm : pressingOf(substance).pushMm
