/** The intake slip: what was taken down when the card was handed in, with the code that finds the case again. It stays with the card. */
import { dayWords, say, spoken } from '../../base/index.ts'
import { cautionsAt } from '../cautions.ts'
import { codeWords } from '../code.ts'
import { intakeOf } from '../intake.ts'
import type { Case } from '../schema.ts'
import { cautions, facts, list, paragraph, quote, section } from './blocks.ts'
import { codePicture } from './code-picture.ts'
import type { RecordDocument, RecordPicture, RecordSection } from './document.ts'
import type { RecordInput } from './input.ts'
import { agreedFacts, handedInFacts } from './intake-facts.ts'
import { accidentWords, answerWords, mountedWords } from './technician/card.ts'

type SlipInput = Pick<RecordInput, 'caseFile' | 'model' | 'today' | 'photos'>

/** The slip of a case. A case that was given no code yet has none on its slip; fields that are empty say so. */
export function intakeSlip({ caseFile, model, today, photos }: SlipInput): RecordDocument {
  const { card, arrival } = caseFile
  const { code, due } = intakeOf(caseFile)
  return {
    audience: 'intake',
    language: spoken(),
    title: say('Intake slip'),
    under: say('Stays with the card'),
    facts: [
      { name: say('Card number'), value: card ?? say('not noted') },
      { name: say('Came in'), value: arrival.on === undefined ? say('not noted') : dayWords(arrival.on) },
      { name: say('Due'), value: due === undefined ? say('not agreed') : dayWords(due) },
    ],
    ...(code === undefined ? {} : { code: { words: codeWords(code), svg: codePicture(code) } }),
    sections: [
      cardSection(caseFile, model.name),
      saidSection(caseFile),
      ownerSection(caseFile),
      ...photoSection(caseFile, photos),
    ],
    foot: say('{title}, intake slip, {today}', {
      title: card === undefined ? caseFile.title : say('Card {card}', { card }),
      today: dayWords(today),
    }),
    day: today,
  }
}

const cardSection = (caseFile: Case, board: string): RecordSection =>
  section(say('The card'), facts(say('The card'), [...handedInFacts(intakeOf(caseFile)), [say('Board'), board]]))

function saidSection(caseFile: Case): RecordSection {
  const { seen, accident, account, mounted, poweredSince } = caseFile.arrival
  return section(
    say('What is said of it'),
    facts(say('What is said of it'), [
      [say('What it does'), seen],
      [say('Accident'), accidentWords[accident]],
      [say('How it hung'), mountedWords[mounted]],
      [say('Powered by the owner since'), answerWords[poweredSince]],
    ]),
    ...quote(say('The owner’s account'), account),
    ...cautions(cautionsAt('arrival', caseFile)),
  )
}

function ownerSection(caseFile: Case): RecordSection {
  const intake = intakeOf(caseFile)
  return section(
    say('The owner, and what was agreed'),
    facts(say('The owner, and what was agreed'), [
      [say('Owner'), caseFile.arrival.owner],
      [say('Phone'), intake.phone],
      [say('Mail'), intake.mail],
      ...agreedFacts(intake, caseFile.handBack.currency),
      [say('Owner’s signature'), '______________________________'],
    ]),
  )
}

function photoSection({ photos }: Case, small: RecordInput['photos']): RecordSection[] {
  const taken = photos.filter(({ atIntake }) => atIntake === true)
  if (taken.length === 0) return []
  const pictures = taken.flatMap(({ id, name, note, widthPx, heightPx }): RecordPicture[] => {
    const dataUrl = small?.get(id)
    if (dataUrl === undefined) return []
    const words = note === undefined || note === '' ? name : note
    return [{ source: { dataUrl }, alt: say('Photo at intake: {words}', { words }), caption: words, widthPx, heightPx }]
  })
  const named = list(taken.map(({ name, note }) => (note === undefined || note === '' ? name : `${name}: ${note}`)))
  return [
    section(
      say('Photos at intake'),
      paragraph(say('{length, plural, one {# photo} other {# photos}}, kept in the case.', { length: taken.length })),
      ...(pictures.length === 0 ? [named] : [{ kind: 'pictures', pictures } as const]),
    ),
  ]
}
