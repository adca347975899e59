/** The quote as a page for the owner: price and days as ranges, the chance, what happens if it turns out worse, the answer. */
import { dayWords, money, numberWords, percent, say, spoken } from '../../base/index.ts'
import { inventedSection, shopSection } from '../invoice/page.ts'
import { facts, paragraph, section } from '../record/blocks.ts'
import type { RecordDocument, RecordSection } from '../record/document.ts'
import type { Case } from '../schema.ts'
import type { Quote } from './schema.ts'
import { answerWords, daysWords } from './words.ts'

/** Where no quote was given the page says so. @param today the day it is printed */
export function quotePage({ caseFile, today }: { readonly caseFile: Case; readonly today: string }): RecordDocument {
  const { quote, card, title, arrival, handBack } = caseFile
  return {
    audience: 'quote',
    language: spoken(),
    title: say('What mending your card would cost'),
    under: quote?.letterhead?.name ?? '',
    facts: [
      ...(quote === undefined ? [] : [{ name: say('Day'), value: dayWords(quote.on) }]),
      ...(card === undefined ? [] : [{ name: say('Card number'), value: card }]),
      ...(arrival.owner === '' ? [] : [{ name: say('Owner'), value: arrival.owner }]),
      ...(quote?.validUntil === undefined ? [] : [{ name: say('Holds until'), value: dayWords(quote.validUntil) }]),
    ],
    sections:
      quote === undefined
        ? [section(say('Quote'), paragraph(say('No quote was given for this card.')))]
        : [
            priceSection(quote, handBack.currency),
            worseSection(quote),
            answerSection(quote, handBack.currency),
            ...(quote.letterhead === undefined ? [] : shopSection(quote.letterhead)),
            ...inventedSection(caseFile),
          ],
    foot: say('{title}, quote, {dayWords}', {
      title: card === undefined ? title : say('Card {card}', { card }),
      dayWords: dayWords(quote?.on ?? today),
    }),
    day: quote?.on ?? today,
  }
}

function priceSection(quote: Quote, currency: string): RecordSection {
  const { low, expected, high, taxPct, works } = quote
  const tax = taxPct === 0 ? '' : say(', with {taxPct} % tax', { taxPct: numberWords(taxPct) })
  return section(
    say('Price and time'),
    facts(say('Price and time'), [
      [say('Price'), say('{low} to {high}{tax}', { low: money(low, currency), high: money(high, currency), tax })],
      [say('On average'), money(expected, currency)],
      [say('Time'), daysWords(quote)],
      ...(works === undefined
        ? []
        : [[say('Works after it'), say('{works}, by our estimate', { works: percent(works) })] as const]),
    ]),
    paragraph(say('This is an estimate, not a fixed price.')),
  )
}

const worseSection = ({ ifWorse }: Quote): RecordSection =>
  section(
    say('If it turns out worse'),
    paragraph(
      ifWorse.trim() === '' ? say('We stop and ask you before it gets dearer than you agreed.') : ifWorse.trim(),
    ),
  )

function answerSection(quote: Quote, currency: string): RecordSection {
  if (quote.answer !== 'open')
    return section(say('Your answer'), paragraph(say('You {answer}.', { answer: answerWords(quote, currency) })))
  return section(
    say('Your answer'),
    facts(say('Your answer'), [
      [say('At most'), '____________________'],
      [say('Day'), '____________________'],
      [say('Name'), '____________________'],
    ]),
  )
}
