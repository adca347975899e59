/** What an action does to the worlds and what is seen after it: cures and new faults by their chances, looks, runs. */
import { massOf, type TreeAction, type TreeProblem, type TreeState } from './problem.ts'

export interface Branch {
  readonly seen: 'passes' | 'fails' | 'something' | 'nothing'
  readonly failing?: number
  /** Weights are those of the state before, times the chance of what was seen: they sum to the branch's own mass. */
  readonly state: TreeState
}

/** Worlds lighter than this share of all are dropped from what an action makes of them. */
const TRACE = 1e-6

/**
 * What may be seen after an action, each with the state then; weights of all branches together are those of the state
 * but for traces that are dropped. Sending the card back has none.
 */
export function branchesOf(problem: TreeProblem, state: TreeState, action: TreeAction): Branch[] {
  switch (action.kind) {
    case 'wash':
      return afterRun(problem, washed(problem, state))
    case 'repair-around':
      return afterRun(problem, repaired(problem, state, action.places))
    case 'lift':
      return lookedUnder(problem, state, action.part)
    case 'refit':
      return afterRun(problem, refitted(problem, state, action.replaced))
    case 'return':
      return []
  }
}

function washed(problem: TreeProblem, state: TreeState): TreeState {
  const { washBeneath, washOpen } = problem.cures
  return { ...cured(cured(state, faultsBeneath(problem), washBeneath), problem.open, washOpen), washed: true }
}

const faultsBeneath = ({ parts }: TreeProblem): number => parts.reduce((bits, { beneath }) => bits | beneath, 0)

function repaired(problem: TreeProblem, state: TreeState, places: number): TreeState {
  let next = state
  for (const [at, { fault }] of problem.places.entries()) {
    if (((places >> at) & 1) === 1) next = cured(next, fault, problem.cures.repairBeside)
  }
  return { ...next, repaired: state.repaired | places }
}

function refitted(problem: TreeProblem, state: TreeState, replaced: number): TreeState {
  let next = state
  for (const [at, part] of problem.parts.entries()) {
    if (((state.off >> at) & 1) === 0) continue
    const isNew = ((replaced >> at) & 1) === 1
    if (isNew) next = cured(next, part.die, problem.cures.replaceDie)
    next = cured(next, part.joints, problem.cures.reballJoints)
    next = cured(next, part.beneath, isNew ? problem.cures.replaceBeneath : problem.cures.reballBeneath)
    next = broken(next, part.joints, part.refitDefect)
  }
  return { ...cured(next, problem.open, problem.cures.washOpen * openShare(problem, state.off)), off: 0 }
}

/**
 * Flux is washed off around what is refitted, and with it what lies on the tracks that end there: of the packages that
 * what lies in the open touches, the share whose tracks end at a part that is off.
 */
function openShare({ faults, open, parts }: TreeProblem, off: number): number {
  if (open === 0 || off === 0) return 0
  const touched = faults[Math.log2(open)]?.touches ?? 0
  const reached = parts.reduce((bits, { touches }, at) => (((off >> at) & 1) === 1 ? bits | touches : bits), 0)
  return touched === 0 ? 0 : bitCount(touched & reached) / bitCount(touched)
}

function bitCount(bits: number): number {
  let count = 0
  for (let left = bits; left !== 0; left &= left - 1) count++
  return count
}

/** Each of these faults goes with the same chance, one apart from the other. */
function cured(state: TreeState, faults: number, chance: number): TreeState {
  if (faults === 0 || chance <= 0) return state
  let worlds = toMap(state)
  for (let bit = 1; bit > 0 && bit <= faults; bit <<= 1) {
    if ((faults & bit) === 0) continue
    const next = new Map<number, number>()
    for (const [set, weight] of worlds) {
      if ((set & bit) === 0) add(next, set, weight)
      else {
        add(next, set & ~bit, weight * chance)
        add(next, set, weight * (1 - chance))
      }
    }
    worlds = next
  }
  return fromMap(state, worlds)
}

function broken(state: TreeState, fault: number, chance: number): TreeState {
  if (fault === 0 || chance <= 0) return state
  const next = new Map<number, number>()
  for (const [set, weight] of toMap(state)) {
    add(next, set | fault, weight * chance)
    add(next, set, weight * (1 - chance))
  }
  return fromMap(state, next)
}

function lookedUnder(problem: TreeProblem, state: TreeState, part: number): Branch[] {
  const { beneath = 0, lossEnds = false, lossChance = 0 } = problem.parts[part] ?? {}
  const { seesBeneath, falseAlarm } = problem.cures
  const kept = lossEnds ? 1 - lossChance : 1
  const off = state.off | (1 << part)
  if (beneath === 0) {
    const weights = state.weights.map((weight) => weight * kept)
    return [{ seen: 'nothing', state: { ...state, weights, off, hot: true } }]
  }
  const seenWith = (set: number): number => ((set & beneath) === 0 ? falseAlarm : seesBeneath)
  const something = state.weights.map((weight, at) => kept * weight * seenWith(state.sets[at] ?? 0))
  const nothing = state.weights.map((weight, at) => kept * weight * (1 - seenWith(state.sets[at] ?? 0)))
  return [
    { seen: 'something', state: { ...state, weights: something, off, hot: true } },
    { seen: 'nothing', state: { ...state, weights: nothing, off, hot: true } },
  ]
}

/** A run passes where nothing is wrong, and now and then where something is; a run that fails shows what fails. */
function afterRun({ faults, cures }: TreeProblem, state: TreeState): Branch[] {
  const passing = state.weights.map((weight, at) => (state.sets[at] === 0 ? weight : weight * cures.overlooks))
  const byFailing = new Map<number, number[]>()
  for (let at = 0; at < state.weights.length; at++) {
    const set = state.sets[at] ?? 0
    if (set === 0) continue
    const failing = touchedBy(faults, set)
    const members = byFailing.get(failing) ?? []
    members.push(at)
    byFailing.set(failing, members)
  }
  const failed = [...byFailing].map(([failing, members]): Branch => {
    const sets = Int32Array.from(members, (at) => state.sets[at] ?? 0)
    const weights = Float64Array.from(members, (at) => (state.weights[at] ?? 0) * (1 - cures.overlooks))
    return { seen: 'fails', failing, state: { ...state, sets, weights } }
  })
  return [{ seen: 'passes', state: { ...state, weights: passing } }, ...failed]
}

function touchedBy(faults: TreeProblem['faults'], set: number): number {
  let touched = 0
  for (let at = 0; at < faults.length; at++) if (((set >> at) & 1) === 1) touched |= faults[at]?.touches ?? 0
  return touched
}

function toMap({ sets, weights }: TreeState): Map<number, number> {
  const worlds = new Map<number, number>()
  for (let at = 0; at < sets.length; at++) add(worlds, sets[at] ?? 0, weights[at] ?? 0)
  return worlds
}

function fromMap(state: TreeState, worlds: ReadonlyMap<number, number>): TreeState {
  const least = TRACE * massOf(state)
  const sets = new Int32Array(worlds.size)
  const weights = new Float64Array(worlds.size)
  let kept = 0
  for (const [set, weight] of worlds) {
    if (weight <= least) continue
    sets[kept] = set
    weights[kept] = weight
    kept++
  }
  return { ...state, sets: sets.slice(0, kept), weights: weights.slice(0, kept) }
}

const add = (worlds: Map<number, number>, set: number, weight: number): void => {
  worlds.set(set, (worlds.get(set) ?? 0) + weight)
}
