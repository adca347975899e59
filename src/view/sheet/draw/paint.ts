/** Shapes and words by meaning, painted on the canvas in the theme's colours. */
import type { DrawnText, DrawnView, MeasureText, Shape, Step } from '../../../case/index.ts'
import { toPane } from '../pure/camera.ts'
import type { Frame } from './frame.ts'
import { drawText, textWidth } from './text.ts'

/** A pane as the drawing sees it: its unit is the pixel. */
export const viewOf = ({ pane, scale, transform }: Frame): DrawnView => ({
  side: pane.side,
  at: (point) => toPane(transform, point),
  scale,
  unit: 1,
  bounds: { minX: 0, minY: 0, maxX: pane.width, maxY: pane.height },
})

/** Widths of words on this canvas, in pixels. */
export const measureOn =
  ({ ctx }: Frame): MeasureText =>
  (text, look) =>
    textWidth(ctx, text, look)

/** Paints shapes in turn; what is pale already, such as a mark that is being drawn, stays so. */
export function paint(frame: Frame, shapes: readonly Shape[]): void {
  for (const shape of shapes) paintShape(frame, shape)
}

function paintShape({ ctx, theme }: Frame, { steps, fill, stroke }: Shape): void {
  ctx.beginPath()
  trace(ctx, steps)
  // what is drawn just now is paler as a whole
  const whole = ctx.globalAlpha
  if (fill !== undefined) {
    ctx.globalAlpha = whole * (fill.alpha ?? 1)
    ctx.fillStyle = theme[fill.colour]
    ctx.fill('evenodd')
  }
  if (stroke !== undefined) {
    ctx.globalAlpha = whole * (stroke.alpha ?? 1)
    ctx.lineCap = stroke.round === true ? 'round' : 'butt'
    ctx.lineJoin = 'round'
    ctx.setLineDash([...(stroke.dash ?? [])])
    ctx.lineWidth = stroke.width
    ctx.strokeStyle = theme[stroke.colour]
    ctx.stroke()
    ctx.setLineDash([])
  }
  ctx.globalAlpha = whole
}

function trace(ctx: CanvasRenderingContext2D, steps: readonly Step[]): void {
  for (const step of steps) {
    switch (step[0]) {
      case 'M':
        ctx.moveTo(step[1], step[2])
        break
      case 'L':
        ctx.lineTo(step[1], step[2])
        break
      case 'Q':
        ctx.quadraticCurveTo(step[1], step[2], step[3], step[4])
        break
      case 'O':
        ctx.moveTo(step[1] + step[3], step[2])
        ctx.arc(step[1], step[2], step[3], 0, 2 * Math.PI)
        break
      case 'Z':
        ctx.closePath()
    }
  }
}

/** Writes one line of words where the drawing put it. */
export function write({ ctx, theme }: Frame, { text, at, size, weight, colour, halo, align }: DrawnText): void {
  const style = { size, weight, colour: theme[colour], align }
  drawText(ctx, text, at.x, at.y, halo === undefined ? style : { ...style, halo: theme[halo] })
}
