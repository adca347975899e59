/** The line of a distance that is being measured. */
import { decimals, distance, drawnMm, type Point } from '../../../base/index.ts'
import { toPane } from '../pure/camera.ts'
import type { Frame } from './frame.ts'
import { drawText } from './text.ts'

/** @param from and `to` in mm of the board; nothing is drawn while they are less than a pixel apart */
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
  const text = mm < 10 ? `${decimals(mm, 2)} mm` : mm < 100 ? `${decimals(mm, 1)} mm` : `${drawnMm(mm)} mm`
  drawText(ctx, text, (a.x + b.x) / 2 + acrossX * 2, (a.y + b.y) / 2 - Math.abs(acrossY) - 12, {
    size: 15,
    weight: 700,
    colour: theme.ink,
    halo: theme.sheet,
    align: 'center',
  })
}
