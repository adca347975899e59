/** Reach: the reached set's edge as a solid ring, round distances around it dashed; and the wash of where it was. */
import type { Point } from '../../../base/index.ts'
import type { Grid } from '../../../base/index.ts'
import type { Ring } from '../../../spill/index.ts'
import { type Frame, tracePolygon, traceLoop } from './frame.ts'

export function drawRings(frame: Frame, rings: readonly Ring[]): void {
  const { ctx, theme } = frame
  ctx.lineJoin = 'round'
  ctx.strokeStyle = theme.reach
  for (const ring of rings) {
    ctx.beginPath()
    for (const loop of ring.loops) traceLoop(frame, loop)
    if (ring.solid) {
      ctx.fillStyle = theme.field
      ctx.globalAlpha = 0.1
      ctx.fill('evenodd')
      ctx.globalAlpha = 1
    }
    ctx.setLineDash(ring.solid ? [] : [6, 5])
    ctx.lineWidth = ring.solid ? 2.2 : 1.3
    ctx.stroke()
  }
  ctx.setLineDash([])
}

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
