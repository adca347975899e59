/** The scale bar in the lower left of a pane, and the name of the side where two are shown. */
import { scaleBar } from '../pure/scaleBar.ts'
import type { Frame } from './frame.ts'
import { drawText, textWidth } from './text.ts'

const LONGEST_PX = 130
const INSET_PX = 18

export function drawScaleBar(frame: Frame): void {
  const { ctx, pane, theme, scale } = frame
  const bar = scaleBar(scale, Math.min(LONGEST_PX, pane.width / 3))
  const y = pane.height - INSET_PX - 4
  const from = INSET_PX
  const to = INSET_PX + bar.lengthPx
  const style = { size: 13, weight: 500, colour: theme.ink } as const
  const labelWidth = textWidth(ctx, bar.label, style)
  ctx.fillStyle = theme.sheet
  ctx.globalAlpha = 0.88
  ctx.beginPath()
  ctx.roundRect(from - 9, y - 13, bar.lengthPx + labelWidth + 27, 26, 6)
  ctx.fill()
  ctx.globalAlpha = 1
  ctx.beginPath()
  for (const [x, half] of [
    [from, 5],
    [(from + to) / 2, 3],
    [to, 5],
  ] as const) {
    ctx.moveTo(x, y - half)
    ctx.lineTo(x, y + half)
  }
  ctx.moveTo(from, y)
  ctx.lineTo(to, y)
  ctx.lineCap = 'butt'
  ctx.lineWidth = 1.5
  ctx.strokeStyle = theme.ink
  ctx.stroke()
  drawText(ctx, bar.label, to + 9, y, style)
}

export function drawSideName(frame: Frame): void {
  const { ctx, pane, theme } = frame
  drawText(ctx, `${pane.side} side`, pane.width / 2, 16, {
    size: 13,
    weight: 600,
    colour: theme.muted,
    halo: theme.paper,
    align: 'center',
  })
}
