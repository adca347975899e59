/** Of the technician's record: what was seen and marked on the board, and the photos. */
import { clauseCase, decimals, numberWords, say } from '../../../base/index.ts'
import { type Mark, hungOf, hungWords, type SpillMark, substances as shippedSubstances } from '../../../spill/index.ts'
import type { Case, Photo } from '../../schema.ts'
import { paragraph, section, table } from '../blocks.ts'
import type { RecordBlock, RecordPicture, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { markKindWords } from '../../kind-words.ts'

/** Marks by kind and place, and the photos that came with the input. */
export function seenSection({ caseFile, photos }: RecordInput): RecordSection {
  return section(say('Seen on the board'), ...markBlocks(caseFile), ...photoBlocks(caseFile.photos, photos))
}

function markBlocks(caseFile: Case): RecordBlock[] {
  if (caseFile.marks.length === 0) return [paragraph(say('Nothing was marked on the board.'))]
  const rows = caseFile.marks.map((mark) => [
    markKindWords[mark.kind],
    placeOf(mark),
    detailOf(mark, caseFile),
    'note' in mark ? (mark.note ?? '') : '',
  ])
  return [
    table(
      say('Marks'),
      [
        say('{count, plural, one {Mark} other {Marks}}', { count: 1 }),
        say('Where, x and y in mm'),
        say('Size and kind'),
        say('Note'),
      ],
      rows,
    ),
  ]
}

function placeOf(mark: Mark): string {
  const points = mark.kind === 'dam' ? mark.path : [mark.at]
  return say('{side, select, top {top} other {bottom}} side, {points}', {
    side: mark.side,
    points: points.map(({ x, y }) => `${numberWords(x)}, ${numberWords(y)}`).join('; '),
  })
}

function pressedWords({ pressed, pushMm }: Extract<Mark, { kind: 'spill' }>): string[] {
  if (pressed === 'no') return [say('no cooler was pressed on it')]
  if (pushMm > 0) return [say('pushed up to {pushMm} mm', { pushMm: numberWords(pushMm) })]
  return pressed === 'yes' ? [say('a cooler was pressed on it')] : []
}

function layWords(mark: SpillMark): string {
  const hung = hungOf(mark)
  if (hung === 'at an angle') return say('down was at {numberWords}°', { numberWords: numberWords(mark.downDeg ?? 0) })
  return hung === 'not said'
    ? say('how the card hung was not said')
    : say('the card hung: {hungWords}', { hungWords: clauseCase(hungWords[hung]) })
}

function detailOf(mark: Mark, caseFile: Case): string {
  switch (mark.kind) {
    case 'spill': {
      const name = substanceName(mark.substance, caseFile)
      const amount =
        'volumeMl' in mark.amount
          ? `${numberWords(mark.amount.volumeMl)} ml`
          : say('a smear of {smearCm2} cm²', { smearCm2: numberWords(mark.amount.smearCm2) })
      return [
        `${name}, ${amount}`,
        say('place good to {sdMm} mm, amount to a factor of about {amountSdLog}', {
          sdMm: numberWords(mark.sdMm),
          amountSdLog: decimals(Math.exp(mark.amountSdLog), 2),
        }),
        layWords(mark),
        ...pressedWords(mark),
        ...(mark.reachesOtherSide ? [say('also through holes and over edges')] : []),
      ].join('; ')
    }
    case 'dam':
      return say('stopped the flow along these points')
    case 'note':
      return mark.text
    case 'slip':
      return say('within {radiusMm} mm', { radiusMm: numberWords(mark.radiusMm) })
    default:
      return [
        mark.outline !== undefined
          ? say('drawn around, {points} points', { points: mark.outline.length })
          : mark.path !== undefined
            ? say('brushed {widthMm} mm wide along {points} points', {
                widthMm: numberWords(2 * mark.radiusMm),
                points: mark.path.length,
              })
            : say('within {radiusMm} mm', { radiusMm: numberWords(mark.radiusMm) }),
        ...(mark.photo === undefined ? [] : [say('seen on photo {photo}', { photo: photoName(mark.photo, caseFile) })]),
      ].join('; ')
  }
}

const photoName = (id: string, { photos }: Case): string => photos.find((photo) => photo.id === id)?.name ?? id

/** As a sentence names it; an id that nobody knows stands for itself. */
export const substanceName = (id: string, { substances }: Pick<Case, 'substances'>): string =>
  [...substances, ...shippedSubstances].find((each) => each.id === id)?.name ?? id

function photoBlocks(photos: readonly Photo[], small: RecordInput['photos']): RecordBlock[] {
  if (photos.length === 0) return [paragraph(say('No photos are in the case.'))]
  const rows = photos.map(({ name, side, phase, widthPx, heightPx, corners, note }) => [
    name,
    say('{side, select, top {top} other {bottom}} side, {phase, select, before {before} other {after}} the work', {
      side,
      phase,
    }),
    `${numberWords(widthPx)} × ${numberWords(heightPx)} px`,
    corners === undefined ? say('not matched to the board') : say('matched to the board by four corners'),
    note ?? '',
  ])
  const pictures = photos.flatMap((photo): RecordPicture[] => {
    const dataUrl = small?.get(photo.id)
    if (dataUrl === undefined) return []
    const words = say(
      '{name}, {side, select, top {top} other {bottom}} side, {phase, select, before {before} other {after}} the work',
      {
        name: photo.name,
        side: photo.side,
        phase: photo.phase,
      },
    )
    const { widthPx, heightPx } = photo
    return [{ source: { dataUrl }, alt: say('Photo {words}', { words }), caption: words, widthPx, heightPx }]
  })
  return [
    table(say('Photos'), [say('Photo'), say('Of'), say('Size'), say('Matched'), say('Note')], rows),
    ...(pictures.length === 0 ? [] : [{ kind: 'pictures', pictures } as const]),
  ]
}
