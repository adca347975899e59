/** The judge of one board: findings and spill hypotheses in; stories, places, suspicions and the lift list out. */
import type { BoardModel } from '../board/index.ts'
import type { SpillHypotheses } from '../spill/index.ts'
import { type AssumptionOverrides, type Assumptions, usableAssumptions, withAssumptions } from './assumptions.ts'
import { type CoreForm, coreForms } from './causes/core.ts'
import { type UnreportedStates, unreportedStates } from './causes/spills.ts'
import { type ChecksInput, createRanking } from './checks/judge-checks.ts'
import type { RankedChecks } from './checks/rank-checks.ts'
import type { Findings, SuspectsResult } from './result.ts'
import { liftableParts } from './causes/context.ts'
import { pricesOf } from './lift/costs.ts'
import { costsOfLists } from './lift/costs-of-lists.ts'
import { plainly, shortFirst, testFirst, withCheckFirst } from './remedies/check-first.ts'
import { type AtTheBench, poseTree, railName } from './remedies/pose.ts'
import { proposeRemedies, type RemedyProposal } from './remedies/proposal.ts'
import type { PriceBookInput } from './prices/book.ts'
import { minutesToMoney } from './prices/work.ts'
import { bestCheck, plainProposal, type Proposal, proposeStep } from './steps/propose.ts'
import { type Card, createCard, type ReportedSpill } from './sum/card.ts'
import { conclude } from './tell/conclude.ts'

export interface JudgeInput {
  readonly findings: Findings
  /** Figures that differ from the shipped ones. */
  readonly assumptions?: AssumptionOverrides | undefined
  /** Prices and minutes that differ from the shipped ones. */
  readonly prices?: PriceBookInput | undefined
  /** As reasons tell amounts; where left out they stand without one. */
  readonly currency?: string | undefined
  /** How the work stands; nothing was done yet where left out. */
  readonly bench?: AtTheBench | undefined
  /** Reported spills; a mark that could not be computed is left out. */
  readonly spills: readonly ReportedSpill[]
  /** Hypotheses of a spill that nobody reported, one entry a board side; areas as in the findings. */
  readonly unreported?: readonly SpillHypotheses[] | undefined
}

export interface Judge {
  /** Remembers what one call shares with the next, so that dragging a spill is cheap; the answer does not depend on it. */
  readonly judge: (input: JudgeInput) => SuspectsResult
  /** What each of these lists of parts to lift is expected to cost, with the findings as they are. */
  readonly costsOfLists: (input: JudgeInput, lists: readonly (readonly string[])[]) => readonly number[]
  /** What to look at or measure next, by expected information about what to lift, per minute. */
  readonly rankChecks: (input: ChecksInput) => RankedChecks
  /**
   * The cheapest plan of remedies in expectation, with others beside it.
   * @param ranked checks that may be made first: one that pays comes before the plan
   */
  readonly proposeRemedies: (input: JudgeInput, ranked?: RankedChecks) => RemedyProposal
  /** What to do first: a check, a lift with a run after it, or handing it back. */
  readonly propose: (input: ChecksInput) => Proposal
}

const UNTOUCHED: AtTheBench = { washed: false, takenUp: false, untested: false, lifted: [], offNow: [] }

/**
 * A judge for one board. The last card is kept: while only a spill's place changes, its fixed part is not made again.
 */
