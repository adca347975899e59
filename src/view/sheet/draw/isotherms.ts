/** Isotherms: lines that grow heavier with the temperature over a wash that deepens; the molten one is double. */
import { type Box, placeLabels, type Point } from '../../../base/index.ts'
import { toPane } from '../pure/camera.ts'
import { type Isotherm, openLines } from '../pure/isotherms.ts'
import { type Frame, traceLine, traceLoop } from './frame.ts'
import { drawText, textWidth } from './text.ts'

export function drawIsotherms(frame: Frame, isotherms: readonly Isotherm[]): void {
  const { ctx, theme } = frame
  ctx.lineJoin = 'round'
  ctx.setLineDash([])
  for (const [i, isotherm] of isotherms.entries()) {
    ctx.beginPath()
    for (const loop of isotherm.loops) traceLoop(frame, loop)
    ctx.fillStyle = theme.need
    ctx.globalAlpha = 0.04
    ctx.fill('evenodd')
    ctx.globalAlpha = 1
    ctx.beginPath()
    for (const line of openLines(isotherm)) traceLine(frame, line)
    ctx.strokeStyle = theme.needText
    ctx.lineWidth = isotherm.molten ? 5 : 1 + 0.12 * i
    ctx.stroke()
    if (!isotherm.molten) continue
    ctx.strokeStyle = theme.sheet
    ctx.lineWidth = 1.8
    ctx.stroke()
  }
}

const LABEL_PX = 13

/** Each line's temperature on the line, where it covers least; one that finds no place in sight is left out. */
export function drawIsothermLabels(frame: Frame, isotherms: readonly Isotherm[], obstacles: readonly Box[]): void {
  const { ctx, theme, pane } = frame
  const style = (isotherm: Isotherm) =>
    ({
      size: LABEL_PX,
      weight: isotherm.molten ? 700 : 500,
      colour: theme.needText,
      halo: theme.sheet,
    }) as const
  const requests = isotherms.map((isotherm) => {
    const width = textWidth(ctx, isotherm.label, style(isotherm))
    return {
      id: isotherm.label,
      width,
      height: 16,
      required: false,
      candidates: pointsInSight(frame, isotherm).map((p) => ({ x: p.x - width / 2, y: p.y - 8 })),
    }
  })
  const bounds = { minX: 4, minY: 4, maxX: pane.width - 4, maxY: pane.height - 34 }
  const places = placeLabels(requests, obstacles, bounds)
  for (const isotherm of isotherms) {
    const corner = places.get(isotherm.label)
    if (corner !== undefined) drawText(ctx, isotherm.label, corner.x, corner.y + 8, style(isotherm))
  }
}

const MOST_PLACES = 40

/** Evenly spread places along an isotherm that the pane shows, in pixels. */
function pointsInSight(frame: Frame, isotherm: Isotherm): Point[] {
  const { minX, maxX, minY, maxY } = frame.shown
  const seen: Point[] = []
  for (const line of openLines(isotherm))
    for (const at of line) if (at.x > minX && at.x < maxX && at.y > minY && at.y < maxY) seen.push(at)
  const every = Math.max(1, Math.ceil(seen.length / MOST_PLACES))
  return seen.filter((_, i) => i % every === 0).map((at) => toPane(frame.transform, at))
}
