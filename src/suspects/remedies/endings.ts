/** Every way in which a plan can end: how likely, what was spent on the way there, and whether the card works then. */
import {
  startOf,
  type TreeAction,
  type TreeNode,
  type TreeOutcome,
  type TreeProblem,
  type TreeState,
} from './problem.ts'
import { effortOf } from './tree.ts'

export interface WorkEnding {
  readonly probability: number
  /** Work, materials, new parts and the expected loss of parts in lifting, in the shop's currency; nothing of what comes after. */
  readonly money: number
  /** At the bench. */
  readonly minutes: number
  /** The chance that the card works, once it has come to this end. */
  readonly works: number
  /** A new part is fitted on the way. */
  readonly newParts: boolean
  /** What it costs in expectation from there on: comebacks, or not having it working. */
  readonly afterwards: number
}

export interface EndingMeans {
  /** Of work, materials, new parts and losses in lifting, in the shop's currency. */
  readonly money: number
  /** That the card works in the end. */
  readonly works: number
}

/** What all endings come to on average; undefined where there are none. */
export function endingMeans(
  endings: readonly Pick<WorkEnding, 'probability' | 'money' | 'works'>[],
): EndingMeans | undefined {
  const whole = endings.reduce((sum, { probability }) => sum + probability, 0)
  if (whole === 0) return undefined
  const mean = (of: (ending: Pick<WorkEnding, 'money' | 'works'>) => number): number =>
    endings.reduce((sum, ending) => sum + ending.probability * of(ending), 0) / whole
  return { money: mean(({ money }) => money), works: mean(({ works }) => works) }
}

interface Walk {
  readonly problem: TreeProblem
  readonly state: TreeState
  readonly probability: number
  readonly money: number
  readonly minutes: number
  readonly newParts: boolean
}

/**
 * The leaves of a tree, likeliest first; leaves that cost and take the same are one. Their probabilities sum to one, the
 * means of `money + afterwards`, `minutes` and `works` are the tree's own cost, minutes and chance.
 */
export function endingsOf(problem: TreeProblem, root: TreeNode): WorkEnding[] {
  const start = { problem, state: startOf(problem), probability: 1, money: 0, minutes: 0, newParts: false }
  return alikeTogether(walked(start, root)).toSorted((a, b) => b.probability - a.probability)
}

function walked(walk: Walk, node: TreeNode): WorkEnding[] {
  if (node.action.kind === 'return') return [ending(walk, 0, givingUp(walk))]
  if (node.atOnce !== undefined) return allAtOnce(walk, node.atOnce)
  const begun = spent(walk, node.action)
  const seen = node.outcomes.reduce((sum, { probability }) => sum + probability, 0)
  const lost = lostIn(begun, 1 - seen)
  return [...node.outcomes.flatMap((outcome) => afterwards(begun, node.action, outcome)), ...lost]
}

function afterwards(begun: Walk, action: TreeAction, { probability, node, works }: TreeOutcome): WorkEnding[] {
  const next = { ...begun, probability: begun.probability * probability, state: stateAfter(begun.state, action) }
  return node === undefined ? [ending(next, works, (1 - works) * begun.problem.comeback)] : walked(next, node)
}

/** Lifts one after the other without a look, of which one may end the repair. */
function allAtOnce(walk: Walk, { parts, kept, next }: NonNullable<TreeNode['atOnce']>): WorkEnding[] {
  const begun = parts.reduce((at, part) => {
    const action = { kind: 'lift', part } as const
    const after = spent(at, action)
    return { ...after, state: stateAfter(after.state, action) }
  }, walk)
  return [...walked({ ...begun, probability: begun.probability * kept }, next), ...lostIn(begun, 1 - kept)]
}

function spent(walk: Walk, action: TreeAction): Walk {
  const { money, minutes } = effortOf(walk.problem, walk.state, action)
  const newParts = walk.newParts || (action.kind === 'refit' && action.replaced !== 0)
  return { ...walk, money: walk.money + money, minutes: walk.minutes + minutes, newParts }
}

/** As far as what comes next costs by it: what is off, what was heated, what was washed. */
function stateAfter(state: TreeState, action: TreeAction): TreeState {
  switch (action.kind) {
    case 'lift':
      return { ...state, off: state.off | (1 << action.part), hot: true }
    case 'refit':
      return { ...state, off: 0 }
    case 'wash':
      return { ...state, washed: true }
    case 'repair-around':
    case 'return':
      return state
  }
}

function lostIn(begun: Walk, share: number): WorkEnding[] {
  if (share <= 0) return []
  return [ending({ ...begun, probability: begun.probability * share }, 0, begun.problem.giveUpHot)]
}

const givingUp = ({ problem, state }: Walk): number => (state.hot ? problem.giveUpHot : problem.giveUpCold)

const ending = ({ probability, money, minutes, newParts }: Walk, works: number, after: number): WorkEnding => ({
  probability,
  money,
  minutes,
  works,
  newParts,
  afterwards: after,
})

function alikeTogether(endings: readonly WorkEnding[]): WorkEnding[] {
  const together = new Map<string, WorkEnding>()
  for (const each of endings) {
    const key = `${each.money.toFixed(6)} ${each.minutes.toFixed(6)} ${each.newParts}`
    const known = together.get(key)
    together.set(key, known === undefined ? each : merged(known, each))
  }
  return [...together.values()]
}

function merged(a: WorkEnding, b: WorkEnding): WorkEnding {
  const probability = a.probability + b.probability
  const mean = (of: 'works' | 'afterwards'): number =>
    probability === 0 ? 0 : (a.probability * a[of] + b.probability * b[of]) / probability
  return { ...a, probability, works: mean('works'), afterwards: mean('afterwards') }
}
