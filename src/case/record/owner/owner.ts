/** The owner's record: plain words, short sentences, no trade word that is not explained. */
import { paragraph, section } from '../blocks.ts'
import type { RecordDocument, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { money, dayWords } from '../words.ts'
import { didSection, sureSection } from './did.ts'
import { foundSection, happenedSection } from './found.ts'
import { careSection, paySection } from './pay.ts'

export function ownersRecord(input: RecordInput): RecordDocument {
  const { caseFile, today } = input
  const { arrival, handBack, card } = caseFile
  const facts = [
    ...(card === undefined ? [] : [{ name: 'Card number', value: card }]),
    ...(arrival.owner === '' ? [] : [{ name: 'Owner', value: arrival.owner }]),
    ...(arrival.on === undefined ? [] : [{ name: 'Came in', value: dayWords(arrival.on) }]),
    ...(handBack.on === undefined ? [] : [{ name: 'Given back', value: dayWords(handBack.on) }]),
  ]
  return {
    audience: 'owner',
    language: 'en',
    title: 'Your card, and what we did',
    under: 'A short record in plain words',
    facts,
    sections: [
      shortSection(input),
      happenedSection(input),
      foundSection(input),
      didSection(input),
      sureSection(input),
      paySection(input),
      careSection(input),
    ],
    foot: `${card === undefined ? caseFile.title : `Card ${card}`}, record for the owner, ${dayWords(today)}`,
    day: today,
  }
}

const outcomeWords = {
  repaired: 'Your card works again, as far as our tests can show.',
  'partly repaired': 'Your card works again in part. Please read on to see what is still wrong.',
  'not repaired': 'We are sorry: we could not mend your card.',
  'not worth repairing': 'To mend your card would cost more than it is worth, so we stopped.',
} as const

function shortSection({ caseFile: { handBack, demo } }: RecordInput): RecordSection {
  const { outcome, charged, currency } = handBack
  return section(
    'In short',
    paragraph(outcome === undefined ? 'The work on your card is not done yet.' : outcomeWords[outcome]),
    ...(charged === undefined ? [] : [paragraph(`You pay ${money(charged, currency)}.`)]),
    ...(demo ? [paragraph('This is an invented example. No such card exists.')] : []),
  )
}
