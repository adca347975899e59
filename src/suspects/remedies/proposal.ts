/** The cheapest plan of remedies in words: what to do first and what then depends on what is seen, with others beside it. */
import { joined, percent } from '../../base/index.ts'
import { bestTree, givenUp, treeFrom } from './tree.ts'
import {
  massWith,
  startOf,
  type TreeAction,
  type TreeNode,
  type TreeOutcome,
  type TreeProblem,
  type TreeValue,
} from './problem.ts'

/** `lift` is to take off and look under; `run-again` is the memory test once more. */
export type ProposedAction =
  | 'check'
  | 'take-up'
  | 'wash'
  | 'lift'
  | 'reball'
  | 'replace'
  | 'repair-around'
  | 'run-again'
  | 'hand-back'
  | 'return'

export interface ProposedStep {
  readonly action: ProposedAction
  /** Parts, or what else is worked on, in the board's words. */
  readonly refs: readonly string[]
  /** What then depends on what is seen, in words; empty where the next step follows in any case. */
  readonly next: string
}

export interface ProposedPlan {
  readonly steps: readonly ProposedStep[]
  /** In the shop's currency: work, parts, what is lost where it fails, comebacks. */
  readonly expectedCost: number
  readonly minutes: number
  /** That the card works in the end; undefined where nothing was reckoned. */
  readonly works: number | undefined
}

export interface RemedyProposal extends ProposedPlan {
  /** Other ways to begin, cheapest first. */
  readonly others: readonly (ProposedPlan & { readonly name: string })[]
}

/** @param byHand metal lies there that no wash dissolves: it is taken up before anything is heated */
export function proposeRemedies(problem: TreeProblem, failing: readonly string[], byHand: boolean): RemedyProposal {
  const ways = [{ name: '', node: bestTree(problem) }, ...otherWays(problem)]
  const planned = (node: TreeNode): ProposedPlan => {
    const plan = planOf(problem, node, failing)
    return byHand && plan.steps.some(({ action }) => HOT.has(action))
      ? { ...plan, steps: [TAKE_UP, ...plan.steps] }
      : plan
  }
  // a way whose beginning is given looks further ahead, and may be the better for it
  const best = ways.reduce((a, b) => (b.node.cost < a.node.cost - SLIGHTLY ? b : a)).node
  const others = ways
    .filter(({ name, node }) => name !== '' && !sameStart(node, best))
    .toSorted((a, b) => a.node.cost - b.node.cost)
    .map(({ name, node }) => ({ name, ...planned(node) }))
  return { ...planned(best), others }
}

const SLIGHTLY = 0.5
const HOT: ReadonlySet<ProposedAction> = new Set(['lift', 'reball', 'replace'])
/** Common practice, no source: hot air drives loose alloy under bodies and into joints. */
const TAKE_UP: ProposedStep = {
  action: 'take-up',
  refs: [],
  next: 'Dry swabs, until the last stays clean. Then measure the rails cold; no power and no heat before.',
}

interface Way {
  readonly name: string
  readonly node: TreeNode
}

/** Wash first; the likeliest part first, looked under; all that likely needs it at once; put right beside first; sent back. */
function otherWays(problem: TreeProblem): Way[] {
  const start = startOf(problem)
  const need = problem.parts.map(({ die, joints, beneath }) => massWith(start, die | joints | beneath))
  const [likeliest] = problem.parts
  const atOnce = [...need.keys()].filter((at) => (need[at] ?? 0) >= AT_ONCE)
  const lifts = atOnce.map((part): TreeAction => ({ kind: 'lift', part }))
  const ways: [string, readonly TreeAction[]][] = [
    ['Wash and dry it first, test again, then lift what still fails', [{ kind: 'wash' }]],
    ...(likeliest === undefined
      ? []
      : [[`Lift ${likeliest.ref} first and look under it`, [{ kind: 'lift', part: 0 }]] as [string, TreeAction[]]]),
    ...(lifts.length > 1
      ? [[`Lift ${joined(atOnce.map((at) => problem.parts[at]?.ref ?? ''))} at once`, lifts] as [string, TreeAction[]]]
      : []),
  ]
  const found = ways.flatMap(([name, first]) => {
    const node = treeFrom(problem, first)
    return node === undefined ? [] : [{ name, node }]
  })
  return [...found, { name: 'Send it back unrepaired', node: givenUp(problem, start) }]
}

/** From this chance on a part is among those that are lifted at once. */
const AT_ONCE = 0.2

const sameStart = (a: TreeNode, b: TreeNode): boolean =>
  JSON.stringify(lineOf(a).map(({ action }) => action)) === JSON.stringify(lineOf(b).map(({ action }) => action))

/** What is done one after the other as long as each goes as it most likely does. */
function lineOf(node: TreeNode): TreeNode[] {
  const next = likeliestOf(node.outcomes)?.node
  return next === undefined ? [node] : [node, ...lineOf(next)]
}

const likeliestOf = (outcomes: readonly TreeOutcome[]): TreeOutcome | undefined =>
  outcomes.toSorted((a, b) => b.probability - a.probability)[0]

function planOf(problem: TreeProblem, node: TreeNode, failing: readonly string[]): ProposedPlan {
  const line = lineOf(node)
  const steps: ProposedStep[] = []
  let off = 0
  for (const [at, each] of line.entries()) {
    const next = line[at + 1]
    steps.push(...stepsOf(problem, each, next, off, failing))
    if (each.action.kind === 'lift') off |= 1 << each.action.part
    if (each.action.kind === 'refit') off = 0
  }
  const { cost, minutes, works }: TreeValue = node
  return { steps: liftsTogether(steps), expectedCost: cost, minutes, works }
}

