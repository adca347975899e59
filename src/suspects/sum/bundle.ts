/** Ways with the same patterns, put together: the groups can't tell them apart. */
import type { ReducedVariable } from './states.ts'
import type { Way } from './ways.ts'

export interface Bundle {
  readonly patterns: Int32Array
  readonly weight: number
  readonly ways: readonly Way[]
  /** Share of the weight by what the ways have come off, whatever fails, and by which variables are not quiet in them. */
  readonly lifts: readonly LiftShare[]
}

interface LiftShare {
  readonly parts: readonly number[]
  /** Those that could have a part come off while they are quiet. */
  readonly loud: readonly number[]
  readonly share: number
}

export function bundled(variables: readonly ReducedVariable[], ways: readonly Way[]): Bundle[] {
  const byPattern = new Map<string, { patterns: Int32Array; weight: number; ways: Way[] }>()
  for (const way of ways) {
    const key = way.patterns.join()
    const known = byPattern.get(key)
    if (known === undefined) byPattern.set(key, { patterns: way.patterns, weight: way.weight, ways: [way] })
    else {
      known.weight += way.weight
      known.ways.push(way)
    }
  }
  return [...byPattern.values()].map((bundle) => ({ ...bundle, lifts: liftsOf(variables, bundle.ways, bundle.weight) }))
}

function liftsOf(variables: readonly ReducedVariable[], ways: readonly Way[], weight: number): LiftShare[] {
  const shares = new Map<string, { parts: number[]; loud: number[]; share: number }>()
  for (const { chosen, weight: own } of ways) {
    const parts = chosen
      .map(({ variable, state }) => variables[variable]?.states[state]?.lifts ?? -1)
      .filter((part) => part >= 0)
    const loud = chosen.map(({ variable }) => variable).filter((number) => liftsWhileQuiet(variables[number]))
    const key = `${parts.join()}/${loud.join()}`
    const known = shares.get(key)
    const share = weight > 0 ? own / weight : 0
    if (known === undefined) shares.set(key, { parts, loud, share })
    else known.share += share
  }
  return [...shares.values()]
}

const liftsWhileQuiet = (variable: ReducedVariable | undefined): boolean =>
  variable?.idle.some((state) => (variable.states[state]?.lifts ?? -1) >= 0) ?? false

/** Probability that a variable which touches nothing bad has none of these parts come off. */
export function quietSound({ idle, states, quiet }: ReducedVariable, asked: ReadonlySet<number>): number {
  let lifting = 0
  for (const state of idle) {
    const { lifts = -1, weight = 0 } = states[state] ?? {}
    if (lifts >= 0 && asked.has(lifts)) lifting += weight
  }
  return quiet > 0 ? 1 - lifting / quiet : 1
}

/** @param quiet by variable: `quietSound` for the parts asked for */
export function shareWithout({ lifts }: Bundle, asked: ReadonlySet<number>, quiet: Float64Array): number {
  let share = 0
  for (const each of lifts) {
    if (each.parts.some((part) => asked.has(part))) continue
    share += each.share / each.loud.reduce((product, number) => product * (quiet[number] ?? 1), 1)
  }
  return share
}
