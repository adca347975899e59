/** The cheapest plan of remedies in words: what to do first and what then depends on what is seen, with others beside it. */
import { clauseCase, joined, percent, say } from '../../base/index.ts'
import { endingsOf, type WorkEnding } from './endings.ts'
import { type ProposedAction, type ProposedStep, proposedWords } from './step-words.ts'
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

export interface ProposedPlan {
  readonly steps: readonly ProposedStep[]
  /** In the shop's currency: work, parts, what is lost where it fails, comebacks. */
  readonly expectedCost: number
  readonly minutes: number
  /** That the card works in the end; undefined where nothing was reckoned. */
  readonly works: number | undefined
}

export interface RemedyProposal extends ProposedPlan {
  /** Of a plan that begins with a check: which, and where. */
  readonly check?: { readonly check: string; readonly at: string } | undefined
  /** Other ways to begin, cheapest first. */
  readonly others: readonly (ProposedPlan & { readonly name: string })[]
  /** Every way in which the plan can end, for a quote; undefined where nothing was reckoned. */
  readonly endings?: readonly WorkEnding[] | undefined
}

/**
 * @param failing refs of the packages that fail, by their bits in what a run shows
 * @returns the cheapest plan, with a step by hand before any heat where metal lies; other ways to begin beside it
 */
export function proposeRemedies(problem: TreeProblem, failing: readonly string[]): RemedyProposal {
  // metal that no wash dissolves is taken up before anything is heated
  const byHand = problem.byHand && problem.wash !== undefined
  const short = shortsFound(problem)
  const ways =
    short === undefined ? [{ name: '', node: bestTree(problem) }, ...otherWays(problem)] : [short, ...givingUp(problem)]
  const planned = (node: TreeNode): ProposedPlan => {
    const plan = planOf({ problem, failing }, node)
    const isHot = plan.steps.some(({ action }) => HOT.has(action))
    return byHand && isHot && plan.steps[0]?.action !== 'take-up' ? { ...plan, steps: [TAKE_UP, ...plan.steps] } : plan
  }
  // a way whose beginning is given looks further ahead, and may be the better for it
  const cheapest = ways.reduce((a, b) => (b.node.cost < a.node.cost - SLIGHTLY ? b : a)).node
  const best = preferred(ways, cheapest)
  const others = ways
    .filter(({ name, node }) => name !== '' && !sameStart(node, best))
    .toSorted((a, b) => a.node.cost - b.node.cost)
    .map(({ name, node }) => ({ name, ...planned(node) }))
  return { ...planned(best), others, endings: endingsOf(problem, best) }
}

/** What costs no more than this much more counts as costing the same: the figures behind it are stated ones. */
export const ALIKE_SHARE = 1.03
/** By so much more often the card has to work for a way to be preferred to one that costs the same. */
const SURER_BY = 0.05

/**
 * Of ways that cost the same: a wash before a lift, for heat can't be taken back; else the one after which the card works
 * clearly more often, for a card that comes back costs the shop its name too. Common practice, no source.
 */
function preferred(ways: readonly Way[], cheapest: TreeNode): TreeNode {
  const alike = ways.map(({ node }) => node).filter(({ cost }) => cost <= cheapest.cost * ALIKE_SHARE)
  const cool = cheapest.action.kind === 'lift' ? alike.find(({ action }) => action.kind === 'wash') : undefined
  const surest = alike.reduce((a, b) => (b.works > a.works ? b : a), cheapest)
  return cool ?? (surest.works >= cheapest.works + SURER_BY ? surest : cheapest)
}

const SLIGHTLY = 0.5
const BEFORE_POWER = say('Dry swabs, until the last stays clean; then measure the rails cold, no power before.')
/** As the short finder of the cold measuring has it; common practice, no source. */
export const HUNT = say(
  'Card unplugged: feed in 0.3 V and at most 1 A, never more than the rail’s own voltage, and look for what warms or where the millivolts are least. No power before it reads right again.',
)
const HOT: ReadonlySet<ProposedAction> = new Set(['lift', 'reball', 'replace'])
/** Common practice, no source: hot air drives loose alloy under bodies and into joints. */
const TAKE_UP: ProposedStep = {
  action: 'take-up',
  refs: [],
  next: say('Dry swabs, until the last stays clean. Then measure the rails cold; no power and no heat before.'),
}

/** Before anything else what reads short is found: no run and no lift tells anything until then. */
function shortsFound(problem: TreeProblem): Way | undefined {
  const places = shortsIn(problem)
  const node = places === 0 ? undefined : treeFrom(problem, [{ kind: 'repair-around', places }])
  return node && { name: '', node }
}

