/** Reach in rings, and the wash of where the spill was. */
import type { Grid, Point } from '../../../base/index.ts'
import { ringShapes } from '../../../case/index.ts'
import type { Ring } from '../../../spill/index.ts'
import { type Frame, tracePolygon } from './frame.ts'
import { paint, viewOf } from './paint.ts'

/** @param rings of the side that the pane shows, in mm of the board */
export const drawRings = (frame: Frame, rings: readonly Ring[]): void => paint(frame, ringShapes(viewOf(frame), rings))

/** @param image one pixel a cell, first row on top; stays within the board's outline */
export function drawWash(frame: Frame, image: CanvasImageSource, grid: Grid, outline: readonly Point[]): void {
  const { ctx, transform: t } = frame
  ctx.save()
  ctx.beginPath()
  tracePolygon(frame, outline)
  ctx.clip()
  ctx.imageSmoothingEnabled = true
  const top = grid.originYMm + grid.rows * grid.cellMm
  ctx.transform(t.a, 0, 0, -t.d, t.a * grid.originXMm + t.e, t.d * top + t.f)
  ctx.drawImage(image, 0, 0, grid.columns * grid.cellMm, grid.rows * grid.cellMm)
  ctx.restore()
}
