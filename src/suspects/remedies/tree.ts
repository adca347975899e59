/**
 * The cheapest plan of remedies in expectation: act, see, act again, by going through all that may be done and seen so many
 * decisions ahead (expectimax; Russell and Norvig, Artificial Intelligence: A Modern Approach, 2020; from memory).
 * Beyond that a card is given up, or everything likely is lifted at once. A card that passes goes back.
 */
import { type LeastCost, leastCostOf } from './least-cost.ts'
import { branchesOf } from './outcomes.ts'
import {
  type Effort,
  massOf,
  massWith,
  startOf,
  type TreeAction,
  type TreeNode,
  type TreeOutcome,
  type TreeProblem,
  type TreeState,
  type TreeValue,
} from './problem.ts'

/** Parts that need work with less than this chance are not lifted on a guess. */
const LEAST_NEED = 0.05
/** A place beside the parts is gone into from this chance on, and so many at once. */
const LEAST_PLACE = 0.05
const MOST_PLACES = 2
/** Up to so many parts that are off every choice of new ones is tried. */
const MOST_TRIED = 2
const SLIGHTLY = 1e-6
/** A branch that is this unlikely is not looked into any further than giving up. */
const RARE = 1e-3

/**
 * The plan of least expected cost from the start, looked ahead by the problem's depth; costs in the shop's currency.
 */
export const bestTree = (problem: TreeProblem): TreeNode =>
  solve({ problem, least: leastCostOf(problem) }, startOf(problem), problem.depth, 1, Number.POSITIVE_INFINITY)

/** The best that begins with these actions; undefined where one of them can't be done. */
export function treeFrom(problem: TreeProblem, first: readonly TreeAction[]): TreeNode | undefined {
  return forced({ problem, least: leastCostOf(problem) }, startOf(problem), first, problem.depth)
}

interface Search {
  readonly problem: TreeProblem
  readonly least: LeastCost
}

/** What may be given as a beginning although no search would try it. */
const GIVEN: ReadonlySet<TreeAction['kind']> = new Set(['lift', 'repair-around'])

function forced(
  search: Search,
  state: TreeState,
  [action, ...rest]: readonly TreeAction[],
  depth: number,
): TreeNode | undefined {
  const { problem } = search
  if (action === undefined) return solve(search, state, depth, 1, Number.POSITIVE_INFINITY)
  const fits = actionsOf(problem, state).some((each) => sameAction(each, action)) || GIVEN.has(action.kind)
  if (!fits) return undefined
  const then: Then = (next, share, bound) =>
    rest.length === 0
      ? solve(search, next, depth - 1, share, bound)
      : (forced(search, next, rest, depth) ?? givenUp(problem, next))
  return acted(search, state, action, then, Number.POSITIVE_INFINITY)
}

/**
 * @param share probability of coming here at all
 * @param bound what dearer nodes are of no interest for: any of these may be answered then
 */
function solve(search: Search, state: TreeState, depth: number, share: number, bound: number): TreeNode {
  const { problem, least } = search
  let best = givenUp(problem, state)
  if (share < RARE || least(state) >= bound * massOf(state)) return best
  const allAtOnce = likelyAtOnce(search, state)
  // a plan that is told step by step is preferred to one that costs the same
  if (allAtOnce !== undefined && allAtOnce.cost < best.cost) best = { ...allAtOnce, cost: allAtOnce.cost + SLIGHTLY }
  if (depth <= 0) return best
  for (const action of actionsOf(problem, state)) {
    const then: Then = (next, part, left) => solve(search, next, depth - 1, share * part, left)
    const node = acted(search, state, action, then, Math.min(bound, best.cost))
    if (node !== undefined && node.cost < best.cost) best = node
  }
  return best
}

/** Lifting what more likely than not needs it at once, without a look, refitting all, and giving up where that does not cure it. */
function likelyAtOnce(search: Search, state: TreeState): TreeNode | undefined {
  const { problem } = search
  if (!problem.liftsBeyond) return undefined
  const whole = massOf(state)
  let cost = 0
  let minutes = 0
  let kept = 1
  let { off, hot } = state
  const lifted: number[] = []
  for (const [part, each] of problem.parts.entries()) {
    if (((off >> part) & 1) === 1 || massWith(state, needOf(each)) <= whole / 2) continue
    const effort = effortOf(problem, { ...state, off, hot }, { kind: 'lift', part })
    cost += effort.money
    minutes += effort.minutes
    if (each.lossEnds) kept *= 1 - each.lossChance
    lifted.push(part)
    off |= 1 << part
    hot = true
  }
  if (off === 0) return undefined
  const open = { ...state, off, hot }
  const action: TreeAction = { kind: 'refit', replaced: replacedByRule(problem, open) }
  const node = acted(search, open, action, (next) => givenUp(problem, next), Number.POSITIVE_INFINITY)
  if (node === undefined) return undefined
  const lost = (1 - kept) * problem.giveUpHot
  const [first] = lifted
  if (first === undefined) return node
  return {
    action: { kind: 'lift', part: first },
    outcomes: [],
    atOnce: { parts: lifted, kept, next: node },
    cost: cost + kept * node.cost + lost,
    minutes: minutes + kept * node.minutes,
    works: kept * node.works,
  }
}

