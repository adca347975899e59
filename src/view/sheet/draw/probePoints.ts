/** Points where a probe goes: numbered yellow markers that stand with their tip on the point, edged in ink. */
import type { LinePoint } from '../../../measure/index.ts'
import { themes } from '../../look/index.ts'
import { toPane } from '../pure/camera.ts'
import type { Frame } from './frame.ts'
import { drawText } from './text.ts'

const HALF_WIDTH_PX = 11
const HEIGHT_PX = 22

/** Those on the side that is shown; numbered where there are several in all. */
export function drawProbePoints(frame: Frame, points: readonly LinePoint[]): void {
  for (const { side, at, number } of points) {
    if (side !== frame.pane.side) continue
    drawMarker(frame, toPane(frame.transform, at), points.length > 1 ? String(number) : '')
  }
}

function drawMarker(frame: Frame, at: { readonly x: number; readonly y: number }, number: string): void {
  const { ctx, theme } = frame
  ctx.beginPath()
  ctx.moveTo(at.x, at.y)
  ctx.lineTo(at.x - HALF_WIDTH_PX, at.y - HEIGHT_PX)
  ctx.lineTo(at.x + HALF_WIDTH_PX, at.y - HEIGHT_PX)
  ctx.closePath()
  ctx.lineJoin = 'round'
  ctx.lineWidth = 6
  ctx.strokeStyle = theme.sheet
  ctx.stroke()
  ctx.fillStyle = theme.lit
  ctx.fill()
  ctx.lineWidth = 2
  ctx.strokeStyle = theme.ink
  ctx.stroke()
  ctx.beginPath()
  ctx.arc(at.x, at.y, 2.6, 0, 2 * Math.PI)
  ctx.fillStyle = theme.ink
  ctx.fill()
  if (number === '') return
  // the marker is yellow on paper and chalk alike, so its number is dark on both
  drawText(ctx, number, at.x, at.y - HEIGHT_PX + 8, {
    size: 13,
    weight: 700,
    colour: themes.paper.ink,
    align: 'center',
  })
}
