/** The technician's record: everything in the case, and what was not done or measured says so. */
import { dayWords, say, spoken } from '../../../base/index.ts'
import type { RecordDocument } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { benchMachineSection } from './bench-machine.ts'
import { arrivalSection, cardSection } from './card.ts'
import { doneSection } from './done.ts'
import { cautionSection, grantedSection, handBackSection, moneySection, unknownSection } from './ending.ts'
import { judgedSection } from './judged.ts'
import { measuredSection } from './measured.ts'
import { memoryRunSection } from './memory-run.ts'
import { padsSection } from './pads.ts'
import { beforeAfterSection, proofSection } from './proof.ts'
import { seenSection } from './seen.ts'
import { outcomeWords } from '../../kind-words.ts'

/** The full record. Facts that nobody entered stay in it and say so. */
export function techniciansRecord(input: RecordInput): RecordDocument {
  const { caseFile, today, model } = input
  const { card, handBack } = caseFile
  return {
    audience: 'technician',
    language: spoken(),
    title: caseFile.title,
    under: say('Record of the visit, for the technician'),
    facts: [
      { name: say('Card number'), value: card ?? say('not noted') },
      { name: say('Board'), value: model.name },
      {
        name: say('Outcome'),
        value: handBack.outcome === undefined ? say('not handed back') : outcomeWords[handBack.outcome],
      },
      { name: say('Made on'), value: dayWords(today) },
    ],
    sections: [
      handBackSection(input),
      cardSection(input),
      arrivalSection(input),
      beforeAfterSection(input),
      proofSection(input),
      unknownSection(input),
      memoryRunSection(input),
      measuredSection(input),
      benchMachineSection(input),
      seenSection(input),
      judgedSection(input),
      doneSection(input),
      padsSection(input),
      moneySection(input),
      cautionSection(input),
      grantedSection(input),
    ],
    foot: say('{title}, record for the technician, {today}', {
      title: card === undefined ? caseFile.title : say('Card {card}', { card }),
      today: dayWords(today),
    }),
    day: today,
  }
}
