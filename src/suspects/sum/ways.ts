/**
 * Ways in which shared variables can be together: each a weight, the pattern that it has at every group, and which state
 * every variable is in. Rare variables (rails, stages, the core, what nobody reported) are at most three at once unless
 * the board is small; those that are likely (reported spills, slips) are taken in every state.
 */
import { meanOver } from './effect.ts'
import type { PatternBook } from './patterns.ts'
import type { ReducedState, ReducedVariable } from './states.ts'

/** A variable that is in one of its states. */
export interface Chosen {
  readonly variable: number
  readonly state: number
}

export interface Way {
  readonly weight: number
  readonly patterns: Int32Array
  /** Variables that touch something bad. */
  readonly chosen: readonly Chosen[]
}

export interface WaysInput {
  readonly variables: readonly ReducedVariable[]
  readonly books: readonly PatternBook[]
  readonly margins: readonly number[]
}

/** Up to so many products of states everything is taken, exactly. */
const IN_FULL = 30_000
const MOST_LIKELY_WAYS = 4000
const LEAST_QUIET = 1e-9

/** How many ways all states of these variables make together, their absence counted as one. */
export const sizeOf = (variables: readonly ReducedVariable[]): number =>
  variables.reduce((product, { touching }) => product * (touching.length + 1), 1)

/** Every state of every variable with every state of the others. @returns undefined where they are too many */
export function allWays(input: WaysInput, numbers: readonly number[]): Way[] | undefined {
  const chosen = numbers.map((number) => input.variables[number])
  if (sizeOf(chosen.flatMap((variable) => variable ?? [])) > IN_FULL) return undefined
  return numbers.reduce<Way[]>((ways, number) => ways.flatMap((way) => extended(input, way, number)), [nothing(input)])
}

/** As `allWays`, the likeliest so many of them where they are too many. @returns also the weight that was left out */
export function likelyWays(input: WaysInput, numbers: readonly number[]): { ways: Way[]; leftOut: number } {
  let ways = [nothing(input)]
  let leftOut = 0
  for (const number of numbers) {
    const { variables } = input
    const { touching = [], quiet = 1 } = variables[number] ?? {}
    const size = touching.length + 1
    // Two spills make millions: all are weighed, and only those that stay are made.
    const weights = new Float64Array(ways.length * size)
    for (const [at, way] of ways.entries()) {
      weights[at * size] = way.weight * quiet
      for (let i = 1; i < size; i++) {
        weights[at * size + i] = weightWith(input, way, variables[number]?.states[touching[i - 1] ?? -1])
      }
    }
    let kept = placesAboveZero(weights)
    if (kept.length > MOST_LIKELY_WAYS) {
      kept = kept.toSorted((a, b) => (weights[b] ?? 0) - (weights[a] ?? 0))
      leftOut += kept.subarray(MOST_LIKELY_WAYS).reduce((sum, at) => sum + (weights[at] ?? 0), 0)
      kept = kept.subarray(0, MOST_LIKELY_WAYS)
    }
    ways = Array.from(kept, (at) => {
      const way = ways[Math.floor(at / size)] ?? nothing(input)
      const state = touching[(at % size) - 1]
      return state === undefined
        ? { ...way, weight: weights[at] ?? 0 }
        : joined(input, way, { variable: number, state })
    })
  }
  return { ways, leftOut }
}

function placesAboveZero(weights: Float64Array): Int32Array {
  const places = new Int32Array(weights.length)
  let count = 0
  for (let at = 0; at < weights.length; at++) if ((weights[at] ?? 0) > 0) places[count++] = at
  return places.subarray(0, count)
}

const nothing = ({ books }: WaysInput): Way => ({ weight: 1, patterns: new Int32Array(books.length), chosen: [] })

function extended(input: WaysInput, way: Way, number: number): Way[] {
  const variable = input.variables[number]
  if (variable === undefined) return [way]
  const quiet = { ...way, weight: way.weight * variable.quiet }
  const present = variable.touching.map((state) => joined(input, way, { variable: number, state }))
  return [quiet, ...present].filter(({ weight }) => weight > 0)
}

/** The way with one more variable in a state; its weight does not count that variable's being quiet. */
function joined(input: WaysInput, way: Way, added: Chosen): Way {
  const state = stateOf(input, added)
  if (state === undefined) return way
  const patterns = way.patterns.slice()
  for (let group = 0; group < patterns.length; group++) {
    patterns[group] = input.books[group]?.both(patterns[group] ?? 0, state.patterns[group] ?? 0) ?? 0
  }
  return { weight: weightWith(input, way, state), patterns, chosen: [...way.chosen, added] }
}

function weightWith(input: WaysInput, way: Way, state: ReducedState | undefined): number {
  return state === undefined ? way.weight : way.weight * state.weight * marginTogether(input, way, state)
}

const stateOf = ({ variables }: WaysInput, { variable, state }: Chosen): ReducedState | undefined =>
  variables[variable]?.states[state]

/** Packages without a failing lane that both touch by margin: the mean of the product over the product of the means. */
function marginTogether(input: WaysInput, way: Way, { healthy }: ReducedState): number {
  if (healthy === undefined) return 1
  let factor = 1
  for (const [number, shares] of healthy) {
    const before = way.chosen.flatMap((chosen) => stateOf(input, chosen)?.healthy?.get(number) ?? [])
    if (before.length === 0) continue
    const together = input.margins.map((_, margin) => productAt(input, way, number, margin))
    const apart = meanOver(input.margins, together) * meanOver(input.margins, shares)
    const both = meanOver(
      input.margins,
      together.map((value, margin) => value * (shares[margin] ?? 1)),
    )
    factor *= apart > 0 ? both / apart : 0
  }
  return factor
}

function productAt(input: WaysInput, way: Way, number: number, margin: number): number {
  return way.chosen.reduce((value, chosen) => value * (stateOf(input, chosen)?.healthy?.get(number)?.[margin] ?? 1), 1)
}

/** None of some rare variables, and each of their states alone. */
export function singleWays(input: WaysInput, numbers: readonly number[]): { none: Way; singles: Way[] } {
  const weight = numbers.reduce((product, number) => product * quietOf(input, number), 1)
  const none = { ...nothing(input), weight }
  const singles = numbers.flatMap((number) => {
    const { touching = [] } = input.variables[number] ?? {}
    return touching.map((state) => {
      const way = joined(input, none, { variable: number, state })
      return { ...way, weight: way.weight / quietOf(input, number) }
    })
  })
  return { none, singles }
}

/** A way with one more of the single ones beside it; undefined where it has that variable already. */
export function wayWith(input: WaysInput, a: Way, b: Way): Way | undefined {
  const [first] = b.chosen
  if (first === undefined || a.chosen.some(({ variable }) => variable === first.variable)) return undefined
  const way = joined(input, a, first)
  return { ...way, weight: way.weight / quietOf(input, first.variable) }
}

const quietOf = ({ variables }: WaysInput, number: number): number =>
  Math.max(LEAST_QUIET, variables[number]?.quiet ?? 1)
