/** The quote in plain sentences, for the screen and for the owner's page. */
import { money, percent, roughMoney } from '../../base/index.ts'
import { dayWords } from '../record/words.ts'
import type { Quote } from './schema.ts'
import type { QuoteRange } from './range.ts'

/** `140 to 310 EUR, most likely about 190`: whole amounts, as they are estimates. */
export function rangeWords(
  { low, expected, high }: Pick<QuoteRange, 'low' | 'expected' | 'high'>,
  currency: string,
): string {
  if (Math.round(low) === Math.round(high)) return `about ${roughMoney(expected, currency)}`
  return `${roughMoney(low)} to ${roughMoney(high, currency)}, on average ${roughMoney(expected)}`
}

/** `3 to 8 days`, `1 day`. */
export function daysWords({ daysLow, daysHigh }: Pick<QuoteRange, 'daysLow' | 'daysHigh'>): string {
  if (daysLow === daysHigh) return daysLow === 1 ? '1 day' : `${daysLow} days`
  return `${daysLow} to ${daysHigh} days`
}

/** What the owner said, when and how: `agreed up to 330.00 EUR on 5 November 2026, by phone`. */
export function answerWords(quote: Quote, currency: string): string {
  const { answer, limit, answeredOn, how, validUntil } = quote
  const when = answeredOn === undefined ? '' : ` on ${dayWords(answeredOn)}`
  const way = how === undefined ? '' : `, ${how}`
  if (answer === 'declined') return `declined${when}${way}`
  if (answer === 'agreed') return `agreed${limit === undefined ? '' : ` up to ${money(limit, currency)}`}${when}${way}`
  return validUntil === undefined ? 'not answered yet' : `not answered yet, holds until ${dayWords(validUntil)}`
}

/**
 * What a quote says by itself of what may come worse, as a draft for the shop to change. Common practice, no source.
 * @param works undefined where the quote was entered by hand: then no share is claimed
 * @param fee that is paid where the work does not help; what was done, where none was agreed
 */
export function worseDraft(works: number | undefined, fee: number | undefined, currency: string): string {
  const pay =
    fee === undefined ? 'you pay for the work that was done.' : `you pay ${money(fee, currency)} for the diagnosis.`
  if (works === undefined)
    return `If it takes more, we stop before your limit and ask you first. If the work does not help, ${pay}`
  const failed = `In ${percent(1 - works)} of such cards the work does not help. Then ${pay}`
  return `In one of ten such cards it takes more. Then we stop before your limit and ask you first. ${failed}`
}
