/** Whether repairing pays: expected value with the repair against the card as it stands. */
import { percent, roughMoney } from '../base/index.ts'
import type { CheckedInput } from './input.ts'
import type { Plan, PlanAnswer } from './result.ts'
import { gluedToLift, tearChance } from './steps/unglue.ts'

/**
 * expected gain = p · value if repaired + (1 − p) · value if failed − cost − value as it is, with p from what the remedies
 * cure, from what the passes spoil, from torn pads, and from those that glue may tear yet. Break-even is the value if repaired at which that is nil; infinite
 * where p = 0.
 */
export function worthOf(checked: CheckedInput, plan: Plan): PlanAnswer['worth'] {
  const { input, settings } = checked
  const { valueIfRepaired, valueAsIs, valueIfFailed } = settings.money
  const torn = input.begun?.tornPads.length ?? 0
  const { tornPadFactor } = settings.rules
  const glue = gluedToLift(checked).reduce(
    (share, part) => share * (1 - tearChance(part, settings) * (1 - tornPadFactor)),
    1,
  )
  const curesProbability = input.successProbability * tornPadFactor ** torn * glue
  const successProbability = curesProbability * plan.unharmed
  const failed = (1 - successProbability) * valueIfFailed
  const expectedGain = successProbability * valueIfRepaired + failed - plan.cost - valueAsIs
  const breakEvenValue = successProbability > 0 ? (plan.cost + valueAsIs - failed) / successProbability : Infinity
  const chance = `This plan alone cures the card with a chance of ${percent(successProbability)}.`
  const verdict =
    expectedGain > 0
      ? `Repairing brings ${roughMoney(expectedGain)} more than leaving it, on average.`
      : `Repairing loses ${roughMoney(-expectedGain)} against leaving it, on average.`
  const turning = Number.isFinite(breakEvenValue)
    ? `It pays from a working card worth ${roughMoney(breakEvenValue)} up.`
    : 'No value of the card would make it pay.'
  const sentence = `${chance} ${verdict} ${turning}`
  return {
    curesProbability,
    successProbability,
    costOfRepair: plan.cost,
    valueIfRepaired,
    expectedGain,
    breakEvenValue,
    sentence,
  }
}

export interface WholeWorth {
  /** That the card works in the end, however the work goes. */
  readonly works: number
  /** Work, materials and parts on average, in the shop's money. */
  readonly cost: number
  /** Against leaving it as it is, on average. */
  readonly gain: number
}

/**
 * The worth of all the work that is proposed, over every way it can end: Σ q · (w · value if repaired + (1 − w) · value if
 * failed − money) − value as it is, with q the chance of the ending and w that the card works then.
 * @returns undefined where there are no endings
 */
export function wholeWorth(
  endings: readonly { readonly probability: number; readonly money: number; readonly works: number }[],
  { valueIfRepaired, valueAsIs, valueIfFailed }: CheckedInput['settings']['money'],
): WholeWorth | undefined {
  if (endings.length === 0) return undefined
  const mean = (of: (ending: (typeof endings)[number]) => number): number =>
    endings.reduce((sum, ending) => sum + ending.probability * of(ending), 0)
  const works = mean((ending) => ending.works)
  const cost = mean(({ money }) => money)
  return { works, cost, gain: works * valueIfRepaired + (1 - works) * valueIfFailed - cost - valueAsIs }
}
