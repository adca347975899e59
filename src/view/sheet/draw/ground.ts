/** The bench, the millimetre grid and the bare board with its cut-outs and holes, and photos on it. */
import type { BoardModel } from '../../../board/index.ts'
import type { PhotoView } from '../props.ts'
import { gridSteps } from '../pure/scaleBar.ts'
import { type Frame, touches, tracePolygon } from './frame.ts'
import { drawUnderlay } from './underlay.ts'

/** A soft rim from a few wide strokes: a blurred shadow costs a whole frame where no graphics card helps. */
const SHADOW_PX = [12, 8, 4.5] as const

export function drawGround(frame: Frame, model: BoardModel, photos: readonly PhotoView[]): void {
  const { ctx, pane, theme } = frame
  ctx.fillStyle = theme.paper
  ctx.fillRect(0, 0, pane.width, pane.height)
  ctx.beginPath()
  tracePolygon(frame, model.outline)
  for (const cutout of model.cutouts) tracePolygon(frame, cutout)
  ctx.lineJoin = 'round'
  ctx.strokeStyle = theme.ink
  ctx.globalAlpha = 0.035
  for (const lineWidth of SHADOW_PX) {
    ctx.lineWidth = lineWidth
    ctx.stroke()
  }
  ctx.globalAlpha = 1
  ctx.fillStyle = theme.sheet
  ctx.fill('evenodd')
  drawGrid(frame)
  drawUnderlay(frame, model, photos)
  ctx.beginPath()
  tracePolygon(frame, model.outline)
  for (const cutout of model.cutouts) tracePolygon(frame, cutout)
  ctx.lineJoin = 'round'
  ctx.lineWidth = 1.75
  ctx.strokeStyle = theme.ink
  ctx.stroke()
  drawDrills(frame, model)
}

function drawGrid(frame: Frame): void {
  const { ctx, theme, scale } = frame
  const { fineMm, coarseMm } = gridSteps(scale)
  ctx.lineWidth = 1
  for (const [stepMm, colour] of [
    [fineMm, theme.gridFine],
    [coarseMm, theme.gridCoarse],
  ] as const) {
    ctx.beginPath()
    traceGrid(frame, stepMm)
    ctx.strokeStyle = colour
    ctx.stroke()
  }
}

/** Lines on whole pixels, so that they stay thin. */
function traceGrid(frame: Frame, stepMm: number): void {
  const { ctx, transform: t, shown, pane } = frame
  for (let k = Math.ceil(shown.minX / stepMm); k * stepMm <= shown.maxX; k++) {
    const x = Math.round(t.a * k * stepMm + t.e) + 0.5
    ctx.moveTo(x, 0)
    ctx.lineTo(x, pane.height)
  }
  for (let k = Math.ceil(shown.minY / stepMm); k * stepMm <= shown.maxY; k++) {
    const y = Math.round(t.d * k * stepMm + t.f) + 0.5
    ctx.moveTo(0, y)
    ctx.lineTo(pane.width, y)
  }
}

const SMALLEST_DRILL_PX = 2.5

function drawDrills(frame: Frame, model: BoardModel): void {
  const { ctx, transform: t, scale, theme, shown } = frame
  ctx.beginPath()
  for (const { at, diameterMm } of model.drills) {
    const radius = (diameterMm * scale) / 2
    if (2 * radius < SMALLEST_DRILL_PX) continue
    const box = { minX: at.x - diameterMm, maxX: at.x + diameterMm, minY: at.y - diameterMm, maxY: at.y + diameterMm }
    if (!touches(box, shown)) continue
    const x = t.a * at.x + t.e
    const y = t.d * at.y + t.f
    ctx.moveTo(x + radius, y)
    ctx.arc(x, y, radius, 0, 2 * Math.PI)
  }
  ctx.fillStyle = theme.paper
  ctx.fill()
  ctx.lineWidth = 1.25
  ctx.strokeStyle = theme.ink
  ctx.stroke()
}
