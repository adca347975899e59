/** A spill: a dot to grip, a thin ring for how sure its place is, an arrow for what was down. */
import type { SpillMark } from '../../../spill/index.ts'
import { toPane } from '../pure/camera.ts'
import { ARROW_PX, arrowTip } from '../pure/handles.ts'
import type { Frame } from './frame.ts'

export const SPILL_DOT_PX = 10

export function drawSpill(frame: Frame, mark: SpillMark): void {
  const { ctx, theme, transform, scale } = frame
  const { x, y } = toPane(transform, mark.at)
  const sdPx = mark.sdMm * scale
  if (sdPx > SPILL_DOT_PX + 3) {
    ctx.beginPath()
    ctx.arc(x, y, sdPx, 0, 2 * Math.PI)
    ctx.setLineDash([1.5, 4.5])
    ctx.lineCap = 'round'
    ctx.lineWidth = 1.6
    ctx.strokeStyle = theme.reachText
    ctx.stroke()
    ctx.setLineDash([])
  }
  if (mark.downDeg !== undefined) drawArrow(frame, mark, mark.downDeg)
  ctx.beginPath()
  ctx.arc(x, y, SPILL_DOT_PX, 0, 2 * Math.PI)
  ctx.fillStyle = theme.reach
  ctx.fill()
  ctx.lineWidth = 2.6
  ctx.strokeStyle = theme.sheet
  ctx.stroke()
  ctx.beginPath()
  ctx.arc(x, y, SPILL_DOT_PX + 1.8, 0, 2 * Math.PI)
  ctx.lineWidth = 1.2
  ctx.strokeStyle = theme.reach
  ctx.stroke()
}

function drawArrow(frame: Frame, mark: SpillMark, downDeg: number): void {
  const { ctx, theme, transform, scale } = frame
  const from = toPane(transform, mark.at)
  const tip = toPane(transform, arrowTip(mark.at, downDeg, ARROW_PX / scale))
  const angle = Math.atan2(tip.y - from.y, tip.x - from.x)
  const barb = (turn: number): [number, number] => [
    tip.x - 9 * Math.cos(angle + turn),
    tip.y - 9 * Math.sin(angle + turn),
  ]
  ctx.beginPath()
  ctx.moveTo(from.x, from.y)
  ctx.lineTo(tip.x, tip.y)
  ctx.moveTo(...barb(0.55))
  ctx.lineTo(tip.x, tip.y)
  ctx.lineTo(...barb(-0.55))
  ctx.lineCap = 'round'
  ctx.lineJoin = 'round'
  ctx.lineWidth = 5.5
  ctx.strokeStyle = theme.sheet
  ctx.stroke()
  ctx.lineWidth = 2.6
  ctx.strokeStyle = theme.reach
  ctx.stroke()
}
