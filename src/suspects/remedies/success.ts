/**
 * The chance that the card works once given remedies were done to given parts, all at once: nothing stays wrong that they
 * do not cure, nothing is lost in lifting that ends the repair, no refit goes wrong. The same worlds, cures and risks as in
 * the decision tree.
 */
import { branchesOf } from './outcomes.ts'
import { massOf, startOf, type TreeProblem, type TreeState } from './problem.ts'

export interface Work {
  readonly washed: boolean
  /** Parts that come off and go back on new balls, and those that are replaced, by ref. */
  readonly reballed: readonly string[]
  readonly replaced: readonly string[]
}

/** Refs that the question does not hold are not counted. */
export function successOf(problem: TreeProblem, { washed, reballed, replaced }: Work): number {
  const indices = (refs: readonly string[]): number[] =>
    refs.map((ref) => problem.parts.findIndex((p) => p.ref === ref))
  const off = [...indices(reballed), ...indices(replaced)].filter((index) => index >= 0)
  const fresh = indices(replaced).filter((index) => index >= 0)
  const bits = (list: readonly number[]): number => list.reduce((all, index) => all | (1 << index), 0)
  const start = washed ? joined(branchesOf(problem, startOf(problem), { kind: 'wash' })) : startOf(problem)
  const kept = off.reduce((product, index) => {
    const { lossEnds = false, lossChance = 0 } = problem.parts[index] ?? {}
    return lossEnds ? product * (1 - lossChance) : product
  }, 1)
  const after = branchesOf(problem, { ...start, off: bits(off), hot: true }, { kind: 'refit', replaced: bits(fresh) })
  return kept * soundIn(joined(after))
}

function joined(branches: readonly { readonly state: TreeState }[]): TreeState {
  const [first] = branches
  if (first === undefined) throw new RangeError('an action without an outcome')
  return {
    ...first.state,
    sets: Int32Array.from(branches.flatMap(({ state }) => [...state.sets])),
    weights: Float64Array.from(branches.flatMap(({ state }) => [...state.weights])),
  }
}

function soundIn({ sets, weights }: TreeState): number {
  const whole = massOf({ weights })
  let sound = 0
  for (let at = 0; at < sets.length; at++) if (sets[at] === 0) sound += weights[at] ?? 0
  return whole > 0 ? sound / whole : 0
}
