/** The scale bar at the lower edge of a pane, and the name of the side where two are shown. */
import { type Box, say } from '../../../base/index.ts'
import { partLabels } from '../../../case/index.ts'
import type { SheetNames } from '../props.ts'
import { barPlace, type ScaleBar, scaleBar } from '../pure/scaleBar.ts'
import type { Scene } from '../pure/scene.ts'
import type { Frame } from './frame.ts'
import { measureOn, viewOf } from './paint.ts'
import { drawText, textWidth } from './text.ts'

const LONGEST_PX = 130
const INSET_PX = 18
const LABEL = { size: 13, weight: 500 } as const

const barOf = ({ pane, scale }: Frame): ScaleBar => scaleBar(scale, Math.min(LONGEST_PX, pane.width / 3))

/** What the bar takes of a pane: at its lower left, further right where it would cover the name of a part or what is `taken`. */
export function scaleBarBox(frame: Frame, scene: Scene, taken: readonly Box[], names?: SheetNames): Box {
  const { ctx, pane, transform, shown } = frame
  const { lengthPx, label } = barOf(frame)
  const y = pane.height - INSET_PX - 4
  const width = lengthPx + textWidth(ctx, label, LABEL) + 27
  const room = { minX: INSET_PX - 9, maxX: INSET_PX - 9 + width, minY: y - 13, maxY: y + 13, endX: pane.width - 9 }
  const edges = [(room.minY - transform.f) / transform.d, (room.maxY - transform.f) / transform.d]
  const { parts, partIndex } = scene.sides[pane.side]
  const beside = partIndex
    .within({ ...shown, minY: Math.min(...edges), maxY: Math.max(...edges) })
    .flatMap((i) => parts[i] ?? [])
  const named = partLabels(viewOf(frame), beside, measureOn(frame), names?.parts)
  return barPlace(room, [...taken, ...named.map(({ box }) => box)])
}

export function drawScaleBar(frame: Frame, box: Box): void {
  const { ctx, theme } = frame
  const bar = barOf(frame)
  const y = (box.minY + box.maxY) / 2
  const from = box.minX + 9
  const to = from + bar.lengthPx
  const style = { ...LABEL, colour: theme.ink }
  ctx.fillStyle = theme.sheet
  ctx.globalAlpha = 0.88
  ctx.beginPath()
  ctx.roundRect(box.minX, box.minY, box.maxX - box.minX, box.maxY - box.minY, 6)
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
  drawText(ctx, say('{side} side', { side: pane.side }), pane.width / 2, 16, {
    size: 13,
    weight: 600,
    colour: theme.muted,
    halo: theme.paper,
    align: 'center',
  })
}
