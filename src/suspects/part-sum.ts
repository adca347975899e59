/**
 * Given what the shared causes do, the parts of a board are independent of each other: each part's own causes (die,
 * joints, command groups, corridors) are summed out by themselves. This file is that sum for one part.
 */
import type { ReducedPoint } from './reduce.ts'

/** The causes that touch only one part's bad findings. */
export interface OwnCauses {
  readonly bits: readonly number[]
  /** Index into `Problem.points`. */
  readonly indices: readonly number[]
  readonly points: readonly ReducedPoint[]
}

/** The same made ready for the sum, with some causes taken to be absent or there. */
export interface OwnSum {
  readonly bits: readonly number[]
  /** Product of what was decided beforehand. */
  readonly factor: number
  /** By position in `bits`: what leak and single-lane causes leave good. */
  readonly good: Float64Array
  /** Causes of several lanes, which are enumerated: probability and what each leaves good, by position in `bits`. */
  readonly several: readonly { readonly probability: number; readonly good: Float64Array }[]
}

export function ownSum(
  own: OwnCauses,
  leak: Float64Array,
  decided: (point: ReducedPoint, index: number) => boolean | undefined,
): OwnSum {
  const good = Float64Array.from(own.bits, (bit) => 1 - (leak[bit] ?? 0))
  const several: { probability: number; good: Float64Array }[] = []
  let factor = 1
  for (const [at, point] of own.points.entries()) {
    const fixed = decided(point, own.indices[at] ?? -1)
    if (fixed === false) {
      factor *= 1 - point.probability
      continue
    }
    if (fixed === true) factor *= point.probability
    const leaves = leavesGood(own.bits, point)
    const probability = fixed === true ? 1 : point.probability
    if (point.firing.bits.length > 1 && fixed === undefined) several.push({ probability, good: leaves })
    else for (let i = 0; i < good.length; i++) good[i] = (good[i] ?? 1) * (1 - probability * (1 - (leaves[i] ?? 1)))
  }
  return { bits: own.bits, factor, good, several }
}

function leavesGood(bits: readonly number[], point: ReducedPoint): Float64Array {
  const good = new Float64Array(bits.length).fill(1)
  for (const [i, bit] of point.firing.bits.entries()) good[bits.indexOf(bit)] = 1 - (point.firing.q[i] ?? 0)
  return good
}

/** Probability that all of the part's bad findings are bad; `goodByShared` is by position in `bits`. */
export function sumOver(sum: OwnSum, goodByShared: Float64Array): number {
  const good = sum.good.map((value, i) => value * (goodByShared[i] ?? 1))
  return sum.factor * sumFrom(sum, 0, good)
}

function sumFrom(sum: OwnSum, depth: number, good: Float64Array): number {
  const cause = sum.several[depth]
  if (cause === undefined) {
    let product = 1
    for (let i = 0; i < good.length; i++) product *= 1 - (good[i] ?? 1)
    return product
  }
  const absent = cause.probability < 1 ? (1 - cause.probability) * sumFrom(sum, depth + 1, good) : 0
  if (cause.probability === 0) return absent
  const withIt = good.map((value, i) => value * (cause.good[i] ?? 1))
  return absent + cause.probability * sumFrom(sum, depth + 1, withIt)
}
