/** Of the technician's record: which card and board, and how it arrived. */
import { dayWords, decimals, joined, say } from '../../../base/index.ts'
import { mountingWords } from '../../../spill/index.ts'
import { codeWords } from '../../code.ts'
import type { Case } from '../../schema.ts'
import { facts, paragraph, quote, section } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { agreedFacts, handedInFacts } from '../intake-facts.ts'
import type { PartKind } from '../../../board/index.ts'
import { partKindWords } from '../../kind-words.ts'

/** An accident as a record names it. */
export const accidentWords = {
  spill: say('spill or leak'),
  flux: say('flux left behind'),
  slip: say('tool slip'),
  none: say('none'),
  unknown: say('not known'),
} as const
/** How the card hung. */
export const mountedWords = { ...mountingWords, unknown: say('not known') } as const
/** Yes and no, or that nobody knows. */
export const answerWords = { yes: say('yes'), no: say('no'), unknown: say('not known') } as const

/** Which card and board: size in mm, parts by kind, channels, lanes and rails. Says so where the case is a demo. */
export function cardSection({ caseFile, model }: RecordInput): RecordSection {
  const kinds = new Map<PartKind, number>()
  for (const { kind } of model.parts) kinds.set(kind, (kinds.get(kind) ?? 0) + 1)
  const parts = [...kinds].map(([kind, n]) => `${n} ${partKindWords[kind]}`)
  const { box } = model
  return section(
    say('Card and board'),
    facts(say('Card and board'), [
      [say('Case'), caseFile.title],
      [say('Card number'), caseFile.card ?? ''],
      [say('Board'), model.name],
      [say('Board file'), 'path' in caseFile.board ? caseFile.board.path : say('carried inside the case')],
      [say('Size'), `${decimals(box.maxX - box.minX, 1)} × ${decimals(box.maxY - box.minY, 1)} mm`],
      [say('Parts'), joined(parts)],
      [
        say('Memory'),
        say('{channels, plural, one {# channel} other {# channels}}, {lanes, plural, one {# lane} other {# lanes}}', {
          channels: model.channels.length,
          lanes: model.lanes.length,
        }),
      ],
      [say('Rails'), String(model.rails.length)],
      [say('Known to be good'), caseFile.goodCard ? say('yes: measured for its figures') : say('no')],
      ...(caseFile.demo ? ([[say('Note'), say('an invented demo case')]] as const) : []),
    ]),
  )
}

/** How the card came, with the owner's account in quotes, and what was taken down; what nobody entered stays empty. */
export function arrivalSection({ caseFile }: RecordInput): RecordSection {
  const { arrival } = caseFile
  return section(
    say('Arrival'),
    facts(say('Arrival'), [
      [say('Came in on'), arrival.on === undefined ? '' : dayWords(arrival.on)],
      [say('Owner'), arrival.owner],
      [say('Accident'), accidentWords[arrival.accident]],
      [say('Mounted'), mountedWords[arrival.mounted]],
      [say('Powered by the owner since'), answerWords[arrival.poweredSince]],
      [say('What the card does'), arrival.seen],
    ]),
    ...quote(say('The owner’s account'), arrival.account),
    intakeBlock(caseFile),
  )
}

/** The owner's phone and mail are for the slip and the desk: they have no place here. */
function intakeBlock(caseFile: Case): RecordBlock {
  if (caseFile.intake === undefined) return paragraph(say('Nothing more was taken down at the intake desk.'))
  const { code, due } = caseFile.intake
  return facts(say('Intake'), [
    [say('Code'), code === undefined ? '' : codeWords(code)],
    [say('Due'), due === undefined ? '' : dayWords(due)],
    ...handedInFacts(caseFile.intake),
    ...agreedFacts(caseFile.intake, caseFile.handBack.currency),
  ])
}
