/** Marks on the printed sheet, and the words beside marks and rings: those of the sheet on the screen. */
import type { Box } from '../../base/index.ts'
import type { Mark, Ring } from '../../spill/index.ts'
import { freeLabels } from '../drawing/free-labels.ts'
import { markShapes, marksInOrder } from '../drawing/mark-shapes.ts'
import type { DrawnView } from '../drawing/shape.ts'
import { estimateText, writeShapes, writeText } from './write-shapes.ts'

/** SVG text of the marks on the view's side, in the order of their weight. */
export const drawMarks = (view: DrawnView, marks: readonly Mark[]): string =>
  marksInOrder(marks, view.side)
    .map((mark) => writeShapes(markShapes(view, mark)))
    .join('\n')

export interface Labelled {
  readonly marks: readonly Mark[]
  readonly rings: readonly Ring[]
  readonly obstacles: readonly Box[]
  readonly substanceName: (id: string) => string
}

/** SVG text of the labels that found a free place, with widths estimated, since nothing here can measure text. */
export const drawLabels = (view: DrawnView, labelled: Labelled): string =>
  freeLabels(view, { ...labelled, measure: estimateText })
    .map(({ ground, lines }) => (ground === undefined ? '' : writeShapes([ground])) + lines.map(writeText).join(''))
    .join('\n')
