/** How the card hung in its case, and what that means for a spill: which way is down on the sheet, and which side faced down. */
import { say } from '../base/index.ts'
import { z } from 'zod'
import type { Side } from '../board/index.ts'
import type { SpillMark } from './marks.ts'

export const mountingSchema = z.enum(['hanging', 'flat', 'upright', 'slot-up', 'bracket-down', 'bracket-up'])
/** `flat`: level, core side up. `hanging`: level, core side down. `upright`: on the slot edge. */
export type Mounting = z.infer<typeof mountingSchema>

/** In a word or two, for a list of stations. */
export const shortMountingWords: Readonly<Record<Mounting, string>> = {
  hanging: say('core side down'),
  flat: say('core side up'),
  upright: say('upright'),
  'slot-up': say('slot edge up'),
  'bracket-down': say('bracket down'),
  'bracket-up': say('bracket up'),
}

/** In plain words. Sheets are drawn with the slot edge below and the bracket on the left; the words name the edge of the sheet that was down. */
export const mountingWords: Readonly<Record<Mounting, string>> = {
  hanging: say('Core side down, as in a tower'),
  flat: say('Core side up, lying'),
  upright: say('On edge, slot down (lower edge down)'),
  'slot-up': say('On edge, slot up (upper edge down)'),
  'bracket-down': say('On edge, bracket down (left edge down)'),
  'bracket-up': say('On edge, bracket up (right edge down)'),
}

const DOWN_DEG: Readonly<Partial<Record<Mounting, number>>> = {
  upright: 270,
  'slot-up': 90,
  'bracket-down': 180,
  'bracket-up': 0,
}

/** The fields of a mark on a card that was mounted so. */
export function mountedAs(mounting: Mounting): Pick<SpillMark, 'downDeg' | 'lay'> {
  const downDeg = DOWN_DEG[mounting]
  if (downDeg !== undefined) return { downDeg }
  return { lay: mounting === 'hanging' ? 'core-down' : 'core-up' }
}

/** What a mark says of it: one of these, another angle, or nothing. */
export type Hung = Mounting | 'at an angle' | 'not said'

/** For a list to choose from, the usual ones first. */
export const hungWords: Readonly<Record<Hung, string>> = {
  ...mountingWords,
  'at an angle': say('On edge, at another angle'),
  'not said': say('Not said'),
}

/**
 * The way of hanging that a mark's fields stand for; the inverse of `mountedAs`. Angles count modulo 360°, and an
 * angle counts before `lay`.
 */
export function hungOf({ downDeg, lay }: Pick<SpillMark, 'downDeg' | 'lay'>): Hung {
  if (downDeg !== undefined) {
    const turn = fullTurn(downDeg)
    return mountingSchema.options.find((mounting) => DOWN_DEG[mounting] === turn) ?? 'at an angle'
  }
  if (lay === undefined) return 'not said'
  return lay === 'core-down' ? 'hanging' : 'flat'
}

/** The same direction from 0 up to 360 degrees. */
export const fullTurn = (deg: number): number => ((deg % 360) + 360) % 360

/** Whether the side with the spill faced down, so that only drops cling to it. Where nothing was said it lay. */
export function hangsDown(
  { side, downDeg, lay }: Pick<SpillMark, 'side' | 'downDeg' | 'lay'>,
  coreSide: Side,
): boolean {
  if (downDeg !== undefined || lay === undefined) return false
  return (side === coreSide) === (lay === 'core-down')
}
