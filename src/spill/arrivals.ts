/** Which targets each place and amount reaches. More of a substance reaches no less, so one number a place says it all. */
import type { FieldStore } from './fields.ts'
import type { Place, Places } from './places.ts'
import type { Target } from './targets.ts'
import { type EffortWindow, effortAt, type Spot } from './window.ts'

/** All the ways in which a spill may have gone: places × amount levels. */
export interface Spread {
  readonly places: Places
  /** Weight of each amount level, ascending amounts; they sum to one. */
  readonly levelWeights: Float64Array
  /** Effort radius in mm at place i and level j: entry i · levels + j, not falling with j. */
  readonly radiusMm: Float64Array
  /** Streaks downhill from each place, or undefined where nothing runs. */
  readonly streaks: Streaks | undefined
}

export interface Streaks {
  /** Spots along the streak of place i: entries start[i] to start[i + 1], nearest first. */
  readonly spots: readonly Spot[]
  readonly start: Int32Array
  /** How many of these spots the streak of place i at level j holds: entry i · levels + j, not falling with j. */
  readonly count: Int32Array
}

/** Per place the lowest level that reaches the target; the number of levels where none does. */
export function firstLevels(target: Target, fields: FieldStore, spread: Spread, limitMm: number): Uint8Array {
  const window = fields.of(target, limitMm)
  const levels = spread.levelWeights.length
  const first = new Uint8Array(spread.places.list.length).fill(levels)
  if (window.columns === 0) return first
  for (const [i, place] of spread.places.list.entries()) {
    first[i] = spread.streaks
      ? firstOnStreak(window, place, i, spread, spread.streaks)
      : firstWithin(effortAt(window, place.spot), i, spread)
  }
  return first
}

function firstWithin(effortMm: number, place: number, spread: Spread): number {
  const levels = spread.levelWeights.length
  if (effortMm === Infinity) return levels
  let level = 0
  while (level < levels && effortMm > (spread.radiusMm[place * levels + level] ?? 0)) level++
  return level
}

/** The effort to a streak is the least along it; a longer streak only adds to it. */
function firstOnStreak(window: EffortWindow, place: Place, i: number, spread: Spread, streaks: Streaks): number {
  const levels = spread.levelWeights.length
  const start = streaks.start[i] ?? 0
  let least = effortAt(window, place.spot)
  let seen = 0
  for (let level = 0; level < levels; level++) {
    const count = streaks.count[i * levels + level] ?? 0
    for (; seen < count; seen++) {
      const spot = streaks.spots[start + seen]
      const effortMm = spot === undefined ? Infinity : effortAt(window, spot)
      if (effortMm < least) least = effortMm
    }
    if (least <= (spread.radiusMm[i * levels + level] ?? 0)) return level
  }
  return levels
}

/** Probability that a target is reached, from its first levels. */
export function probabilityOf(first: Uint8Array, spread: Spread): number {
  const levels = spread.levelWeights.length
  const fromLevel = new Float64Array(levels + 1)
  for (let level = levels - 1; level >= 0; level--) {
    fromLevel[level] = (fromLevel[level + 1] ?? 0) + (spread.levelWeights[level] ?? 0)
  }
  let sum = 0
  for (const [i, place] of spread.places.list.entries()) sum += place.weight * (fromLevel[first[i] ?? levels] ?? 0)
  return Math.min(1, Math.max(0, sum))
}

/** First levels of "any of these": the least, place by place. */
export function leastLevels(all: readonly Uint8Array[]): Uint8Array {
  const least = Uint8Array.from(all[0] ?? [])
  for (const one of all) {
    for (let i = 0; i < least.length; i++) least[i] = Math.min(least[i] ?? 0, one[i] ?? 0)
  }
  return least
}

/** The farthest that any place and amount gets. */
export function farthestMm(spread: Spread): number {
  let farthest = 0
  for (const radiusMm of spread.radiusMm) if (radiusMm > farthest) farthest = radiusMm
  return farthest
}