export function createJudge(model: BoardModel): Judge {
  const formsFor = rememberLast((assumptions: Assumptions): CoreForm[] => coreForms(model, assumptions))
  const unreportedFor = rememberLast((sides: readonly SpillHypotheses[]) => unreportedStates(model, sides))
  const numberOf = identityNumbers()
  let last: { key: string; card: Card } | undefined

  const formsOf = (assumptions: Assumptions): CoreForm[] =>
    formsFor(JSON.stringify([assumptions.patch, assumptions.core]), assumptions)
  const unreportedOf = (sides: readonly SpillHypotheses[]): UnreportedStates | undefined =>
    sides.length === 0 ? undefined : unreportedFor(sides.map(numberOf).join(), sides)
  const cardOf = (input: JudgeInput, assumptions: Assumptions): Card => {
    const key = cardKey(input, assumptions, numberOf)
    if (last?.key === key) return last.card
    const sides = input.unreported ?? []
    const card = createCard({
      model,
      assumptions,
      findings: input.findings,
      coreForms: formsOf(assumptions),
      unreported: unreportedOf(sides),
      spills: input.spills,
    })
    last = { key, card }
    return card
  }

  const judge = (input: JudgeInput): SuspectsResult => {
    const assumptions = usableAssumptions(withAssumptions(input.assumptions))
    const card = cardOf(input, assumptions)
    const { findings, spills, unreported: sides = [] } = input
    const prices = { ...pricesOf(assumptions, input.prices), currency: input.currency }
    return conclude(
      { findings, spills, assumptions, prices, card, sides, ...card.judge(spills) },
      input.bench ?? UNTOUCHED,
    )
  }
  const costs = (input: JudgeInput, lists: readonly (readonly string[])[]): readonly number[] => {
    const assumptions = usableAssumptions(withAssumptions(input.assumptions))
    const card = cardOf(input, assumptions)
    const { findings, spills } = input
    const prices = pricesOf(assumptions, input.prices)
    return costsOfLists({ findings, spills, assumptions, prices, card, ...card.judge(spills) }, lists)
  }
  const remedies = (input: JudgeInput, ranked?: RankedChecks): RemedyProposal => {
    const bench = input.bench ?? UNTOUCHED
    const { shorted = [] } = bench
    const plain = plainProposal(input.findings)
    const atOnce = bench.untested ? testFirst : plain && plainly(plain)
    const huntOnly = (): RemedyProposal => {
      const { book } = pricesOf(withAssumptions(input.assumptions), input.prices)
      const { findShort: minutes } = book.minutes
      return shortFirst(shorted.map(railName), { minutes, money: minutesToMoney(minutes, book) })
    }
    if (atOnce !== undefined) return shorted.length > 0 ? huntOnly() : atOnce
    const assumptions = usableAssumptions(withAssumptions(input.assumptions))
    const card = cardOf(input, assumptions)
    const { findings, spills } = input
    const prices = pricesOf(assumptions, input.prices)
    const weighed = { findings, spills, assumptions, prices, card, ...card.judge(spills) }
    const { problem, worlds } = poseTree(weighed, bench)
    const isKnown = problem.places.some(({ hunt }) => hunt !== undefined)
    if (shorted.length > 0 && !isKnown) return huntOnly()
    const plan = proposeRemedies(problem, worlds.failing)
    const minuteCost = minutesToMoney(1, prices.book)
    const check = ranked === undefined || shorted.length > 0 ? undefined : bestCheck(ranked.checks, minuteCost)
    return check === undefined ? plan : withCheckFirst(plan, check, minuteCost)
  }
  const rankChecks = createRanking(model, formsOf, unreportedOf)
  const parts = liftableParts(model)
  const propose = (input: ChecksInput): Proposal => {
    const plain = plainProposal(input.findings)
    if (plain !== undefined) return plain
    const { book } = pricesOf(withAssumptions(input.assumptions), input.prices)
    const all = rankChecks(input)
    const ranked = input.mayPower === false ? { ...all, checks: all.checks.filter(({ powered }) => !powered) } : all
    return proposeStep({ now: ranked.now, ranked, parts, minuteCost: minutesToMoney(1, book) })
  }
  return { judge, costsOfLists: costs, rankChecks, proposeRemedies: remedies, propose }
}

function rememberLast<A, T>(make: (argument: A) => T): (key: string, argument: A) => T {
  let kept: { key: string; value: T } | undefined
  return (key, argument) => {
    if (kept?.key !== key) kept = { key, value: make(argument) }
    return kept.value
  }
}

function identityNumbers(): (object: object) => number {
  const numbers = new WeakMap<object, number>()
  let next = 0
  return (object) => {
    const known = numbers.get(object)
    if (known !== undefined) return known
    numbers.set(object, next)
    return next++
  }
}

/** Equal for two calls that differ at most in the last spill. */
function cardKey(input: JudgeInput, assumptions: Assumptions, numberOf: (object: object) => number): string {
  const { findings, spills, unreported } = input
  return JSON.stringify([
    assumptions,
    [...findings.lanes],
    (findings.rounds ?? []).map(({ lanes, ...work }) => [work, [...lanes]]),
    findings.told ?? 'unknown',
    [...findings.signatures].map(([ref, { kind }]) => [ref, kind]),
    findings.areas.map(({ kind }) => kind),
    findings.slips.map(({ at, radiusMm, side }) => [at, radiusMm, side]),
    [...findings.rails],
    [...(findings.shorted ?? [])],
    [...(findings.stages ?? [])],
    (findings.checks ?? []).map(({ check, at, found }) => [check, at, found]),
    spills.slice(0, -1).map(({ mark, hypotheses }) => [mark.at, mark.side, numberOf(hypotheses)]),
    spills.map(({ harm }) => harm ?? 'liquid'),
    (spills.at(-1)?.hypotheses.groups.length ?? 0) > 0,
    (unreported ?? []).map(numberOf),
  ])
}