const needOf = ({ die, joints, beneath }: TreeProblem['parts'][number]): number => die | joints | beneath

/** Sending the card back as it is: what it costs not to have it working, which is more once anything was heated. */
export function givenUp(problem: TreeProblem, { hot }: Pick<TreeState, 'hot'>): TreeNode {
  const cost = hot ? problem.giveUpHot : problem.giveUpCold
  return { action: { kind: 'return' }, outcomes: [], cost, minutes: 0, works: 0 }
}

/** What follows in a state that is come to with this probability, as far as it costs less than the bound. */
type Then = (next: TreeState, probability: number, bound: number) => TreeNode

/** The action, and what follows each outcome by `then`; undefined as soon as it costs no less than the bound. */
function acted(
  { problem, least }: Search,
  state: TreeState,
  action: TreeAction,
  then: Then,
  bound: number,
): TreeNode | undefined {
  const whole = massOf(state)
  const effort = effortOf(problem, state, action)
  let cost = effort.money
  let { minutes } = effort
  let works = 0
  let seen = 0
  const outcomes: TreeOutcome[] = []
  if (cost >= bound) return undefined
  const branches = branchesOf(problem, state, action)
  /** What the branches that were not gone into yet cost at least. */
  let ahead = 0
  if (bound < Number.POSITIVE_INFINITY && whole > 0)
    for (const branch of branches) if (branch.seen !== 'passes') ahead += least(branch.state) / whole
  for (const branch of branches) {
    if (cost + ahead >= bound) return undefined
    const probability = whole > 0 ? massOf(branch.state) / whole : 0
    if (probability <= 0) continue
    seen += probability
    if (branch.seen !== 'passes' && ahead > 0) ahead = Math.max(0, ahead - least(branch.state) / whole)
    const left = (bound - cost - ahead) / probability
    const node = branch.seen === 'passes' ? undefined : then(branch.state, probability, left)
    const value = node ?? handedBack(problem, branch.state)
    cost += probability * value.cost
    minutes += probability * value.minutes
    works += probability * value.works
    const failing = branch.failing === undefined ? {} : { failing: branch.failing }
    outcomes.push({ seen: branch.seen, ...failing, probability, works: value.works, node })
  }
  // what is left is a part whose loss ends the repair
  cost += Math.max(0, 1 - seen) * problem.giveUpHot
  return { action, outcomes, cost, minutes, works }
}

/** It passes: where something is wrong all the same it comes back. */
function handedBack({ comeback }: TreeProblem, state: TreeState): TreeValue {
  const whole = massOf(state)
  const wrong = whole > 0 ? massWith(state, -1) / whole : 0
  return { cost: wrong * comeback, minutes: 0, works: 1 - wrong }
}

/** What can be done in a state and is likely enough to be of use. With parts off only a further lift or a refit. */
export function actionsOf(problem: TreeProblem, state: TreeState): TreeAction[] {
  const whole = massOf(state)
  const actions: TreeAction[] = []
  for (const [at, part] of problem.parts.entries()) {
    if (((state.off >> at) & 1) === 1) continue
    if (massWith(state, needOf(part)) >= LEAST_NEED * whole) actions.push({ kind: 'lift', part: at })
  }
  if (state.off !== 0) return [...actions, ...refits(problem, state)]
  const beneath = problem.parts.reduce((bits, part) => bits | part.beneath, 0)
  const { washBeneath, washOpen } = problem.cures
  const washed = (washBeneath > 0 ? beneath : 0) | (washOpen > 0 ? problem.open : 0)
  const mayWash = problem.wash !== undefined && !state.washed
  if (mayWash && massWith(state, washed) >= LEAST_NEED * whole) actions.push({ kind: 'wash' })
  const places = likelyPlaces(problem, state, whole)
  if (places !== 0) actions.push({ kind: 'repair-around', places })
  return actions
}

