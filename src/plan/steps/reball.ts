/** How a part goes back on new balls, with minutes that add up to what the step costs. Common practice, no source. */
import { joined, numberWords, say } from '../../base/index.ts'
import type { PlacedPart } from '../../board/index.ts'
import { handsOffUntilC, jointWindow } from '../../heat/index.ts'
import { ballSetOf, reballMinutes } from '../../suspects/index.ts'
import type { ShopSettings } from '../settings.ts'
import { alloyWords } from './alloy-words.ts'

/** Of the minutes that do not hang on the number of balls. */
const SHARES = { wick: 4 / 12, look: 2 / 12, melt: 3 / 12, wash: 3 / 12 }

/**
 * The work on these parts in order, a line each with its minutes.
 * @returns lines whose minutes sum to `reballMinutes` of all parts, rounded
 */
export function reballLines(parts: readonly PlacedPart[], settings: ShopSettings): string[] {
  const whole = sum(parts, (part) => reballMinutes(part, settings))
  const setting = sum(parts, (part) => reballMinutes(part, settings) - fixedMinutes(part, settings))
  const fixed = whole - setting
  const [wick = 0, look = 0, set = 0, melt = 0, wash = 0] = rounded([
    fixed * SHARES.wick,
    fixed * SHARES.look,
    setting,
    fixed * SHARES.melt,
    fixed * SHARES.wash,
  ])
  const { coldestLeastC, hottestMostC } = jointWindow(parts, 'refit')
  const untilC = handsOffUntilC(parts.map(({ description }) => description))
  return [
    say('1. Wick the old balls off over a warm plate, level, and clean the pads with solvent ({wick} min).', { wick }),
    say('2. Look at every pad under the microscope: one that is lifted or bare means a new part ({look} min).', {
      look,
    }),
    say('3. A film of tacky flux, {balls} ({set} min).', { balls: joined(parts.map(ballWords)), set }),
    say(
      '4. Melt them with soft air on a warm plate, balls at {coldestLeastC} to {hottestMostC} °C, until each is round and bright; not moved above {untilC} °C ({melt} min).',
      { coldestLeastC, hottestMostC, untilC, melt },
    ),
    say('5. Wash the flux off, blow dry, and look for balls that are missing, low or bridged ({wash} min).', { wash }),
  ]
}

/** `stencil of 1 mm pitch, 1,936 balls of 0.6 mm, SAC305` */
function ballWords(part: PlacedPart): string {
  const balls = ballSetOf(part)
  return balls === undefined
    ? say('stencil and balls of the size that came off, {alloy}', { alloy: alloyWords(part) })
    : say(
        'stencil of {pitchMm} mm pitch, {count, plural, one {{words} ball} other {{words} balls}} of {diameterMm} mm, {alloy}',
        {
          pitchMm: balls.pitchMm,
          count: balls.count,
          words: numberWords(balls.count),
          diameterMm: balls.diameterMm,
          alloy: alloyWords(part),
        },
      )
}

/** What the same part without a ball on it would take. */
function fixedMinutes(part: PlacedPart, settings: ShopSettings): number {
  const { minutes } = settings
  return reballMinutes(part, { ...settings, minutes: { ...minutes, reballPerHundredBalls: 0 } })
}

/** Whole numbers that sum to the rounded sum: each is the step from one rounded running total to the next. */
function rounded(minutes: readonly number[]): number[] {
  let before = 0
  let total = 0
  return minutes.map((each) => {
    total += each
    const step = Math.round(total) - before
    before += step
    return step
  })
}

const sum = <T>(items: readonly T[], value: (item: T) => number): number =>
  items.reduce((total, item) => total + value(item), 0)
