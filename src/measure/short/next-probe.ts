/**
 * Where the next reading tells most. Before it is taken, a reading at x is a mixture over the places of the short: for
 * each, normal about what that place would give, as wide as meter, shape, offset and scale leave it. Its mutual
 * information with the place is the mixture's entropy less the mean entropy of its components (Lindley, Ann. Math. Stat.
 * 27, 1956), summed over a line of voltages.
 */
import type { Drop, Evidence } from './likelihood.ts'

/** A place of the short that stands for an equal share of the probability. */
export interface Standing {
  readonly node: number
  readonly x: number
  readonly y: number
}

export interface Outlook {
  readonly nats: number
  /** Expected variance of the place after the reading, mm2. */
  readonly varianceMm2: number
  /** What the middle 80 % of the likely places would read, apart, mV. */
  readonly rangeMillivolt: number
}

const REACH_SD = 5
const STEP_SD = 0.5
const MOST_STEPS = 6000

/**
 * @param drop what the place to probe would read for every place of the short
 * @param evidence of the readings so far, at least one
 */
export function outlookOf(drop: Drop, standing: readonly Standing[], evidence: Evidence, sdMillivolt: number): Outlook {
  const middle = new Float64Array(standing.length)
  const spread = new Float64Array(standing.length)
  let low = Infinity
  let high = -Infinity
  let narrowest = Infinity
  let widest = 0
  for (const [k, { node }] of standing.entries()) {
    const scale = Math.exp(evidence.u[node] ?? 0)
    const difference = ((drop.millivolt[node] ?? 0) - (evidence.modelMean[node] ?? 0)) * scale
    const own = sdMillivolt ** 2 + (drop.looser.get(node) ?? 0) + (evidence.offsetVariance[node] ?? 0)
    const sd = Math.sqrt(own + difference ** 2 * (evidence.uVariance[node] ?? 0))
    const expected = (evidence.readMean[node] ?? 0) + difference
    middle[k] = expected
    spread[k] = sd
    low = Math.min(low, expected)
    high = Math.max(high, expected)
    narrowest = Math.min(narrowest, sd)
    widest = Math.max(widest, sd)
  }
  const from = low - REACH_SD * widest
  const span = high - low + 2 * REACH_SD * widest
  const steps = Math.min(MOST_STEPS, Math.ceil(span / (STEP_SD * narrowest)) + 1)
  const summed = sumOverLine(standing, middle, spread, from, span / (steps - 1), steps)
  const sorted = middle.toSorted()
  const at = (share: number): number => sorted[Math.floor(share * (sorted.length - 1))] ?? 0
  return { ...summed, rangeMillivolt: at(0.9) - at(0.1) }
}

function sumOverLine(
  standing: readonly Standing[],
  middle: Float64Array,
  spread: Float64Array,
  from: number,
  step: number,
  steps: number,
): { nats: number; varianceMm2: number } {
  const density = new Float64Array(steps)
  const sumX = new Float64Array(steps)
  const sumY = new Float64Array(steps)
  const share = 1 / standing.length
  let square = 0
  let within = 0
  for (const [k, { x, y }] of standing.entries()) {
    const sd = spread[k] ?? 1
    const centre = middle[k] ?? 0
    const first = Math.max(0, Math.floor((centre - REACH_SD * sd - from) / step))
    const last = Math.min(steps - 1, Math.ceil((centre + REACH_SD * sd - from) / step))
    const front = (share * step) / (sd * Math.sqrt(2 * Math.PI))
    for (let i = first; i <= last; i++) {
      const t = (from + i * step - centre) / sd
      const p = front * Math.exp(-0.5 * t * t)
      density[i] = (density[i] ?? 0) + p
      sumX[i] = (sumX[i] ?? 0) + p * x
      sumY[i] = (sumY[i] ?? 0) + p * y
    }
    square += share * (x * x + y * y)
    within += share * 0.5 * Math.log(2 * Math.PI * Math.E * sd * sd)
  }
  let entropy = 0
  let explained = 0
  for (let i = 0; i < steps; i++) {
    const p = density[i] ?? 0
    if (p <= 0) continue
    entropy -= p * Math.log(p / step)
    explained += ((sumX[i] ?? 0) ** 2 + (sumY[i] ?? 0) ** 2) / p
  }
  return { nats: Math.max(0, entropy - within), varianceMm2: Math.max(0, square - explained) }
}
