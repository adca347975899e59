/** Whether repairing pays: expected value with the repair against the card as it stands. */
import { percent, roughMoney } from '../base/index.ts'
import type { CheckedInput } from './input.ts'
import type { Plan, PlanAnswer } from './result.ts'

/**
 * expected gain = p · value if repaired + (1 − p) · value if failed − cost − expected harm − value as it is.
 * Break-even is the value if repaired at which that is nil; infinite where p = 0.
 */
export function worthOf({ input, settings }: CheckedInput, plan: Plan): PlanAnswer['worth'] {
  const { valueIfRepaired, valueAsIs, valueIfFailed } = settings.money
  const torn = input.begun?.tornPads.length ?? 0
  const successProbability = input.successProbability * plan.unharmed * settings.rules.tornPadFactor ** torn
  const costOfRepair = plan.cost + plan.exposureCost
  const failed = (1 - successProbability) * valueIfFailed
  const expectedGain = successProbability * valueIfRepaired + failed - costOfRepair - valueAsIs
  const breakEvenValue = successProbability > 0 ? (costOfRepair + valueAsIs - failed) / successProbability : Infinity
  const odds = `This plan alone cures the card with a chance of ${percent(successProbability)}; so`
  const verdict =
    expectedGain > 0
      ? `${odds} repairing is worth ${roughMoney(expectedGain)} more than leaving it, on average`
      : `${odds} repairing loses ${roughMoney(-expectedGain)} against leaving it, on average`
  const turning = Number.isFinite(breakEvenValue)
    ? `worth doing if the working card is worth more than ${roughMoney(breakEvenValue)}`
    : 'no value of the card would make it pay'
  const sentence = `${verdict}; ${turning}.`
  return { successProbability, costOfRepair, valueIfRepaired, expectedGain, breakEvenValue, sentence }
}
