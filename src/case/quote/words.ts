/** The quote in plain sentences, for the screen and for the owner's page. */
import { dayWords, money, percent, roughMoney, say } from '../../base/index.ts'
import type { Quote } from './schema.ts'
import type { QuoteRange } from './range.ts'
import { answeredHowWords } from '../kind-words.ts'

/** `140 to 310 EUR, most likely about 190`: whole amounts, as they are estimates. */
export function rangeWords(
  { low, expected, high }: Pick<QuoteRange, 'low' | 'expected' | 'high'>,
  currency: string,
): string {
  if (Math.round(low) === Math.round(high)) return say('about {expected}', { expected: roughMoney(expected, currency) })
  return say('{low} to {high}, on average {expected}', {
    low: roughMoney(low),
    high: roughMoney(high, currency),
    expected: roughMoney(expected),
  })
}

/** `3 to 8 days`, `1 day`. */
export function daysWords({ daysLow, daysHigh }: Pick<QuoteRange, 'daysLow' | 'daysHigh'>): string {
  if (daysLow === daysHigh) return daysLow === 1 ? say('1 day') : say('{daysLow} days', { daysLow })
  return say('{daysLow} to {daysHigh} days', { daysLow, daysHigh })
}

/** What the owner said, when and how: `agreed up to 330.00 EUR on 5 November 2026, by phone`. */
export function answerWords(quote: Quote, currency: string): string {
  const { answer, limit, answeredOn, how, validUntil } = quote
  const when = answeredOn === undefined ? '' : say(' on {answeredOn}', { answeredOn: dayWords(answeredOn) })
  const way = how === undefined ? '' : `, ${answeredHowWords[how]}`
  if (answer === 'declined') return say('declined{when}{way}', { when, way })
  if (answer === 'agreed')
    return limit === undefined
      ? say('agreed{when}{way}', { when, way })
      : say('agreed up to {limit}{when}{way}', { limit: money(limit, currency), when, way })
  return validUntil === undefined
    ? say('not answered yet')
    : say('not answered yet, holds until {validUntil}', { validUntil: dayWords(validUntil) })
}

/**
 * What a quote says by itself of what may come worse, as a draft for the shop to change. Common practice, no source.
 * @param works undefined where the quote was entered by hand: then no share is claimed
 * @param fee that is paid where the work does not help; what was done, where none was agreed
 */
export function worseDraft(works: number | undefined, fee: number | undefined, currency: string): string {
  const pay =
    fee === undefined
      ? say('you pay for the work that was done.')
      : fee === 0
        ? say('you pay nothing: no fix, no fee.')
        : say('you pay {fee} for the diagnosis.', { fee: money(fee, currency) })
  if (works === undefined)
    return say('If it takes more, we stop before your limit and ask you first. If the work does not help, {pay}', {
      pay,
    })
  const failed = say('In {percent} of such cards the work does not help. Then {pay}', {
    percent: percent(1 - works),
    pay,
  })
  return say('In one of ten such cards it takes more. Then we stop before your limit and ask you first. {failed}', {
    failed,
  })
}
