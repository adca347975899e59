/** The judge's ranking of checks: the card with everything that could be looked at. */
import type { BoardModel } from '../../board/index.ts'
import type { SpillHypotheses } from '../../spill/index.ts'
import { type Assumptions, usableAssumptions, withAssumptions } from '../assumptions.ts'
import type { CoreForm } from '../causes/core.ts'
import type { UnreportedStates } from '../causes/spills.ts'
import type { JudgeInput } from '../judge.ts'
import { comebackCost, liftCosts, pricesOf } from '../lift/costs.ts'
import { minutesToMoney } from '../prices/work.ts'
import { createCard } from '../sum/card.ts'
import { checkInstances, type LookPlace } from './check-instances.ts'
import { rankChecks, type RankedChecks } from './rank-checks.ts'

export interface ChecksInput extends JudgeInput {
  /** Hypotheses of all spills index the marks of these places after the areas of the findings. */
  readonly places: readonly LookPlace[]
  /** For so many of the best it is told what each outcome would change. */
  readonly told?: number
  /** False where something speaks against power: no check under power is proposed then. */
  readonly mayPower?: boolean
}

/** So many are gone into before a run, as a rule. */
const PLACES_AT_ONCE = 2
/** An outcome that nobody expects rests on ways that are rare as yet: more of them are kept than for the list of today. */
const MOST_WAYS = 1500
const MOST_PARTS = 5
const TOLD = 16

/**
 * A ranking for one board. Each question makes its own card, with a finding for everything that could be looked at;
 * the two functions hand in what the judge keeps between questions.
 */
export function createRanking(
  model: BoardModel,
  formsOf: (assumptions: Assumptions) => readonly CoreForm[],
  unreportedOf: (sides: readonly SpillHypotheses[]) => UnreportedStates | undefined,
): (input: ChecksInput) => RankedChecks {
  return (input) => {
    const { findings, places, spills, unreported: sides = [], told = TOLD } = input
    const assumptions = usableAssumptions(withAssumptions(input.assumptions))
    const { instances, leftOut } = checkInstances(model, findings, places)
    const card = createCard({
      model,
      assumptions,
      findings,
      coreForms: formsOf(assumptions),
      unreported: unreportedOf(sides),
      spills,
      asked: {
        rails: new Set(instances.flatMap(({ check, at }) => (check.evidence === 'rail' ? [at] : []))),
        stages: new Set(instances.flatMap(({ check, at }) => (check.evidence === 'stage' ? [at] : []))),
        areas: places.map(({ mark }) => mark),
        checks: instances.flatMap(({ check, at }) => (check.evidence === 'check' ? [{ check, at }] : [])),
      },
    })
    const { posterior } = card.judge(spills, MOST_WAYS)
    const prices = pricesOf(assumptions, input.prices)
    const { book } = prices
    const ground = {
      refs: card.parts,
      liftCost: liftCosts(model, card.parts, prices),
      comebackCost: comebackCost(prices),
      steps: {
        other: card.parts.length,
        run: minutesToMoney(book.minutes.run, book),
        putRight: minutesToMoney(PLACES_AT_ONCE * book.minutes.repairAround, book),
      },
    }
    const ranked = rankChecks({
      card,
      posterior,
      spills,
      instances,
      places,
      ground,
      findings,
      mostParts: MOST_PARTS,
      told,
    })
    return { ...ranked, leftOut: [...leftOut, ...ranked.leftOut] }
  }
}