function likelyPlaces(problem: TreeProblem, state: TreeState, whole: number): number {
  const likely = [...problem.places.entries()]
    .filter(([at]) => ((state.repaired >> at) & 1) === 0)
    .map(([at, { fault }]) => ({ at, mass: massWith(state, fault) }))
    .filter(({ mass }) => mass >= LEAST_PLACE * whole)
    .toSorted((a, b) => b.mass - a.mass)
  return likely.slice(0, MOST_PLACES).reduce((bits, { at }) => bits | (1 << at), 0)
}

type Refit = Extract<TreeAction, { kind: 'refit' }>

/** Every choice of new parts while few are off, else the one that a rule of thumb makes. */
function refits(problem: TreeProblem, state: TreeState): Refit[] {
  const off = offOf(problem, state)
  const always = off.reduce((bits, at) => (problem.parts[at]?.reball === undefined ? bits | (1 << at) : bits), 0)
  const open = off.filter((at) => ((always >> at) & 1) === 0)
  if (open.length > MOST_TRIED) return [{ kind: 'refit', replaced: replacedByRule(problem, state) }]
  return Array.from({ length: 1 << open.length }, (_, choice) => ({
    kind: 'refit' as const,
    replaced: open.reduce((bits, at, index) => (((choice >> index) & 1) === 1 ? bits | (1 << at) : bits), always),
  }))
}

const offOf = ({ parts }: TreeProblem, { off }: TreeState): number[] =>
  [...parts.keys()].filter((at) => ((off >> at) & 1) === 1)

/**
 * Which of the parts that are off get new ones in their place, as bits: the choice that costs least, giving up or lifting all
 * that is likely where it does not cure.
 */
export function newPartsFor(problem: TreeProblem, state: TreeState): number {
  const search = { problem, least: leastCostOf(problem) }
  const then: Then = (next, share) => solve(search, next, 0, share, Number.POSITIVE_INFINITY)
  let best = { replaced: 0, cost: Number.POSITIVE_INFINITY }
  for (const action of refits(problem, state)) {
    const cost = acted(search, state, action, then, Number.POSITIVE_INFINITY)?.cost ?? Number.POSITIVE_INFINITY
    if (cost < best.cost) best = { replaced: action.replaced, cost }
  }
  return best.replaced
}

/** A new one where the chance that it is bad, times what coming back to it costs, is more than what a new one costs more. */
function replacedByRule({ parts, run, cures }: TreeProblem, state: TreeState): number {
  const whole = massOf(state)
  let replaced = 0
  const better = Math.max(0, cures.replaceBeneath - cures.reballBeneath)
  for (const [at, part] of parts.entries()) {
    if (((state.off >> at) & 1) === 0) continue
    const { die, beneath, lift, reball, replace, lossChance, lossMoney } = part
    const redo = lift.money + replace.money + run.money + lossChance * lossMoney
    const saved = massWith(state, die) * cures.replaceDie + massWith(state, beneath) * better
    if (reball === undefined || (saved / whole) * redo > replace.money - reball.money) replaced |= 1 << at
  }
  return replaced
}

/**
 * Money and minutes of one action with the run after it where it has one, and the expected loss of a part in lifting
 * it.
 */
export function effortOf(problem: TreeProblem, state: TreeState, action: TreeAction): Effort {
  const { parts, run, prepare } = problem
  switch (action.kind) {
    case 'wash':
      return sumOf([problem.wash, run])
    case 'repair-around':
      return sumOf([
        ...problem.places.flatMap(({ hunt = problem.placeEffort }, at) => ((action.places >> at) & 1 ? [hunt] : [])),
        run,
      ])
    case 'lift': {
      const part = parts[action.part]
      const lost = part === undefined || part.lossEnds ? 0 : part.lossChance * part.lossMoney
      return sumOf([
        part?.lift,
        ...(state.hot ? [] : [prepare, metalFirst(problem, state)]),
        { money: lost, minutes: 0 },
      ])
    }
    case 'refit': {
      const off = parts.flatMap((part, at) => {
        if (((state.off >> at) & 1) === 0) return []
        return [((action.replaced >> at) & 1) === 1 ? part.replace : part.reball]
      })
      return sumOf([...off, run])
    }
    case 'return':
      return { money: 0, minutes: 0 }
  }
}

/** Metal is taken up by hand before anything is heated. */
const metalFirst = ({ byHand, wash }: TreeProblem, { washed }: TreeState): Effort | undefined =>
  byHand && !washed ? wash : undefined

const sumOf = (efforts: readonly (Effort | undefined)[]): Effort => ({
  money: efforts.reduce((sum, effort) => sum + (effort?.money ?? 0), 0),
  minutes: efforts.reduce((sum, effort) => sum + (effort?.minutes ?? 0), 0),
})

const sameAction = (a: TreeAction, b: TreeAction): boolean => JSON.stringify(a) === JSON.stringify(b)
