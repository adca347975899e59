/** Of the technician's record: the quote and its answer, why work went past the limit, the invoice, what the owner said later. */
import { dayWords, money, percent, say } from '../../../base/index.ts'
import { answerWords, daysWords } from '../../quote/words.ts'
import type { Case } from '../../schema.ts'
import { facts, list, quote as said, table } from '../blocks.ts'
import type { RecordBlock } from '../document.ts'
import { followUpWords } from '../../kind-words.ts'

/** What was told the owner and agreed; nothing where no quote was given. */
export function quoteBlocks({ quote, handBack: { currency } }: Case): RecordBlock[] {
  if (quote === undefined) return []
  const { on, low, expected, high, works, ifWorse, answeredBy, pastLimit } = quote
  return [
    facts(say('Quote'), [
      [say('Given'), dayWords(on)],
      [
        say('Price'),
        say('{low} to {high}, on average {expected}', {
          low: money(low, currency),
          high: money(high, currency),
          expected: money(expected, currency),
        }),
      ],
      [say('Time'), daysWords(quote)],
      [say('Works after it'), works === undefined ? '' : percent(works)],
      [say('Answer'), `${answerWords(quote, currency)}${answeredBy === '' ? '' : ` (${answeredBy})`}`],
    ]),
    ...said(say('If it turns out worse'), ifWorse),
    ...list(
      pastLimit.map(({ limit, spent, on: day, reason }) =>
        say('Past the limit of {limit} on {day}, at {spent}: {reason}', {
          limit: money(limit, currency),
          day: dayWords(day),
          spent: money(spent, currency),
          reason,
        }),
      ),
    ),
  ]
}

/** Number, day and payment; nothing where none was written. */
export function invoiceBlocks({ invoice }: Case): RecordBlock[] {
  if (invoice === undefined) return []
  const { number, on, paidOn } = invoice
  return [
    facts(say('Invoice'), [
      [say('Invoice'), number],
      [say('Day'), dayWords(on)],
      [say('Paid'), paidOn === undefined ? say('open') : dayWords(paidOn)],
    ]),
  ]
}

/** What the owner answered, each time somebody asked. */
export function followUpBlocks({ followUps = [] }: Case): RecordBlock[] {
  if (followUps.length === 0) return []
  return [
    table(
      say('Asked after it went back'),
      [say('Day'), say('Answer'), say('Note')],
      followUps.map(({ on, answer, note }) => [dayWords(on), followUpWords[answer], note]),
    ),
  ]
}