const shortsIn = ({ places }: TreeProblem): number =>
  places.reduce((bits, { hunt }, at) => (hunt === undefined ? bits : bits | (1 << at)), 0)

/** A hunt for what reads short, among it nothing that does not. */
const isHunt = (problem: TreeProblem, { action }: TreeNode): boolean =>
  action.kind === 'repair-around' && action.places !== 0 && (action.places & ~shortsIn(problem)) === 0

interface Way {
  readonly name: string
  readonly node: TreeNode
}

/** Wash first; the likeliest part first; all that likely needs it at once; sent back. */
function otherWays(problem: TreeProblem): Way[] {
  const start = startOf(problem)
  const begun = (name: string, first: readonly TreeAction[]): Way[] => {
    const node = first.length === 0 ? undefined : treeFrom(problem, first)
    return node === undefined ? [] : [{ name, node }]
  }
  const on = [...problem.parts.keys()].filter((part) => ((start.off >> part) & 1) === 0)
  const lifts = on.flatMap((part): TreeAction[] => {
    const { die = 0, joints = 0, beneath = 0 } = problem.parts[part] ?? {}
    return massWith(start, die | joints | beneath) >= AT_ONCE ? [{ kind: 'lift', part }] : []
  })
  const likeliest = problem.parts[on[0] ?? -1]
  const first = likeliest === undefined ? [] : [{ kind: 'lift', part: on[0] ?? 0 } as const]
  const ref = likeliest?.ref
  const together = lifts.flatMap((action) => (action.kind === 'lift' ? (problem.parts[action.part]?.ref ?? []) : []))
  return [
    ...begun(
      problem.byHand
        ? say('Take up the metal first, test again, then lift what still fails')
        : say('Wash and dry the card first, test again, then lift what still fails'),
      [{ kind: 'wash' }],
    ),
    ...begun(
      likeliest?.beneath === 0 ? say('Lift {ref} first', { ref }) : say('Lift {ref} first and look under it', { ref }),
      first,
    ),
    ...(lifts.length > 1 ? begun(say('Lift {together} at once', { together: joined(together) }), lifts) : []),
    ...givingUp(problem),
  ]
}

const givingUp = (problem: TreeProblem): Way[] => [
  { name: say('Send it back unrepaired'), node: givenUp(problem, startOf(problem)) },
]

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

/** What is told, with the parts that are off by then, as bits. */
interface Telling {
  readonly problem: TreeProblem
  readonly failing: readonly string[]
}

function planOf(telling: Telling, node: TreeNode): ProposedPlan {
  const line = lineOf(node)
  const steps: ProposedStep[] = []
  let done: Done = { off: telling.problem.begun.off, refitted: 0 }
  for (const [at, each] of line.entries()) {
    steps.push(...stepsOf(telling, each, line[at + 1], done))
    done = doneAfter(each.action, done)
  }
  const { cost, minutes, works }: TreeValue = node
  return { steps: liftsTogether(steps), expectedCost: cost, minutes, works }
}

/** Parts that are off, and those that were refitted on the way, as bits. */
interface Done {
  readonly off: number
  readonly refitted: number
}

function doneAfter(action: TreeAction, { off, refitted }: Done): Done {
  if (action.kind === 'lift') return { off: off | (1 << action.part), refitted }
  return action.kind === 'refit' ? { off: 0, refitted: refitted | off } : { off, refitted }
}

/** The steps of one action; the last of them says what then depends on what is seen. */
function stepsOf(telling: Telling, node: TreeNode, next: TreeNode | undefined, done: Done): ProposedStep[] {
  const { problem } = telling
  const bare = bareSteps(problem, node.action, done.off)
  const after = doneAfter(node.action, done)
  const words =
    node.action.kind === 'lift'
      ? afterLook(problem, node, after)
      : node.outcomes.length > 0
        ? afterRun(telling, node, next, after)
        : ''
  return bare.map((step, at) => ({ ...step, next: at === bare.length - 1 ? words : '' }))
}

function bareSteps(problem: TreeProblem, action: TreeAction, off: number): Omit<ProposedStep, 'next'>[] {
  switch (action.kind) {
    case 'lift':
      return [{ action: 'lift', refs: refsIn(problem, 1 << action.part) }]
    case 'repair-around': {
      const hunted = action.places & shortsIn(problem)
      return [
        { action: 'find-short' as const, refs: namesOf(problem.places, hunted) },
        { action: 'repair-around' as const, refs: namesOf(problem.places, action.places & ~hunted) },
      ].filter(({ refs }) => refs.length > 0)
    }
    case 'refit':
      return [
        { action: 'reball' as const, refs: refsIn(problem, off & ~action.replaced) },
        { action: 'replace' as const, refs: refsIn(problem, off & action.replaced) },
      ].filter(({ refs }) => refs.length > 0)
    case 'wash':
      return [{ action: problem.byHand ? 'take-up' : 'wash', refs: [] }]
    case 'return':
      return [{ action: 'return', refs: [] }]
  }
}

