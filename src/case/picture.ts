/** The sheet as one SVG text, for the command line and for paper: no screen needed. */
import { say } from '../base/index.ts'
import type { BoardModel, Side } from '../board/index.ts'
import type { Tally } from '../report/index.ts'
import type { Mark } from '../spill/index.ts'
import type { Assessment } from './assess.ts'
import { badgeBox, badgesOf } from './drawing/badges.ts'
import { symbolBox } from './drawing/mark-shapes.ts'
import { themes } from './drawing/palette.ts'
import { partObstacles, SMALLEST_TEXT_PX } from './drawing/part-labels.ts'
import { drawBoard, drawNames, drawScaleBar, partsOf } from './picture/board.ts'
import { drawLabels, drawMarks } from './picture/marks.ts'
import { drawField, drawLift, drawLoad, drawReach, type OnPaper, ringsHere, untestedLanes } from './picture/overlays.ts'
import { element, escapeText, paperFor, short } from './picture/svg.ts'
import { estimateText, viewOn } from './picture/write-shapes.ts'

export const OVERLAYS = ['load', 'field', 'reach', 'marks', 'lift'] as const
export type Overlay = (typeof OVERLAYS)[number]

export interface PictureInput {
  readonly model: BoardModel
  readonly side: Side
  readonly show: readonly Overlay[]
  readonly marks: readonly Mark[]
  readonly tally: Tally | undefined
  readonly assessment: Assessment
  readonly title: string
  /** Name of a substance by its id, beside a spill; the id itself where left out. */
  readonly substanceName?: (id: string) => string
  /** So many pixels wide it will be shown: no letter is then under 12 of them. Left out, it is drawn to be zoomed into. */
  readonly shownPx?: number
}

const MARGIN_MM = 8

/** @returns an SVG document, one user unit a millimetre; the bottom side is drawn as it looks when the board is turned over */
export function drawSheet(input: PictureInput): string {
  const { model, side, assessment, show } = input
  const paper = paperFor(model.box, side, MARGIN_MM)
  const unit = input.shownPx === undefined ? undefined : paper.widthMm / input.shownPx
  const view = viewOn(paper, side, unit)
  const letterMm = Math.max(3, SMALLEST_TEXT_PX * (unit ?? 0))
  const on: OnPaper = { paper, view, model }
  const marks = show.includes('marks') ? input.marks.filter((mark) => mark.side === side) : []
  const rings = show.includes('reach') ? assessment.reaches.map(({ reach }) => ringsHere(on, reach)) : []
  const symbols = marks.filter(({ kind }) => kind !== 'dam').map((mark) => symbolBox(view, mark))
  const badges = show.includes('lift') ? badgesOf(view, model, assessment.suspects.lift, symbols) : []
  const parts = partsOf(model, side)
  const obstacles = [...partObstacles(view, parts, estimateText), ...badges.map((badge) => badgeBox(view, badge))]
  const drawn = [
    show.includes('load') ? drawLoad(on, input.tally) : '',
    show.includes('field') ? drawField(paper, side, assessment.suspects.spill) : '',
    ...rings.map((each) => drawReach(on, each)),
    drawNames(view, parts),
    drawLift(on, badges),
    drawMarks(view, marks),
    drawLabels(view, { marks, rings: rings.flat(), obstacles, substanceName: input.substanceName ?? ((id) => id) }),
  ]
  const says = say('{title}: {name}, {side, select, top {top} other {bottom}} side', {
    title: input.title,
    name: model.name,
    side,
  })
  const dotted = input.show.includes('load') && untestedLanes(input.tally).length > 0 ? say(' · dots: not tested') : ''
  const inside = [
    `<title>${escapeText(says)}</title>`,
    element('rect', { width: paper.widthMm, height: paper.heightMm, fill: themes.paper.paper }),
    drawBoard(paper, model, side, { laneNames: unit === undefined }),
    ...drawn,
    drawScaleBar(paper, MARGIN_MM, letterMm),
    element(
      'text',
      {
        x: paper.widthMm - MARGIN_MM,
        y: paper.heightMm - MARGIN_MM / 2,
        'font-size': letterMm,
        fill: themes.paper.muted,
        'text-anchor': 'end',
        'dominant-baseline': 'central',
      },
      escapeText(`${says}${dotted}`),
    ),
  ]
  return `${element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${short(paper.widthMm)} ${short(paper.heightMm)}`,
      width: `${short(paper.widthMm)}mm`,
      height: `${short(paper.heightMm)}mm`,
      'font-family': 'Atkinson Hyperlegible Next, sans-serif',
      role: 'img',
    },
    inside.filter((piece) => piece !== '').join('\n'),
  )}\n`
}
