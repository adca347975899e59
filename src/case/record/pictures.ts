/** Pictures of the sheet for a record, before the work and after it, and how they are told to those who can't see them. */
import { say } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import type { Tally } from '../../report/index.ts'
import { nothingJudged } from '../../suspects/index.ts'
import type { Assessment } from '../assess.ts'
import { substanceNames } from '../drawing/mark-words.ts'
import { drawSheet, type Overlay } from '../picture.ts'
import { type RecordBlock, type RecordPicture, WIDE } from './document.ts'
import type { RecordInput } from './input.ts'

const nothingAssessed: Assessment = { reaches: [], suspects: nothingJudged, faults: [] }

export interface PictureWish {
  readonly side: Side
  readonly when: 'before' | 'after'
  readonly show: readonly Overlay[]
  readonly caption: string
  readonly alt: string
}

/** One drawing of the board. */
export function pictureOf(input: RecordInput, wish: PictureWish): RecordPicture {
  const { model, caseFile, assessment = nothingAssessed } = input
  const tally: Tally | undefined = wish.when === 'before' ? input.tally : input.retest
  const svg = drawSheet({
    model,
    side: wish.side,
    show: wish.show,
    marks: caseFile.marks,
    tally,
    assessment,
    substanceName: substanceNames(caseFile.substances),
    title: wish.when === 'before' ? say('Before the work') : say('After the work'),
    shownPx: shownPxOf(model.box),
  })
  const size = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)
  return {
    source: { svg },
    alt: wish.alt,
    caption: wish.caption,
    widthPx: Number(size?.[1] ?? 100),
    heightPx: Number(size?.[2] ?? 100),
  }
}

/** What is between the margins of a sheet of A4, 178 mm, and half of it, in CSS pixels of 1/96 inch. */
const PAGE_PX = 673
const HALF_PAGE_PX = 329

const shownPxOf = ({ minX, maxX, minY, maxY }: RecordInput['model']['box']): number =>
  (maxX - minX) / (maxY - minY) > WIDE ? PAGE_PX : HALF_PAGE_PX

/** Sides that hold memory or the core, or on which something was marked; the top always. */
export const sidesShown = ({ model, caseFile }: RecordInput): Side[] => {
  const bottom =
    [...model.memories, ...(model.core === undefined ? [] : [model.core])].some(({ side }) => side === 'bottom') ||
    caseFile.marks.some(({ side }) => side === 'bottom')
  return bottom ? ['top', 'bottom'] : ['top']
}

/** Pictures side by side in one block, or one below the other where any of them is wide; none where there are none. */
export function pictureBlocks(pictures: readonly RecordPicture[]): RecordBlock[] {
  if (pictures.length === 0) return []
  return pictures.some(({ widthPx, heightPx }) => widthPx / heightPx > WIDE)
    ? pictures.map((picture) => ({ kind: 'pictures', pictures: [picture] }))
    : [{ kind: 'pictures', pictures }]
}
