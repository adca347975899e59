/**
 * Ways of the rare variables: all of them where they are few; else none, each state alone, and the likeliest of those with two
 * and three at once. Of these there are too many to weigh each, so the search goes on from what comes to most so far, and
 * tries beside it what may explain most of what is left unexplained there (a beam search; Lowerre, The HARPY Speech Recognition
 * System, 1976, from memory).
 */
import { type Bundle, bundled } from './bundle.ts'
import type { GroupSum } from './evaluate.ts'
import { type RestWeights, weightsOfTheRest } from './left-out.ts'
import type { ReducedVariable } from './states.ts'
import { type GroupValues, type PairTable, pairTable } from './values.ts'
import { allWays, wayWith, singleWays, type Way, type WaysInput } from './ways.ts'

/** The ways of the rare variables; they stay while a spill is dragged. */
export interface RareWays {
  readonly bundles: readonly Bundle[]
  /** By group: what it makes of them together with the likely ones. */
  readonly tables: readonly PairTable[]
  /** What they leave out; nothing where they are all that there are. */
  readonly rest: RestWeights | undefined
}

export interface RareInput extends WaysInput {
  readonly groups: readonly GroupSum[]
  readonly values: GroupValues
}

/** What was reported, marked or worked on is taken in all its states; of all others at most three are there at once. */
export const isLikely = ({ kind }: ReducedVariable): boolean => kind === 'spill' || kind === 'slip' || kind === 'refit'

/** How far the search goes with one variable more: from so many ways, with so many states beside each, keeping so many. */
interface Reach {
  readonly from: number
  readonly beside: number
  readonly kept: number
}

const PAIRS: Reach = { from: 60, beside: 100, kept: 1200 }
const TRIPLES: Reach = { from: 30, beside: 40, kept: 300 }

/** What the rare variables can be together, with the weights of what is left out for a bound. */
export function rareWays(input: RareInput): RareWays {
  const numbers = [...input.variables.keys()].filter((number) => {
    const variable = input.variables[number]
    return variable !== undefined && !isLikely(variable) && variable.touching.length > 0
  })
  // Few enough: everything is summed, exactly, and there is no rest to bound.
  const all = allWays(input, numbers)
  if (all !== undefined) return madeOf(input, all, undefined)
  const { none, singles } = singleWays(input, numbers)
  if (none.weight <= 0) return madeOf(input, [none, ...singles], weightsOfTheRest(input, [none, ...singles], numbers))
  const beside = besides(input, none, singles)
  const pairs = goneOnWith(input, firstsOf(input, none, beside), beside, PAIRS)
  const triples = goneOnWith(input, pairs, beside, TRIPLES)
  const ways = [none, ...singles, ...pairs, ...triples]
  return madeOf(input, ways, weightsOfTheRest(input, ways, numbers))
}

function madeOf(input: RareInput, ways: readonly Way[], rest: RestWeights | undefined): RareWays {
  const bundles = bundled(ways)
  const tables = input.groups.map((sum, group) => pairTable(sum, group, bundles))
  return { bundles, tables, rest }
}

function massOf({ values }: RareInput, { weight, patterns }: Way): number {
  let mass = weight
  for (let group = 0; group < patterns.length; group++) mass *= values.of(group, patterns[group] ?? 0).all
  return mass
}

/** States by what they come to alone, and as many by what they come to at best: each may be one of two that explain it all. */
function firstsOf(input: RareInput, none: Way, { singles, promises }: Besides): Way[] {
  const byMass = heaviest(
    singles,
    Float64Array.from(singles, (way) => massOf(input, way)),
    PAIRS.from / 2,
  )
  const byPromise = heaviest(singles, promises(none), PAIRS.from / 2)
  return [...new Set([...byMass, ...byPromise])]
}

interface Besides {
  readonly singles: readonly Way[]
  /** How much each single can add to a way at best: its weight, and each group that it touches explained for certain. */
  readonly promises: (way: Way) => Float64Array
}

function besides(input: RareInput, none: Way, singles: readonly Way[]): Besides {
  const touched = singles.map(({ patterns }) =>
    Int32Array.from(patterns.keys()).filter((group) => (patterns[group] ?? 0) !== 0),
  )
  const weights = Float64Array.from(singles, ({ weight }) => weight / none.weight)
  const promises = ({ patterns }: Way): Float64Array => {
    const gain = Float64Array.from(
      patterns,
      (pattern, group) => 1 / Math.max(1e-12, input.values.of(group, pattern).all),
    )
    const promise = weights.slice()
    for (const [at, groups] of touched.entries()) {
      for (let i = 0; i < groups.length; i++) promise[at] = (promise[at] ?? 0) * (gain[groups[i] ?? 0] ?? 1)
    }
    return promise
  }
  return { singles, promises }
}

/** The likeliest ways with one variable more than those, the likeliest first. */
function goneOnWith(input: RareInput, ways: readonly Way[], { singles, promises }: Besides, reach: Reach): Way[] {
  const seen = new Set<string>()
  const tried: Way[] = []
  for (const way of ways.slice(0, reach.from)) {
    for (const single of heaviest(singles, promises(way), reach.beside)) {
      const more = wayWith(input, way, single)
      if (more === undefined || more.weight <= 0) continue
      const key = keyOf(more)
      if (seen.has(key)) continue
      seen.add(key)
      tried.push(more)
    }
  }
  const masses = Float64Array.from(tried, (way) => massOf(input, way))
  return heaviest(tried, masses, reach.kept)
}

/** The same states come up in either order. */
const keyOf = ({ chosen }: Way): string =>
  chosen
    .map(({ variable, state }) => `${variable}.${state}`)
    .toSorted()
    .join()

/** So many of them with the largest values, which are not 0; the largest first. */
function heaviest(ways: readonly Way[], values: Float64Array, most: number): Way[] {
  const least = values.length > most ? (values.toSorted()[values.length - most] ?? 0) : 0
  const numbers: number[] = []
  for (let at = 0; at < values.length; at++) if ((values[at] ?? 0) > 0 && (values[at] ?? 0) >= least) numbers.push(at)
  return numbers
    .toSorted((a, b) => (values[b] ?? 0) - (values[a] ?? 0))
    .slice(0, most)
    .flatMap((at) => ways[at] ?? [])
}
