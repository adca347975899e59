/** Dams and notes, and the line of a distance that is being measured. */
import { distance, type Point, drawnMm } from '../../../base/index.ts'
import type { NoteMark } from '../../../spill/index.ts'
import { toPane } from '../pure/camera.ts'
import { type Frame, traceLine } from './frame.ts'
import { drawText } from './text.ts'

/** A wall: a thick line in ink with a light core and rungs, so that it can't be taken for a trace. */
export function drawDam(frame: Frame, path: readonly Point[]): void {
  const { ctx, theme } = frame
  ctx.lineJoin = 'round'
  ctx.lineCap = 'round'
  ctx.beginPath()
  traceLine(frame, path)
  ctx.lineWidth = 7
  ctx.strokeStyle = theme.ink
  ctx.stroke()
  ctx.lineWidth = 3.6
  ctx.strokeStyle = theme.sheet
  ctx.stroke()
  ctx.lineCap = 'butt'
  ctx.setLineDash([1.4, 6.6])
  ctx.strokeStyle = theme.ink
  ctx.stroke()
  ctx.setLineDash([])
}

/** A slip of paper with a folded corner. */
export function drawNote(frame: Frame, mark: NoteMark): void {
  const { ctx, theme } = frame
  const { x, y } = toPane(frame.transform, mark.at)
  const half = 9
  const fold = 6
  ctx.beginPath()
  ctx.moveTo(x - half, y - half)
  ctx.lineTo(x + half - fold, y - half)
  ctx.lineTo(x + half, y - half + fold)
  ctx.lineTo(x + half, y + half)
  ctx.lineTo(x - half, y + half)
  ctx.closePath()
  ctx.lineJoin = 'round'
  ctx.fillStyle = theme.caution
  ctx.fill()
  ctx.lineWidth = 1.5
  ctx.strokeStyle = theme.ink
  ctx.moveTo(x + half - fold, y - half)
  ctx.lineTo(x + half - fold, y - half + fold)
  ctx.lineTo(x + half, y - half + fold)
  ctx.moveTo(x - 5, y)
  ctx.lineTo(x + 5, y)
  ctx.moveTo(x - 5, y + 4)
  ctx.lineTo(x + 2, y + 4)
  ctx.stroke()
}

export function drawMeasured(frame: Frame, from: Point, to: Point): void {
  const { ctx, theme, transform } = frame
  const a = toPane(transform, from)
  const b = toPane(transform, to)
  const length = Math.hypot(b.x - a.x, b.y - a.y)
  if (length < 1) return
  const acrossX = (-(b.y - a.y) / length) * 7
  const acrossY = ((b.x - a.x) / length) * 7
  ctx.beginPath()
  ctx.moveTo(a.x, a.y)
  ctx.lineTo(b.x, b.y)
  for (const end of [a, b]) {
    ctx.moveTo(end.x - acrossX, end.y - acrossY)
    ctx.lineTo(end.x + acrossX, end.y + acrossY)
  }
  ctx.lineCap = 'round'
  ctx.lineWidth = 4.5
  ctx.strokeStyle = theme.sheet
  ctx.stroke()
  ctx.lineWidth = 1.8
  ctx.strokeStyle = theme.ink
  ctx.stroke()
  const mm = distance(from, to)
  const text = mm < 10 ? `${mm.toFixed(2)} mm` : mm < 100 ? `${mm.toFixed(1)} mm` : `${drawnMm(mm)} mm`
  drawText(ctx, text, (a.x + b.x) / 2 + acrossX * 2, (a.y + b.y) / 2 - Math.abs(acrossY) - 12, {
    size: 15,
    weight: 700,
    colour: theme.ink,
    halo: theme.sheet,
    align: 'center',
  })
}
