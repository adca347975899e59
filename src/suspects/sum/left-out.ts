/**
 * A bound on what was not summed: more rare variables at once than were taken. Each state of those is asked only which
 * groups it touches; a group that one of them touches counts as explained for certain, any other as the likely variables
 * leave it. Over all products of states that is a product of sums, one for each set of groups (Yates' transform).
 */
import type { Bundle } from './bundle.ts'
import type { ReducedVariable } from './states.ts'
import type { PairTable } from './values.ts'
import type { Way, WaysInput } from './ways.ts'

/** Beyond so many groups, those that come last count as explained for certain. */
const MOST_GROUPS = 12
/** Up to so many groups every column is asked what it leaves of the groups that nothing rare touches. */
const BY_COLUMN_UP_TO = 6

/** How much weight of the rare variables was not taken, by the set of groups that it touches. */
export interface RestWeights {
  readonly groups: number
  readonly bySet: Float64Array
}

/** @param ways those that were taken */
export function weightsOfTheRest(input: WaysInput, ways: readonly Way[], numbers: readonly number[]): RestWeights {
  const groups = Math.min(MOST_GROUPS, input.books.length)
  const size = 1 << groups
  const sums = new Float64Array(size).fill(1)
  // States of several variables touch the union of their sets. Summed over subsets first, that is a product set by
  // set.
  for (const number of numbers) {
    const own = subsetSums(maskWeights(input.variables[number], groups), groups)
    for (let set = 0; set < size; set++) sums[set] = (sums[set] ?? 0) * (own[set] ?? 0)
  }
  // Back from sums over subsets to the weight of each set, less what was taken: what is left was not summed.
  const bySet = differences(sums, groups)
  for (const { weight, patterns } of ways) {
    const mask = maskOf(patterns, groups)
    bySet[mask] = (bySet[mask] ?? 0) - weight
  }
  return { groups, bySet }
}

export interface LikelyColumns {
  readonly columns: readonly Bundle[]
  /** By group: what it makes of the likely variables beside the rare ones, the first row being none of these. */
  readonly tables: readonly PairTable[]
  /** By group, by column: its number in the group's table. */
  readonly columnsOf: readonly Int32Array[]
}

/** @returns at most so much mass (on the scale of `Posterior.evidence`) lies in what the rare ways leave out */
export function boundOnTheRest({ groups, bySet }: RestWeights, likely: LikelyColumns): number {
  const left = leftBy(likely, groups)
  let bound = 0
  for (let set = 0; set < bySet.length; set++) {
    const weight = bySet[set] ?? 0
    if (weight > 0) bound += weight * left(set)
  }
  return bound
}

/** What the likely variables make of all groups but those of a set, at most. */
function leftBy({ columns, tables, columnsOf }: LikelyColumns, groups: number): (set: number) => number {
  const value = (group: number, column: number): number =>
    tables[group]?.value(NONE_OF_THE_RARE, columnsOf[group]?.[column] ?? 0) ?? 1
  if (groups <= BY_COLUMN_UP_TO) {
    return (set) => {
      let sum = 0
      for (const [column, { weight }] of columns.entries()) {
        let product = weight
        for (let group = 0; group < groups; group++) if (((set >> group) & 1) === 0) product *= value(group, column)
        sum += product
      }
      return sum
    }
  }
  const whole = columns.reduce((sum, { weight }) => sum + weight, 0)
  const most = Float64Array.from({ length: groups }, (_, group) => {
    let best = 0
    for (let column = 0; column < columns.length; column++) best = Math.max(best, value(group, column))
    return best
  })
  return (set) => {
    let product = whole
    for (let group = 0; group < groups; group++) if (((set >> group) & 1) === 0) product *= most[group] ?? 1
    return product
  }
}

/** The first of the rare ways has none of the variables in a state that touches anything. */
const NONE_OF_THE_RARE = 0

function maskOf(patterns: Int32Array, groups: number): number {
  let mask = 0
  for (let group = 0; group < groups; group++) if ((patterns[group] ?? 0) !== 0) mask |= 1 << group
  return mask
}

/** Weight of a variable's states by the set of groups that they touch; none where it is quiet. */
function maskWeights(variable: ReducedVariable | undefined, groups: number): Float64Array {
  const weights = new Float64Array(1 << groups)
  weights[0] = variable?.quiet ?? 1
  for (const state of variable?.touching ?? []) {
    const { weight = 0, patterns = new Int32Array(0) } = variable?.states[state] ?? {}
    const mask = maskOf(patterns, groups)
    weights[mask] = (weights[mask] ?? 0) + weight
  }
  return weights
}

/** By set: the sum over all its subsets. */
function subsetSums(values: Float64Array, groups: number): Float64Array {
  const sums = values.slice()
  for (let bit = 1; bit < 1 << groups; bit <<= 1) {
    for (let set = 0; set < sums.length; set++) if (set & bit) sums[set] = (sums[set] ?? 0) + (sums[set ^ bit] ?? 0)
  }
  return sums
}

function differences(sums: Float64Array, groups: number): Float64Array {
  const values = sums.slice()
  for (let bit = 1; bit < 1 << groups; bit <<= 1) {
    for (let set = 0; set < values.length; set++)
      if (set & bit) values[set] = (values[set] ?? 0) - (values[set ^ bit] ?? 0)
  }
  return values
}
