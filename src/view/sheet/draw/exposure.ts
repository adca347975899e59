/** Parts that a pass exposes, by shape: an octagon with a cross over its limit, a triangle where joints melt, a hollow one near. */
import type { PlacedPart } from '../../../board/index.ts'
import type { Box, Point } from '../../../base/index.ts'
import type { ExposureKind } from '../heatView.ts'
import { boxInPane, type Frame, traceRounded } from './frame.ts'
import { drawText, textWidth } from './text.ts'

/** Corners of the shape around (0, 0), unit radius, y down; the panel's little pictures use the same. */
export const exposureShapes: Readonly<Record<ExposureKind, readonly Point[]>> = {
  'over-limit': Array.from({ length: 8 }, (_, i) => ({
    x: Math.cos(((i + 0.5) * Math.PI) / 4),
    y: Math.sin(((i + 0.5) * Math.PI) / 4),
  })),
  melts: [
    { x: 0, y: -1 },
    { x: 1, y: 0.8 },
    { x: -1, y: 0.8 },
  ],
  near: [
    { x: 0, y: -1 },
    { x: 1, y: 0.8 },
    { x: -1, y: 0.8 },
  ],
}

const RADIUS_PX = 9
const SMALL_RADIUS_PX = 4.5
/** Parts that look smaller get a small shape alone: an outline and words would hide them and each other. */
const LARGE_PX = 22
const MIDDLE_RADIUS_PX = 6.5
/** From this size on words have room beside the part's own name. */
const ROOM_FOR_WORDS_PX = 64

/** @param words what stands beside the shape: a temperature, or numbers of passes */
export function drawExposed(frame: Frame, part: PlacedPart, kind: ExposureKind, words: string): Box {
  const { ctx, theme, pane } = frame
  const box = boxInPane(frame, part.box)
  const x = (box.minX + box.maxX) / 2
  if (Math.min(box.maxX - box.minX, box.maxY - box.minY) < LARGE_PX) {
    const middle = (box.minY + box.maxY) / 2
    drawShape(frame, kind, x, middle, SMALL_RADIUS_PX)
    return boxAround(x, middle, SMALL_RADIUS_PX)
  }
  ctx.beginPath()
  traceRounded(frame, part.outline, 4)
  ctx.setLineDash(part.side === pane.side ? [] : [5, 4])
  ctx.lineWidth = kind === 'near' ? 1.6 : 3
  ctx.strokeStyle = theme.loadText
  ctx.stroke()
  ctx.setLineDash([])
  if (Math.min(box.maxX - box.minX, box.maxY - box.minY) < ROOM_FOR_WORDS_PX) {
    drawShape(frame, kind, x, box.maxY - MIDDLE_RADIUS_PX, MIDDLE_RADIUS_PX)
    return boxAround(x, box.maxY - MIDDLE_RADIUS_PX, MIDDLE_RADIUS_PX)
  }
  const y = Math.min(box.maxY - 2, box.minY + (box.maxY - box.minY) * 0.76)
  const style = { size: 12, weight: 700, colour: theme.loadText, halo: theme.sheet } as const
  const roomPx = box.maxX - box.minX - 2 * RADIUS_PX - 8
  const wanted = words === '' ? 0 : textWidth(ctx, words, style)
  // words that would run over the part's edge are left to the panel
  const wordsWidth = wanted === 0 || wanted > roomPx ? 0 : wanted + 4
  const shapeX = x - wordsWidth / 2
  drawShape(frame, kind, shapeX, y, RADIUS_PX)
  if (wordsWidth > 0) drawText(ctx, words, shapeX + RADIUS_PX + 4, y, style)
  const around = boxAround(shapeX, y, RADIUS_PX)
  return { ...around, maxX: around.maxX + wordsWidth }
}

const boxAround = (x: number, y: number, radius: number): Box => ({
  minX: x - radius,
  maxX: x + radius,
  minY: y - radius,
  maxY: y + radius,
})

function drawShape(frame: Frame, kind: ExposureKind, x: number, y: number, radius: number): void {
  const { ctx, theme } = frame
  ctx.beginPath()
  for (const [i, corner] of exposureShapes[kind].entries()) {
    if (i === 0) ctx.moveTo(x + corner.x * radius, y + corner.y * radius)
    else ctx.lineTo(x + corner.x * radius, y + corner.y * radius)
  }
  ctx.closePath()
  ctx.lineJoin = 'round'
  ctx.lineWidth = radius / 2
  ctx.strokeStyle = theme.sheet
  ctx.stroke()
  ctx.fillStyle = kind === 'near' ? theme.sheet : theme.loadText
  ctx.fill()
  ctx.lineWidth = radius / 4.5
  ctx.strokeStyle = theme.loadText
  ctx.stroke()
  if (kind === 'near' || radius < RADIUS_PX) return
  const ground = theme.sheet
  ctx.strokeStyle = ground
  ctx.lineWidth = 2.2
  ctx.lineCap = 'round'
  ctx.beginPath()
  if (kind === 'over-limit') {
    ctx.moveTo(x - 3.2, y - 3.2)
    ctx.lineTo(x + 3.2, y + 3.2)
    ctx.moveTo(x + 3.2, y - 3.2)
    ctx.lineTo(x - 3.2, y + 3.2)
  } else {
    ctx.moveTo(x, y - 3.5)
    ctx.lineTo(x, y + 1)
    ctx.moveTo(x, y + 4.4)
    ctx.lineTo(x, y + 4.5)
  }
  ctx.stroke()
}
