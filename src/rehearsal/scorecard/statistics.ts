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
  readonly said: number
  readonly was: number
  readonly bins: readonly CalibrationBin[]
}

const BINS = 10

export function calibrationOf(said: readonly Said[]): Calibration {
  const counts = new Float64Array(BINS)
  const saidSums = new Float64Array(BINS)
  const wasSums = new Float64Array(BINS)
  let squares = 0
  for (const [probability, was] of said) {
    const bin = Math.min(BINS - 1, Math.max(0, Math.floor(probability * BINS)))
    counts[bin] = (counts[bin] ?? 0) + 1
    saidSums[bin] = (saidSums[bin] ?? 0) + probability
    wasSums[bin] = (wasSums[bin] ?? 0) + was
    squares += (probability - was) ** 2
  }
  const count = Math.max(1, said.length)
  let gap = 0
  for (let bin = 0; bin < BINS; bin++) gap += Math.abs((saidSums[bin] ?? 0) - (wasSums[bin] ?? 0)) / count
  const bins = Array.from(counts, (n, bin) => ({
    from: bin / BINS,
    count: n,
    said: n === 0 ? 0 : (saidSums[bin] ?? 0) / n,
    was: n === 0 ? 0 : (wasSums[bin] ?? 0) / n,
  }))
  const total = (sums: Float64Array): number => sums.reduce((sum, each) => sum + each, 0) / count
  return { count: said.length, brier: squares / count, ece: gap, said: total(saidSums), was: total(wasSums), bins }
}
