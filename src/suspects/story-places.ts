/** Where the spatial causes are in a story: ways, each with a weight and with what it leaves good of each bad finding. */
import type { Problem } from './posterior.ts'
import type { ReducedSpatial } from './reduce.ts'

/** Share of a group's weight that lies under a label. */
export const shareUnder = (spatial: ReducedSpatial, group: number, label: number): number =>
  spatial.labelWeight[group * spatial.cause.labels.length + label] ?? 0

/** The most that ways can come to. */
export interface Bounds {
  readonly totalWeight: number
  /** By bit, the least share that stays good over all ways. */
  readonly leastGood: Float64Array
}

/** Ways in which the spatial causes can be: a weight and, row by way and column by bit, the share that stays good. */
export interface Ways extends Bounds {
  readonly weight: Float64Array
  readonly good: Float64Array
}

/** Ways of all spatial causes at once, leaks included. */
export type Places = Ways

/** Bounds of all ways of several spatial causes at once, leaks included. */
export function boundsOf({ leak }: Problem, options: readonly Bounds[]): Bounds {
  const leastGood = leak.map((value) => 1 - value)
  let totalWeight = 1
  for (const option of options) {
    totalWeight *= option.totalWeight
    for (let bit = 0; bit < leastGood.length; bit++)
      leastGood[bit] = (leastGood[bit] ?? 1) * (option.leastGood[bit] ?? 1)
  }
  return { totalWeight, leastGood }
}

function withBounds(n: number, weight: Float64Array, good: Float64Array): Ways {
  const leastGood = new Float64Array(n).fill(1)
  let totalWeight = 0
  for (let way = 0, at = 0; way < weight.length; way++) {
    totalWeight += weight[way] ?? 0
    for (let bit = 0; bit < n; bit++, at++) {
      const value = good[at] ?? 1
      if (value < (leastGood[bit] ?? 1)) leastGood[bit] = value
    }
  }
  return { weight, good, totalWeight, leastGood }
}

/** Ways that together weigh less than this share of the evidence are dropped: for few bad findings, and for many. */
const NEGLIGIBLE = 1e-11
const NEGLIGIBLE_OF_MANY = 1e-4
const MANY = 13

export function placesUnder(problem: Problem, options: readonly Ways[], evidence: number): Places {
  const { n, leak } = problem
  let ways = withBounds(
    n,
    Float64Array.of(1),
    leak.map((value) => 1 - value),
  )
  for (const option of options) ways = product(n, ways, option, evidence)
  return n > MANY ? mattering(n, ways, NEGLIGIBLE_OF_MANY * evidence) : ways
}

/** Drops the ways that together can't come to more than `floor`, whatever else is there. */
function mattering(n: number, ways: Ways, floor: number): Ways {
  const order = [...ways.weight.keys()].toSorted((a, b) => (ways.weight[b] ?? 0) - (ways.weight[a] ?? 0))
  let rest = ways.weight.reduce((sum, weight) => sum + weight, 0)
  const kept = order.filter((way) => {
    const matters = rest > floor
    rest -= ways.weight[way] ?? 0
    return matters
  })
  const good = new Float64Array(kept.length * n)
  for (const [at, way] of kept.entries()) good.set(ways.good.subarray(way * n, way * n + n), at * n)
  return withBounds(
    n,
    Float64Array.from(kept, (way) => ways.weight[way] ?? 0),
    good,
  )
}

function product(n: number, first: Ways, second: Ways, evidence: number): Ways {
  const most = first.weight.length * second.weight.length
  const weight = new Float64Array(most)
  const good = new Float64Array(most * n)
  const floor = (NEGLIGIBLE * evidence) / most
  let count = 0
  for (let a = 0; a < first.weight.length; a++) {
    for (let b = 0; b < second.weight.length; b++) {
      const both = (first.weight[a] ?? 0) * (second.weight[b] ?? 0)
      if (both <= floor) continue
      weight[count] = both
      for (let bit = 0; bit < n; bit++) {
        good[count * n + bit] = (first.good[a * n + bit] ?? 1) * (second.good[b * n + bit] ?? 1)
      }
      count++
    }
  }
  return withBounds(n, weight.subarray(0, count), good.subarray(0, count * n))
}

/** The ways of one spatial cause under a label, or of touching nothing where there is none. */
export function waysOf(n: number, spatial: ReducedSpatial, label: number | undefined): Ways {
  if (label === undefined) {
    return withBounds(n, Float64Array.of(weightUntouching(spatial)), new Float64Array(n).fill(1))
  }
  const weight = new Float64Array(spatial.groups.length)
  const good = new Float64Array(spatial.groups.length * n).fill(1)
  let count = 0
  for (const [index, group] of spatial.groups.entries()) {
    const share = shareUnder(spatial, index, label)
    const { bits, q } = group.firing
    if (bits.length === 0 || share === 0) continue
    weight[count] = share
    for (let i = 0; i < bits.length; i++) good[count * n + (bits[i] ?? 0)] = 1 - (q[i] ?? 0)
    count++
  }
  return withBounds(n, weight.subarray(0, count), good.subarray(0, count * n))
}

function weightUntouching(spatial: ReducedSpatial): number {
  let weight = spatial.absent
  for (const group of spatial.groups) if (group.firing.bits.length === 0) weight += group.weight
  return weight
}
