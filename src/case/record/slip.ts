/** The intake slip: what was taken down when the card was handed in, with the code that finds the case again. It stays with the card. */
import { counted } from '../../base/index.ts'
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
import { dayWords } from './words.ts'

type SlipInput = Pick<RecordInput, 'caseFile' | 'model' | 'today' | 'photos'>

/** The slip of a case. A case that was given no code yet has none on its slip; fields that are empty say so. */
export function intakeSlip({ caseFile, model, today, photos }: SlipInput): RecordDocument {
  const { card, arrival } = caseFile
  const { code, due } = intakeOf(caseFile)
  return {
    audience: 'intake',
    language: 'en',
    title: 'Intake slip',
    under: 'Stays with the card',
    facts: [
      { name: 'Card number', value: card ?? 'not noted' },
      { name: 'Came in', value: arrival.on === undefined ? 'not noted' : dayWords(arrival.on) },
      { name: 'Due', value: due === undefined ? 'not agreed' : dayWords(due) },
    ],
    ...(code === undefined ? {} : { code: { words: codeWords(code), svg: codePicture(code) } }),
    sections: [
      cardSection(caseFile, model.name),
      saidSection(caseFile),
      ownerSection(caseFile),
      ...photoSection(caseFile, photos),
    ],
    foot: `${card === undefined ? caseFile.title : `Card ${card}`}, intake slip, ${dayWords(today)}`,
    day: today,
  }
}

const cardSection = (caseFile: Case, board: string): RecordSection =>
  section('The card', facts('The card', [...handedInFacts(intakeOf(caseFile)), ['Board', board]]))

function saidSection(caseFile: Case): RecordSection {
  const { seen, accident, account, mounted, poweredSince } = caseFile.arrival
  return section(
    'What is said of it',
    facts('What is said of it', [
      ['What it does', seen],
      ['Accident', accidentWords[accident]],
      ['How it hung', mountedWords[mounted]],
      ['Powered by the owner since', answerWords[poweredSince]],
    ]),
    ...quote('The owner’s account', account),
    ...cautions(cautionsAt('arrival', caseFile)),
  )
}

function ownerSection(caseFile: Case): RecordSection {
  const intake = intakeOf(caseFile)
  return section(
    'The owner, and what was agreed',
    facts('The owner, and what was agreed', [
      ['Owner', caseFile.arrival.owner],
      ['Phone', intake.phone],
      ['Mail', intake.mail],
      ...agreedFacts(intake, caseFile.handBack.currency),
      ['Owner’s signature', '______________________________'],
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
    return [{ source: { dataUrl }, alt: `Photo at intake: ${words}`, caption: words, widthPx, heightPx }]
  })
  const named = list(taken.map(({ name, note }) => (note === undefined || note === '' ? name : `${name}: ${note}`)))
  return [
    section(
      'Photos at intake',
      paragraph(`${counted(taken.length, 'photo')}, kept in the case.`),
      ...(pictures.length === 0 ? [named] : [{ kind: 'pictures', pictures } as const]),
    ),
  ]
}