const namesOf = (places: TreeProblem['places'], bits: number): string[] =>
  places.flatMap(({ name }, at) => (((bits >> at) & 1) === 1 ? [name] : []))

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

function afterLook(problem: TreeProblem, node: TreeNode, done: Done): string {
  const something = node.outcomes.find(({ seen }) => seen === 'something')
  const nothing = node.outcomes.find(({ seen }) => seen === 'nothing')
  if (node.action.kind !== 'lift' || something?.node === undefined || nothing?.node === undefined) return ''
  const dirty = doing(problem, something.node, done)
  const clean = doing(problem, nothing.node, done)
  if (dirty === clean) return ''
  const ref = problem.parts[node.action.part]?.ref ?? ''
  return say(
    'If something lies under {ref} ({dirtyChance}): {dirty}. If it is clean there ({cleanChance}): {clean}.{lost}',
    {
      ref,
      dirtyChance: percent(something.probability),
      dirty,
      cleanChance: percent(nothing.probability),
      clean,
      lost: lostWords(node),
    },
  )
}

/** Smaller chances of losing the part are not worth words. */
const TOLD_FROM = 0.005

/** What is left of the chances of a lift is a part whose loss ends the repair. */
function lostWords({ outcomes }: TreeNode): string {
  const lost = 1 - outcomes.reduce((sum, { probability }) => sum + probability, 0)
  return lost < TOLD_FROM ? '' : say(' If it or its pads are lost ({lost}), the repair ends.', { lost: percent(lost) })
}

function afterRun(telling: Telling, node: TreeNode, next: TreeNode | undefined, done: Done): string {
  const passes = node.outcomes.find(({ seen }) => seen === 'passes')?.probability ?? 0
  const fails = node.outcomes.filter((outcome) => outcome.seen === 'fails')
  const cold = node.action.kind === 'wash' && telling.problem.byHand ? `${BEFORE_POWER} ` : ''
  const found = isHunt(telling.problem, node) ? `${HUNT} ` : ''
  const said = { found, cold, passes: percent(passes) }
  const pass =
    node.action.kind === 'wash'
      ? say(
          '{found}{cold}Test again. If it passes ({passes}), run it for hours, warm and from cold, then hand it back.',
          said,
        )
      : say('{found}{cold}Test again. If it passes ({passes}), hand it back.', said)
  const words =
    next === undefined
      ? failWords(telling, fails, done)
      : [say('If it still fails: {next}.', { next: doing(telling.problem, next, done) })]
  return [pass, ...words].join(' ')
}

/** The two likeliest ways to fail, each with what follows. */
function failWords({ problem, failing }: Telling, fails: readonly TreeOutcome[], done: Done): string[] {
  const byNext = new Map<string, { probability: number; likeliest: TreeOutcome }>()
  for (const outcome of fails) {
    const next = outcome.node === undefined ? say('go on') : doing(problem, outcome.node, done)
    const known = byNext.get(next) ?? { probability: 0, likeliest: outcome }
    const likeliest = outcome.probability > known.likeliest.probability ? outcome : known.likeliest
    byNext.set(next, { probability: known.probability + outcome.probability, likeliest })
  }
  const ways = [...byNext].toSorted((a, b) => b[1].probability - a[1].probability)
  if (ways.length === 1) return ways.map(([next]) => say('If it still fails: {next}.', { next }))
  return ways.slice(0, 2).map(([next, { likeliest }]) => {
    const refs = failing.filter((_, at) => (((likeliest.failing ?? 0) >> at) & 1) === 1)
    return say('If {refs} still {count, plural, one {fails} other {fail}}: {next}.', {
      refs: joined(refs),
      count: refs.length,
      next,
    })
  })
}

/** The next step within a sentence, in the words of the list. */
function doing(problem: TreeProblem, { action }: TreeNode, { off, refitted }: Done): string {
  const isAgain = action.kind === 'lift' && ((refitted >> action.part) & 1) === 1
  const words = bareSteps(problem, action, off).map((step) =>
    isAgain ? say('Lift {names} again', { names: joined(step.refs) }) : proposedWords(step),
  )
  return joined(words.map(clauseCase))
}
