/** The owner's record: plain words, short sentences, no trade word that is not explained. */
import { clauseCase, dayWords, say, spoken } from '../../../base/index.ts'
import { doubtsOfRepair } from '../../doubts-of-repair.ts'
import { isDeclined } from '../../quote/declined.ts'
import { paragraph, section } from '../blocks.ts'
import type { RecordDocument, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { goesBackSection, wouldCostSection } from './declined.ts'
import { didSection, sureSection } from './did.ts'
import { foundSection, happenedSection } from './found.ts'
import { careSection, paySection, shortPrice } from './pay.ts'

/** The short record for the owner. Facts that nobody entered are left out. */
export function ownersRecord(input: RecordInput): RecordDocument {
  const { caseFile, today } = input
  const { arrival, handBack, card } = caseFile
  const facts = [
    ...(card === undefined ? [] : [{ name: say('Card number'), value: card }]),
    ...(arrival.owner === '' ? [] : [{ name: say('Owner'), value: arrival.owner }]),
    ...(arrival.on === undefined ? [] : [{ name: say('Came in'), value: dayWords(arrival.on) }]),
    ...(handBack.on === undefined ? [] : [{ name: say('Given back'), value: dayWords(handBack.on) }]),
  ]
  return {
    audience: 'owner',
    language: spoken(),
    title: isDeclined(caseFile) ? say('Your card, and what we found') : say('Your card, and what we did'),
    under: say('A short record in plain words'),
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
    foot: say('{title}, record for the owner, {today}', {
      title: card === undefined ? caseFile.title : say('Card {card}', { card }),
      today: dayWords(today),
    }),
    day: today,
  }
}

/** What was noted as the outcome, held against what was tested: a record must not claim more than the tests show. */
function outcomeWords({ caseFile, proof }: RecordInput): string {
  const { outcome } = caseFile.handBack
  if (isDeclined(caseFile)) return say('You chose not to have your card mended. So we looked at it, and stopped there.')
  if (outcome === undefined) return say('The work on your card is not done yet.')
  if (outcome === 'not repaired') return say('We are sorry: we could not mend your card.')
  if (outcome === 'not worth repairing')
    return say('To mend your card would cost more than it is worth, so we stopped.')
  const fails = proof.still.length + proof.fresh.length + proof.notTold.length > 0 || proof.passes.failing > 0
  if (fails) return say('We worked on your card, but a test of its memory still finds errors. Please read on.')
  if (outcome === 'partly repaired')
    return say('Your card works again in part. Please read on to see what is still wrong.')
  if (!proof.tested)
    return say('We worked on your card and think that it works again. But we did not test its memory after the work.')
  const [doubt] = doubtsOfRepair(caseFile)
  if (doubt === undefined) return say('Your card works again, as far as our tests can show.')
  return say('Your card passed our memory test after the work. Still open: {doubt}', { doubt: clauseCase(doubt) })
}

function shortSection(input: RecordInput): RecordSection {
  const { demo } = input.caseFile
  return section(
    say('In short'),
    paragraph(outcomeWords(input)),
    ...shortPrice(input.caseFile),
    ...(demo ? [paragraph(say('This is an invented example. No such card exists.'))] : []),
  )
}