function stepsOf(
  problem: TreeProblem,
  node: TreeNode,
  next: TreeNode | undefined,
  off: number,
  failing: readonly string[],
): ProposedStep[] {
  const { action } = node
  switch (action.kind) {
    case 'wash':
      return [{ action: 'wash', refs: [], next: afterRun(problem, node, next, failing) }]
    case 'lift':
      return [{ action: 'lift', refs: refsIn(problem, 1 << action.part), next: afterLook(problem, node) }]
    case 'repair-around': {
      const refs = problem.places.flatMap(({ name }, at) => (((action.places >> at) & 1) === 1 ? [name] : []))
      return [{ action: 'repair-around', refs, next: afterRun(problem, node, next, failing) }]
    }
    case 'refit': {
      const reballed = refsIn(problem, off & ~action.replaced)
      const replaced = refsIn(problem, off & action.replaced)
      const then = afterRun(problem, node, next, failing)
      const steps: ProposedStep[] = []
      if (reballed.length > 0) steps.push({ action: 'reball', refs: reballed, next: replaced.length > 0 ? '' : then })
      if (replaced.length > 0) steps.push({ action: 'replace', refs: replaced, next: then })
      return steps
    }
    case 'return':
      return [{ action: 'return', refs: [], next: '' }]
  }
}

const refsIn = ({ parts }: TreeProblem, bits: number): string[] =>
  parts.flatMap(({ ref }, at) => (((bits >> at) & 1) === 1 ? [ref] : []))

/** Lifts that follow each other whatever is seen are one step. */
function liftsTogether(steps: readonly ProposedStep[]): ProposedStep[] {
  const together: ProposedStep[] = []
  for (const step of steps) {
    const last = together.at(-1)
    if (last?.action === 'lift' && step.action === 'lift' && last.next === '')
      together[together.length - 1] = { ...step, refs: [...last.refs, ...step.refs] }
    else together.push(step)
  }
  return together
}

function afterLook(problem: TreeProblem, node: TreeNode): string {
  const something = node.outcomes.find(({ seen }) => seen === 'something')
  const nothing = node.outcomes.find(({ seen }) => seen === 'nothing')
  if (something?.node === undefined || nothing?.node === undefined) return ''
  const dirty = doing(problem, something.node)
  const clean = doing(problem, nothing.node)
  if (dirty === clean) return ''
  const ref = node.action.kind === 'lift' ? (problem.parts[node.action.part]?.ref ?? 'it') : 'it'
  return `If something lies under ${ref} (${percent(something.probability)}): ${dirty}. If it is clean there (${percent(nothing.probability)}): ${clean}.${lostWords(node)}`
}

/** What is left of the chances of a lift is a part whose loss ends the repair. */
function lostWords({ outcomes }: TreeNode): string {
  const lost = 1 - outcomes.reduce((sum, { probability }) => sum + probability, 0)
  return lost < 0.005 ? '' : ` If it or its pads are lost (${percent(lost)}), the repair ends.`
}

function afterRun(
  problem: TreeProblem,
  node: TreeNode,
  next: TreeNode | undefined,
  failing: readonly string[],
): string {
  const passes = node.outcomes.find(({ seen }) => seen === 'passes')?.probability ?? 0
  const fails = node.outcomes.filter((outcome) => outcome.seen === 'fails')
  const pass = `Test again. If it passes (${percent(passes)}), hand it back.`
  const words =
    next === undefined ? failWords(problem, fails, failing) : [`If it still fails: ${doing(problem, next)}.`]
  return [pass, ...words].join(' ')
}

/** The two likeliest ways to fail, each with what follows. */
function failWords(problem: TreeProblem, fails: readonly TreeOutcome[], failing: readonly string[]): string[] {
  const byNext = new Map<string, { probability: number; failing: number }>()
  for (const { node, probability, failing: still = 0 } of fails) {
    const next = node === undefined ? 'go on' : doing(problem, node)
    const known = byNext.get(next)
    if (known === undefined) byNext.set(next, { probability, failing: still })
    else
      byNext.set(next, {
        probability: known.probability + probability,
        failing: known.probability >= probability ? known.failing : still,
      })
  }
  const ways = [...byNext].toSorted((a, b) => b[1].probability - a[1].probability)
  if (ways.length === 1) return ways.map(([next]) => `If it still fails: ${next}.`)
  return ways.slice(0, 2).map(([next, { failing: still }]) => {
    const refs = failing.filter((_, at) => ((still >> at) & 1) === 1)
    return `If ${joined(refs)} still ${refs.length === 1 ? 'fails' : 'fail'}: ${next}.`
  })
}

function doing(problem: TreeProblem, { action }: TreeNode): string {
  switch (action.kind) {
    case 'wash':
      return 'wash and dry it'
    case 'lift':
      return `lift ${problem.parts[action.part]?.ref ?? ''}`
    case 'repair-around': {
      const names = problem.places.flatMap(({ name }, at) => (((action.places >> at) & 1) === 1 ? [name] : []))
      return `put right ${joined(names)}`
    }
    case 'refit': {
      const fresh = refsIn(problem, action.replaced)
      return fresh.length === 0 ? 'clean the site, reball and refit' : `fit a new ${joined(fresh)}`
    }
    case 'return':
      return 'send it back unrepaired'
  }
}
