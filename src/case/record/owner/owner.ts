/** The owner's record: plain words, short sentences, no trade word that is not explained. */
import { clauseCase } from '../../../base/index.ts'
import { doubtsOfRepair } from '../../doubts-of-repair.ts'
import { isDeclined } from '../../quote/declined.ts'
import { paragraph, section } from '../blocks.ts'
import type { RecordDocument, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { dayWords } from '../words.ts'
import { goesBackSection, wouldCostSection } from './declined.ts'
import { didSection, sureSection } from './did.ts'
import { foundSection, happenedSection } from './found.ts'
import { careSection, paySection, shortPrice } from './pay.ts'

/** The short record for the owner. Facts that nobody entered are left out. */
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
    title: isDeclined(caseFile) ? 'Your card, and what we found' : 'Your card, and what we did',
    under: 'A short record in plain words',
    facts,
    sections: [
      shortSection(input),
      happenedSection(input),
      foundSection(input),
      ...(isDeclined(caseFile)
        ? [wouldCostSection(input), goesBackSection(input)]
        : [didSection(input), sureSection(input)]),
      paySection(input),
      careSection(input),
    ],
    foot: `${card === undefined ? caseFile.title : `Card ${card}`}, record for the owner, ${dayWords(today)}`,
    day: today,
  }
}

/** What was noted as the outcome, held against what was tested: a record must not claim more than the tests show. */
function outcomeWords({ caseFile, proof }: RecordInput): string {
  const { outcome } = caseFile.handBack
  if (isDeclined(caseFile)) return 'You chose not to have your card mended. So we looked at it, and stopped there.'
  if (outcome === undefined) return 'The work on your card is not done yet.'
  if (outcome === 'not repaired') return 'We are sorry: we could not mend your card.'
  if (outcome === 'not worth repairing') return 'To mend your card would cost more than it is worth, so we stopped.'
  const fails = proof.still.length + proof.fresh.length + proof.notTold.length > 0 || proof.passes.failing > 0
  if (fails) return 'We worked on your card, but a test of its memory still finds errors. Please read on.'
  if (outcome === 'partly repaired') return 'Your card works again in part. Please read on to see what is still wrong.'
  if (!proof.tested)
    return 'We worked on your card and think that it works again. But we did not test its memory after the work.'
  const [doubt] = doubtsOfRepair(caseFile)
  if (doubt === undefined) return 'Your card works again, as far as our tests can show.'
  return `Your card passed our memory test after the work. Still open: ${clauseCase(doubt)}`
}

function shortSection(input: RecordInput): RecordSection {
  const { demo } = input.caseFile
  return section(
    'In short',
    paragraph(outcomeWords(input)),
    ...shortPrice(input.caseFile),
    ...(demo ? [paragraph('This is an invented example. No such card exists.')] : []),
  )
}
