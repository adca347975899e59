/** Means with bootstrap intervals, and how far probabilities said are from what was so. */
import { type Random, seededRandom } from '../../base/index.ts'
import type { Said } from './score-card.ts'

export interface Interval {
  readonly value: number
  readonly low: number
  readonly high: number
}

const RESAMPLES = 1000

/**
 * A statistic with its percentile interval of 95 % (Efron and Tibshirani, An Introduction to the Bootstrap, 1993, 13.3).
 * @param statistic of the cards at these indices
 */
export function bootstrap(
  count: number,
  statistic: (indices: Uint32Array) => number,
  random: Random = seededRandom(1),
): Interval {
  const all = Uint32Array.from({ length: count }, (_, i) => i)
  const draw = new Uint32Array(count)
  const values = new Float64Array(RESAMPLES)
  for (let resample = 0; resample < RESAMPLES; resample++) {
    for (let i = 0; i < count; i++) draw[i] = random.whole(count)
    values[resample] = statistic(draw)
  }
  values.sort()
  const at = (share: number): number => values[Math.min(RESAMPLES - 1, Math.floor(share * RESAMPLES))] ?? 0
  return { value: statistic(all), low: at(0.025), high: at(0.975) }
}

/** The plain mean; 0 for none. */
export const mean = (values: readonly number[]): number =>
  values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length

/** The mean with its 95 % bootstrap interval, resampled over the values; 0 for none. */
export function meanOf(values: readonly number[]): Interval {
  return bootstrap(values.length, (indices) => {
    let sum = 0
    for (const index of indices) sum += values[index] ?? 0
    return indices.length === 0 ? 0 : sum / indices.length
  })
}

/** Ratio of two sums over the same cards. */
export function ratioOf(above: readonly number[], below: readonly number[]): Interval {
  return bootstrap(above.length, (indices) => {
    let a = 0
    let b = 0
    for (const index of indices) {
      a += above[index] ?? 0
      b += below[index] ?? 0
    }
    return b === 0 ? 0 : a / b
  })
}

export interface CalibrationBin {
  readonly from: number
  readonly count: number
  readonly said: number
  readonly was: number
}

export interface Calibration {
  readonly count: number
  /** Mean squared error (Brier, Verification of forecasts expressed in terms of probability, 1950, one class). */
  readonly brier: number
  /** Expected calibration error over equal-width bins (Naeini, Cooper and Hauskrecht, AAAI 2015). */
  readonly ece: number
  /** What the error would be by chance alone, with so few, if every probability were exact. */
  readonly eceByChance: number
  readonly said: number
  readonly was: number
  readonly bins: readonly CalibrationBin[]
}

const BINS = 10
const CHANCE_DRAWS = 60

/**
 * Brier score, expected calibration error in ten bins of equal width, and what that error comes to by chance alone if
 * all that was said were right.
 */
export function calibrationOf(said: readonly Said[]): Calibration {
  const sums = sumByBin(said)
  const count = Math.max(1, said.length)
  let squares = 0
  for (const [probability, was] of said) squares += (probability - was) ** 2
  const bins = Array.from(sums.counts, (n, bin) => ({
    from: bin / BINS,
    count: n,
    said: n === 0 ? 0 : (sums.said[bin] ?? 0) / n,
    was: n === 0 ? 0 : (sums.was[bin] ?? 0) / n,
  }))
  const total = (values: Float64Array): number => values.reduce((sum, each) => sum + each, 0) / count
  return {
    count: said.length,
    brier: squares / count,
    ece: gapOf(sums, count),
    eceByChance: gapByChance(said),
    said: total(sums.said),
    was: total(sums.was),
    bins,
  }
}

interface BinSums {
  readonly counts: Float64Array
  readonly said: Float64Array
  readonly was: Float64Array
}

function sumByBin(said: readonly Said[]): BinSums {
  const sums = { counts: new Float64Array(BINS), said: new Float64Array(BINS), was: new Float64Array(BINS) }
  for (const [probability, was] of said) {
    const bin = Math.min(BINS - 1, Math.max(0, Math.floor(probability * BINS)))
    sums.counts[bin] = (sums.counts[bin] ?? 0) + 1
    sums.said[bin] = (sums.said[bin] ?? 0) + probability
    sums.was[bin] = (sums.was[bin] ?? 0) + was
  }
  return sums
}

function gapOf({ said, was }: BinSums, count: number): number {
  let gap = 0
  for (let bin = 0; bin < BINS; bin++) gap += Math.abs((said[bin] ?? 0) - (was[bin] ?? 0)) / count
  return gap
}

/** Mean over outcomes that are drawn with the probabilities that were said. */
function gapByChance(said: readonly Said[]): number {
  if (said.length === 0) return 0
  const random = seededRandom(2)
  let sum = 0
  for (let draw = 0; draw < CHANCE_DRAWS; draw++) {
    const drawn = said.map(([probability]): Said => [probability, random.next() < probability ? 1 : 0])
    sum += gapOf(sumByBin(drawn), said.length)
  }
  return sum / CHANCE_DRAWS
}
