/** Whether repairing pays: expected value with the repair against the card as it stands. */
import { percent, roughMoney, say } from '../base/index.ts'
import type { EndingMeans } from '../suspects/index.ts'
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
  const worth = {
    curesProbability,
    successProbability,
    costOfRepair: plan.cost,
    valueIfRepaired,
    expectedGain,
    breakEvenValue,
  }
  return { ...worth, sentence: worthWords(worth, roughMoney) }
}

/** What a plan's own steps are worth, in three sentences; amounts are told as the shop tells them. */
export function worthWords(
  { successProbability, expectedGain, breakEvenValue }: Omit<PlanAnswer['worth'], 'sentence'>,
  amountWords: (amount: number) => string,
): string {
  const chance = say('These steps alone cure the card with a chance of {successProbability}.', {
    successProbability: percent(successProbability),
  })
  const verdict =
    expectedGain > 0
      ? say('They bring {expectedGain} more than leaving it, on average.', { expectedGain: amountWords(expectedGain) })
      : say('They lose {loss} against leaving it, on average.', { loss: amountWords(-expectedGain) })
  const turning = Number.isFinite(breakEvenValue)
    ? say('They pay from a working card worth {breakEvenValue} up.', { breakEvenValue: amountWords(breakEvenValue) })
    : say('No value of the card would make them pay.')
  return `${chance} ${verdict} ${turning}`
}

export interface WholeWorth extends EndingMeans {
  /** Against leaving it as it is, on average. */
  readonly gain: number
}

/**
 * The worth of all the work that is proposed, from what its endings come to on average: w · value if repaired + (1 − w) ·
 * value if failed − money − value as it is, with w the chance that the card works in the end.
 */
export const wholeWorth = (
  means: EndingMeans,
  { valueIfRepaired, valueAsIs, valueIfFailed }: CheckedInput['settings']['money'],
): WholeWorth => ({
  ...means,
  gain: means.works * valueIfRepaired + (1 - means.works) * valueIfFailed - means.money - valueAsIs,
})

/** What all that is proposed comes to, beside which a plan's own steps stand. */
export const wholeWorthWords = ({ works, money, gain }: WholeWorth, amountWords: (amount: number) => string): string =>
  say(
    'All that is proposed: works in the end {works}, about {money} in work and parts; it {pays, select, yes {brings} other {loses}} about {gain} against leaving it, on average.',
    {
      works: percent(works),
      money: amountWords(money),
      pays: gain > 0 ? 'yes' : 'no',
      gain: amountWords(Math.abs(gain)),
    },
  )
