/** Where the spatial causes are in a story: ways, each with a weight and with what it leaves good of each bad finding. */
import type { Problem } from './posterior.ts'
import type { ReducedSpatial } from './reduce.ts'

/** Share of a group's weight that lies under a label. */
export const shareUnder = (spatial: ReducedSpatial, group: number, label: number): number =>
  spatial.labelWeight[group * spatial.cause.labels.length + label] ?? 0

/** Ways in which the spatial causes can be under chosen labels: a weight and, by bit, the share that stays good. */
export interface Places {
  readonly weight: Float64Array
  /** Row by way, column by bit. */
  readonly good: Float64Array
  readonly totalWeight: number
  /** By bit, the least over all ways. */
  readonly leastGood: Float64Array
}

/** Ways that together weigh less than this share of the evidence are dropped: for few bad findings, and for many. */
const NEGLIGIBLE = 1e-11
const NEGLIGIBLE_OF_MANY = 1e-4
const MANY = 13

export function placesUnder(problem: Problem, options: readonly Ways[], evidence: number): Places {
  const { n, leak } = problem
  let ways: Ways = { weight: Float64Array.of(1), good: leak.map((value) => 1 - value) }
  for (const option of options) ways = product(n, ways, option, evidence)
  if (n > MANY) ways = mattering(n, ways, NEGLIGIBLE_OF_MANY * evidence)
  const leastGood = new Float64Array(n).fill(1)
  let totalWeight = 0
  for (let way = 0; way < ways.weight.length; way++) {
    totalWeight += ways.weight[way] ?? 0
    for (let bit = 0; bit < n; bit++) leastGood[bit] = Math.min(leastGood[bit] ?? 1, ways.good[way * n + bit] ?? 1)
  }
  return { ...ways, totalWeight, leastGood }
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
  return {
    weight: Float64Array.from(kept, (way) => ways.weight[way] ?? 0),
    good: Float64Array.from(kept.flatMap((way) => [...ways.good.subarray(way * n, way * n + n)])),
  }
}

/** Weight by way; row by way and column by bit: what stays good. */
export interface Ways {
  readonly weight: Float64Array
  readonly good: Float64Array
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
  return { weight: weight.subarray(0, count), good: good.subarray(0, count * n) }
}

/** The ways of one spatial cause under a label, or of touching nothing where there is none. */
export function waysOf(n: number, spatial: ReducedSpatial, label: number | undefined): Ways {
  if (label === undefined) {
    return { weight: Float64Array.of(weightUntouching(spatial)), good: new Float64Array(n).fill(1) }
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
  return { weight: weight.subarray(0, count), good: good.subarray(0, count * n) }
}

function weightUntouching(spatial: ReducedSpatial): number {
  let weight = spatial.absent
  for (const group of spatial.groups) if (group.firing.bits.length === 0) weight += group.weight
  return weight
}
