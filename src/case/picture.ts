/** The sheet as one SVG text, for the command line and for paper: no screen needed. */
import type { BoardModel, Side } from '../board/index.ts'
import type { Tally } from '../report/index.ts'
import type { Mark } from '../spill/index.ts'
import type { Assessment } from './assess.ts'
import { drawBoard, drawNames, drawScaleBar } from './picture/board.ts'
import { drawMarks } from './picture/marks.ts'
import { drawField, drawLift, drawLoad, drawReach, patterns, untestedLanes } from './picture/overlays.ts'
import { element, escapeText, paperFor, short } from './picture/svg.ts'

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
}

const MARGIN_MM = 8

/** @returns an SVG document, one user unit a millimetre; the bottom side is drawn as it looks when the board is turned over */
export function drawSheet(input: PictureInput): string {
  const { model, side, assessment } = input
  const paper = paperFor(model.box, side, MARGIN_MM)
  const layers: Record<Overlay, () => string> = {
    load: () => drawLoad(paper, model, side, input.tally),
    field: () => drawField(paper, side, assessment.suspects.spill),
    reach: () => assessment.reaches.map(({ reach }) => drawReach(paper, side, reach)).join('\n'),
    marks: () => drawMarks(paper, side, input.marks),
    lift: () => drawLift(paper, model, side, assessment.suspects.lift),
  }
  const under = OVERLAYS.filter((overlay) => overlay !== 'lift' && input.show.includes(overlay)).map((overlay) =>
    layers[overlay](),
  )
  const lift = input.show.includes('lift') ? layers.lift() : ''
  const says = `${input.title}: ${model.name}, ${side} side`
  const dotted = input.show.includes('load') && untestedLanes(input.tally).length > 0 ? ' · dots: not tested' : ''
  const inside = [
    `<title>${escapeText(says)}</title>`,
    `<defs>${patterns}</defs>`,
    element('rect', { width: paper.widthMm, height: paper.heightMm, fill: '#f6f1e7' }),
    drawBoard(paper, model, side),
    ...under,
    drawNames(paper, model, side),
    lift,
    drawScaleBar(paper, MARGIN_MM),
    element(
      'text',
      {
        x: paper.widthMm - MARGIN_MM,
        y: paper.heightMm - MARGIN_MM / 2,
        'font-size': 3,
        fill: '#6e685d',
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
