/** Of the technician's record: which card and board, and how it arrived. */
import { counted, joined } from '../../../base/index.ts'
import { mountingWords } from '../../../spill/index.ts'
import { codeWords } from '../../code.ts'
import type { Case } from '../../schema.ts'
import { facts, paragraph, quote, section } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { agreedFacts, handedInFacts } from '../intake-facts.ts'
import { dayWords } from '../words.ts'

/** An accident as a record names it. */
export const accidentWords = {
  spill: 'spill or leak',
  flux: 'flux left behind',
  slip: 'tool slip',
  none: 'none',
  unknown: 'not known',
} as const
/** How the card hung. */
export const mountedWords = { ...mountingWords, unknown: 'not known' } as const
/** Yes and no, or that nobody knows. */
export const answerWords = { yes: 'yes', no: 'no', unknown: 'not known' } as const

/** Which card and board: size in mm, parts by kind, channels, lanes and rails. Says so where the case is a demo. */
export function cardSection({ caseFile, model }: RecordInput): RecordSection {
  const kinds = new Map<string, number>()
  for (const { kind } of model.parts) kinds.set(kind, (kinds.get(kind) ?? 0) + 1)
  const parts = [...kinds].map(([kind, n]) => `${n} ${kind.replaceAll('-', ' ')}`)
  const { box } = model
  return section(
    'Card and board',
    facts('Card and board', [
      ['Case', caseFile.title],
      ['Card number', caseFile.card ?? ''],
      ['Board', model.name],
      ['Board file', 'path' in caseFile.board ? caseFile.board.path : 'carried inside the case'],
      ['Size', `${(box.maxX - box.minX).toFixed(1)} × ${(box.maxY - box.minY).toFixed(1)} mm`],
      ['Parts', joined(parts)],
      ['Memory', `${counted(model.channels.length, 'channel')}, ${counted(model.lanes.length, 'byte lane')}`],
      ['Rails', String(model.rails.length)],
      ['Known to be good', caseFile.goodCard ? 'yes: measured for its figures' : 'no'],
      ...(caseFile.demo ? ([['Note', 'an invented demo case']] as const) : []),
    ]),
  )
}

/** How the card came, with the owner's account in quotes, and what was taken down; what nobody entered stays empty. */
export function arrivalSection({ caseFile }: RecordInput): RecordSection {
  const { arrival } = caseFile
  return section(
    'Arrival',
    facts('Arrival', [
      ['Came in on', arrival.on === undefined ? '' : dayWords(arrival.on)],
      ['Owner', arrival.owner],
      ['Accident', accidentWords[arrival.accident]],
      ['Mounted', mountedWords[arrival.mounted]],
      ['Powered by the owner since', answerWords[arrival.poweredSince]],
      ['What the card does', arrival.seen],
    ]),
    ...quote('The owner’s account', arrival.account),
    intakeBlock(caseFile),
  )
}

/** The owner's phone and mail are for the slip and the desk: they have no place here. */
function intakeBlock(caseFile: Case): RecordBlock {
  if (caseFile.intake === undefined) return paragraph('Nothing more was taken down at the intake desk.')
  const { code, due } = caseFile.intake
  return facts('Intake', [
    ['Code', code === undefined ? '' : codeWords(code)],
    ['Due', due === undefined ? '' : dayWords(due)],
    ...handedInFacts(caseFile.intake),
    ...agreedFacts(caseFile.intake, caseFile.handBack.currency),
  ])
}
