/** A plan of remedies that begins with a check, where one is expected to save more than it costs; and plans that need no tree. */
import { percent, say } from '../../base/index.ts'
import type { RankedCheck } from '../checks/rank-checks.ts'
import type { Proposal } from '../steps/propose.ts'
import type { Effort } from './problem.ts'
import { ALIKE_SHARE, HUNT, type RemedyProposal } from './proposal.ts'

/**
 * What the check saves is reckoned as for the list of next checks, by a simpler look ahead than the tree's: so the expected
 * cost is about right, and never below that of the check itself.
 * @returns the plan as it is where both ways come to about the same: nobody measures for that
 */
export function withCheckFirst(plan: RemedyProposal, check: RankedCheck, minuteCost: number): RemedyProposal {
  const spent = check.minutes * minuteCost
  const expectedCost = Math.max(spent, plan.expectedCost - (check.saves ?? 0) + spent)
  if (expectedCost * ALIKE_SHARE > plan.expectedCost) return plan
  const step = { action: 'check', refs: [check.at], next: thenWords(check) } as const
  const { steps, expectedCost: before, minutes, works, others, endings } = plan
  const without = { name: say('Start without that check'), steps, expectedCost: before, minutes, works }
  return {
    check: { check: check.check, at: check.at },
    steps: [step, ...steps],
    expectedCost,
    minutes: minutes + check.minutes,
    works,
    others: [without, ...others].toSorted((a, b) => a.expectedCost - b.expectedCost),
    endings: endings?.map((end) => ({ ...end, money: end.money + spent, minutes: end.minutes + check.minutes })),
  }
}

function thenWords({ question, ifFound, ifNot }: RankedCheck): string {
  if (ifFound === undefined || ifNot === undefined) return question
  return say('{question} If so ({chance}): {follows} If not ({otherChance}): {otherwise}', {
    question,
    chance: percent(ifFound.probability),
    follows: ifFound.sentence,
    otherChance: percent(ifNot.probability),
    otherwise: ifNot.sentence,
  })
}

/** What was put right is not tested yet: what comes next depends on that run. */
export const testFirst: RemedyProposal = {
  steps: [
    { action: 'run-again', refs: [], next: say('The work is not tested yet: what comes next depends on this run.') },
  ],
  expectedCost: 0,
  minutes: 0,
  works: undefined,
  others: [],
}

/** Rails that read short where nothing else can be reckoned: a card that is not to be powered is not run again. */
export function shortFirst(rails: readonly string[], { minutes, money }: Effort): RemedyProposal {
  const steps = [
    { action: 'find-short', refs: rails, next: HUNT },
    { action: 'run-again', refs: [], next: say('What comes next depends on this run.') },
  ] as const
  return {
    steps,
    expectedCost: rails.length * money,
    minutes: rails.length * minutes,
    works: undefined,
    others: [],
  }
}

/** What is plain without any reckoning, as a plan of one step. */
export function plainly({ action, because, expectedCost = 0 }: Proposal): RemedyProposal | undefined {
  if (action.kind !== 'hand-back' && action.kind !== 'run-again') return undefined
  return {
    steps: [{ action: action.kind, refs: [], next: because }],
    expectedCost,
    minutes: 0,
    works: undefined,
    others: [],
  }
}
