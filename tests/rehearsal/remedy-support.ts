/** Somebody who follows plans that are given, on cards by hand. */
import {
  type Asker,
  type Known,
  type RemedyScore,
  scoreRemedies,
  type SimulatedCard,
} from '../../src/rehearsal/index.ts'
import { type AtTheBench, nothingJudged, type RemedyProposal } from '../../src/suspects/index.ts'
import { asKnown, model } from './hand-card.ts'

export type Step = RemedyProposal['steps'][number]
export const step = (action: Step['action'], ...refs: readonly string[]): Step => ({ action, refs, next: '' })

export const planned = (steps: readonly Step[], change: Partial<RemedyProposal> = {}): RemedyProposal => ({
  steps,
  expectedCost: 0,
  minutes: 0,
  works: undefined,
  others: [],
  ...change,
})

export const HAND_BACK = planned([step('hand-back')])

export interface Followed {
  readonly score: RemedyScore
  /** What the planner was told before each step. */
  readonly asked: readonly { readonly known: Known; readonly bench: AtTheBench }[]
}

/** Follows these plans in turn, then hands back as working. */
export function follow(
  card: SimulatedCard,
  plans: readonly RemedyProposal[],
  last: RemedyProposal = HAND_BACK,
): Followed {
  const asked: { known: Known; bench: AtTheBench }[] = []
  const asker: Asker = {
    model,
    ask: () => nothingJudged,
    costsOf: () => [],
    propose: () => ({ kind: 'hand-back' }),
    proposeWithoutChecks: () => ({ kind: 'hand-back' }),
    open: () => [],
    remedies: (known, bench) => {
      asked.push({ known, bench })
      return plans[asked.length - 1] ?? last
    },
  }
  return { score: scoreRemedies(card, asker, asKnown(card)), asked }
}
