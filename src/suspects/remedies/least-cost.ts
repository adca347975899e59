/**
 * What a state costs at least: what it would cost somebody who knew every world and whose remedies never failed. No plan can do
 * better, so plans that are dearer than a known one even so are not gone into (branch and bound).
 */
import type { TreePart, TreeProblem, TreeState } from './problem.ts'

export type LeastCost = (state: TreeState) => number

/**
 * The bound for this problem, in the shop's currency times the state's weight; costs of a set of faults are
 * remembered by what is off, hot and washed.
 */
export function leastCostOf(problem: TreeProblem): LeastCost {
  const known = new Map<string, Map<number, number>>()
  // a run that passes by mistake ends the work: at each of the decisions ahead at most so surely
  const straight = (1 - problem.cures.overlooks) ** (problem.depth + (problem.liftsBeyond ? 1 : 0))
  return (state) => {
    const { sets, weights, off, hot, washed } = state
    const key = `${off} ${hot} ${washed}`
    const costs = known.get(key) ?? new Map<number, number>()
    known.set(key, costs)
    let sum = 0
    for (let at = 0; at < sets.length; at++) {
      const set = sets[at] ?? 0
      let cost = costs.get(set)
      if (cost === undefined) {
        cost = knowing(problem, set, state)
        costs.set(set, cost)
      }
      sum += (weights[at] ?? 0) * cost
    }
    return sum * straight
  }
}

function knowing(problem: TreeProblem, set: number, { off, hot, washed }: TreeState): number {
  const { parts, places, placeEffort, run, prepare, giveUpCold, giveUpHot } = problem
  const giveUp = hot ? giveUpHot : Math.min(giveUpCold, giveUpHot)
  if ((set & 1) !== 0) return giveUp
  const mayWash = problem.wash !== undefined && !washed && off === 0
  let work = 0
  let heats = false
  let washes = false
  for (const [at, { lift, reball, replace, die, joints, beneath }] of parts.entries()) {
    const back = backMoney({ reball, replace })
    if (((off >> at) & 1) === 1) work += back
    else if ((set & (die | joints)) !== 0) {
      work += lift.money + back
      heats = true
    } else if ((set & beneath) !== 0) washes = true
  }
  // what lies in the open goes with any refit
  if ((set & problem.open) !== 0 && off === 0 && !heats) washes = true
  // washing may do for all of what lies beneath, lifting for one part: the cheaper of the two at least
  if (washes) work += mayWash ? Math.min(problem.wash?.money ?? 0, leastLift(problem)) : leastLift(problem)
  for (const { fault, hunt = placeEffort } of places) if ((set & fault) !== 0) work += hunt.money
  return Math.min(giveUp, work + run.money + (heats && !hot ? prepare.money : 0))
}

const leastLift = ({ parts }: TreeProblem): number =>
  Math.min(...parts.map((part) => part.lift.money + backMoney(part)))

const backMoney = ({ reball, replace }: Pick<TreePart, 'reball' | 'replace'>): number =>
  Math.min(reball?.money ?? Number.POSITIVE_INFINITY, replace.money)
