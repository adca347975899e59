/** Of the technician's record: what was seen and marked on the board, and the photos. */
import { clauseCase, numberWords } from '../../../base/index.ts'
import { type Mark, hungOf, hungWords, type SpillMark, substances as shippedSubstances } from '../../../spill/index.ts'
import type { Case, Photo } from '../../schema.ts'
import { paragraph, section, table } from '../blocks.ts'
import type { RecordBlock, RecordPicture, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'

/** Marks by kind and place, and the photos that came with the input. */
export function seenSection({ caseFile, photos }: RecordInput): RecordSection {
  return section('Seen on the board', ...markBlocks(caseFile), ...photoBlocks(caseFile.photos, photos))
}

function markBlocks(caseFile: Case): RecordBlock[] {
  if (caseFile.marks.length === 0) return [paragraph('Nothing was marked on the board.')]
  const rows = caseFile.marks.map((mark) => [
    mark.kind,
    placeOf(mark),
    detailOf(mark, caseFile),
    'note' in mark ? (mark.note ?? '') : '',
  ])
  return [table('Marks', ['Mark', 'Where, x and y in mm', 'Size and kind', 'Note'], rows)]
}

function placeOf(mark: Mark): string {
  const points = mark.kind === 'dam' ? mark.path : [mark.at]
  return `${mark.side} side, ${points.map(({ x, y }) => `${numberWords(x)}, ${numberWords(y)}`).join('; ')}`
}

function pressedWords({ pressed, pushMm }: Extract<Mark, { kind: 'spill' }>): string[] {
  if (pressed === 'no') return ['no cooler was pressed on it']
  if (pushMm > 0) return [`pushed up to ${numberWords(pushMm)} mm`]
  return pressed === 'yes' ? ['a cooler was pressed on it'] : []
}

function layWords(mark: SpillMark): string {
  const hung = hungOf(mark)
  if (hung === 'at an angle') return `down was at ${numberWords(mark.downDeg ?? 0)}°`
  return hung === 'not said' ? 'how the card hung was not said' : `the card hung: ${clauseCase(hungWords[hung])}`
}

function detailOf(mark: Mark, caseFile: Case): string {
  switch (mark.kind) {
    case 'spill': {
      const name = substanceName(mark.substance, caseFile)
      const amount =
        'volumeMl' in mark.amount
          ? `${numberWords(mark.amount.volumeMl)} ml`
          : `a smear of ${numberWords(mark.amount.smearCm2)} cm²`
      return [
        `${name}, ${amount}`,
        `place good to ${numberWords(mark.sdMm)} mm, amount to a factor of about ${Math.exp(mark.amountSdLog).toFixed(2)}`,
        layWords(mark),
        ...pressedWords(mark),
        ...(mark.reachesOtherSide ? ['also through holes and over edges'] : []),
      ].join('; ')
    }
    case 'dam':
      return 'stopped the flow along these points'
    case 'note':
      return mark.text
    case 'slip':
      return `within ${numberWords(mark.radiusMm)} mm`
    default:
      return [
        mark.outline !== undefined
          ? `drawn around, ${mark.outline.length} points`
          : mark.path !== undefined
            ? `brushed ${numberWords(2 * mark.radiusMm)} mm wide along ${mark.path.length} points`
            : `within ${numberWords(mark.radiusMm)} mm`,
        ...(mark.photo === undefined ? [] : [`seen on photo ${photoName(mark.photo, caseFile)}`]),
      ].join('; ')
  }
}

const photoName = (id: string, { photos }: Case): string => photos.find((photo) => photo.id === id)?.name ?? id

/** As a sentence names it; an id that nobody knows stands for itself. */
export const substanceName = (id: string, { substances }: Pick<Case, 'substances'>): string =>
  [...substances, ...shippedSubstances].find((each) => each.id === id)?.name ?? id

function photoBlocks(photos: readonly Photo[], small: RecordInput['photos']): RecordBlock[] {
  if (photos.length === 0) return [paragraph('No photos are in the case.')]
  const rows = photos.map(({ name, side, phase, widthPx, heightPx, corners, note }) => [
    name,
    `${side} side, ${phase} the work`,
    `${numberWords(widthPx)} × ${numberWords(heightPx)} px`,
    corners === undefined ? 'not matched to the board' : 'matched to the board by four corners',
    note ?? '',
  ])
  const pictures = photos.flatMap((photo): RecordPicture[] => {
    const dataUrl = small?.get(photo.id)
    if (dataUrl === undefined) return []
    const words = `${photo.name}, ${photo.side} side, ${photo.phase} the work`
    const { widthPx, heightPx } = photo
    return [{ source: { dataUrl }, alt: `Photo ${words}`, caption: words, widthPx, heightPx }]
  })
  return [
    table('Photos', ['Photo', 'Of', 'Size', 'Matched', 'Note'], rows),
    ...(pictures.length === 0 ? [] : [{ kind: 'pictures', pictures } as const]),
  ]
}
