/** The quote as a page for the owner: price and days as ranges, the chance, what happens if it turns out worse, the answer. */
import { money, numberWords, percent } from '../../base/index.ts'
import { inventedSection, shopSection } from '../invoice/page.ts'
import { facts, paragraph, section } from '../record/blocks.ts'
import type { RecordDocument, RecordSection } from '../record/document.ts'
import { dayWords } from '../record/words.ts'
import type { Case } from '../schema.ts'
import type { Quote } from './schema.ts'
import { answerWords, daysWords } from './words.ts'

/** Where no quote was given the page says so. @param today the day it is printed */
export function quotePage({ caseFile, today }: { readonly caseFile: Case; readonly today: string }): RecordDocument {
  const { quote, card, title, arrival, handBack } = caseFile
  return {
    audience: 'quote',
    language: 'en',
    title: 'What mending your card would cost',
    under: quote?.letterhead?.name ?? '',
    facts: [
      ...(quote === undefined ? [] : [{ name: 'Day', value: dayWords(quote.on) }]),
      ...(card === undefined ? [] : [{ name: 'Card number', value: card }]),
      ...(arrival.owner === '' ? [] : [{ name: 'Owner', value: arrival.owner }]),
      ...(quote?.validUntil === undefined ? [] : [{ name: 'Holds until', value: dayWords(quote.validUntil) }]),
    ],
    sections:
      quote === undefined
        ? [section('Quote', paragraph('No quote was given for this card.'))]
        : [
            priceSection(quote, handBack.currency),
            worseSection(quote),
            answerSection(quote, handBack.currency),
            ...(quote.letterhead === undefined ? [] : shopSection(quote.letterhead)),
            ...inventedSection(caseFile),
          ],
    foot: `${card === undefined ? title : `Card ${card}`}, quote, ${dayWords(quote?.on ?? today)}`,
    day: quote?.on ?? today,
  }
}

function priceSection(quote: Quote, currency: string): RecordSection {
  const { low, expected, high, taxPct, works } = quote
  const tax = taxPct === 0 ? '' : `, with ${numberWords(taxPct)} % tax`
  return section(
    'Price and time',
    facts('Price and time', [
      ['Price', `${money(low, currency)} to ${money(high, currency)}${tax}`],
      ['On average', money(expected, currency)],
      ['Time', daysWords(quote)],
      ...(works === undefined ? [] : [['Works after it', `${percent(works)}, by our estimate`] as const]),
    ]),
    paragraph('This is an estimate, not a fixed price.'),
  )
}

const worseSection = ({ ifWorse }: Quote): RecordSection =>
  section(
    'If it turns out worse',
    paragraph(ifWorse.trim() === '' ? 'We stop and ask you before it gets dearer than you agreed.' : ifWorse.trim()),
  )

function answerSection(quote: Quote, currency: string): RecordSection {
  if (quote.answer !== 'open') return section('Your answer', paragraph(`You ${answerWords(quote, currency)}.`))
  return section(
    'Your answer',
    facts('Your answer', [
      ['At most', '____________________'],
      ['Day', '____________________'],
      ['Name', '____________________'],
    ]),
  )
}
