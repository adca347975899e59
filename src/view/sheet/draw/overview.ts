/** The small whole board: outline, large parts, failing ones in vermillion, the spill, and the window of what is shown. */
import { type Box, say } from '../../../base/index.ts'
import type { Mark } from '../../../spill/index.ts'
import type { Theme } from '../../look/tokens.ts'
import { marksNow } from '../handStore.ts'
import { type Camera, panesOf, shownBox, toPane } from '../pure/camera.ts'
import type { LoadView } from '../../../case/index.ts'
import { CAPTION_PX, type OverviewPlace, overviewTransform } from '../pure/overview.ts'
import type { Scene } from '../pure/scene.ts'
import { type Frame, boxInPane, tracePolygon } from './frame.ts'
import { drawText } from './text.ts'

interface OverviewInput {
  readonly place: OverviewPlace
  readonly camera: Camera
  readonly boardBox: Box
  readonly theme: Theme
  readonly scene: Scene
  readonly load: LoadView | undefined
  readonly marks: readonly Mark[]
  readonly edited: Mark | undefined
}

const SMALLEST_PART_MM2 = 20

export function drawOverview(ctx: CanvasRenderingContext2D, input: OverviewInput): void {
  const { place, camera, boardBox, theme } = input
  const pane = panesOf(camera)[0]
  if (pane === undefined) return
  const transform = overviewTransform(place, boardBox, pane)
  const frame: Frame = { ctx, pane, scale: transform.scale, transform, shown: boardBox, theme }
  ctx.save()
  ctx.beginPath()
  tracePolygon(frame, input.scene.model.outline)
  for (const cutout of input.scene.model.cutouts) tracePolygon(frame, cutout)
  ctx.fillStyle = theme.sheet
  ctx.fill('evenodd')
  ctx.lineWidth = 1.3
  ctx.strokeStyle = theme.ink
  ctx.stroke()
  drawSmallParts(frame, input)
  drawSpills(frame, input)
  drawWindow(frame, shownBox(camera, pane), place)
  drawText(ctx, say('whole board, {side} side', { side: pane.side }), 12, place.height - CAPTION_PX / 2 - 4, {
    size: 12,
    weight: 400,
    colour: theme.muted,
  })
  ctx.restore()
}

function drawSmallParts(frame: Frame, { scene, load }: OverviewInput): void {
  const { ctx, theme } = frame
  for (const part of scene.sides[frame.pane.side].parts) {
    if (part.widthMm * part.lengthMm < SMALLEST_PART_MM2) break
    ctx.beginPath()
    tracePolygon(frame, part.outline)
    const failing = part.kind === 'memory' && (load?.failingParts.has(part.ref) ?? false)
    ctx.fillStyle = failing ? theme.load : part.kind === 'core' ? theme.sheet : theme.hairline
    ctx.fill()
    if (part.kind !== 'core' && !failing) continue
    ctx.lineWidth = 1
    ctx.strokeStyle = theme.ink
    ctx.stroke()
  }
}

function drawSpills(frame: Frame, { marks, edited }: OverviewInput): void {
  const { ctx, theme } = frame
  for (const mark of marksNow(marks, edited)) {
    if (mark.kind !== 'spill' || mark.side !== frame.pane.side) continue
    const { x, y } = toPane(frame.transform, mark.at)
    ctx.beginPath()
    ctx.arc(x, y, 4, 0, 2 * Math.PI)
    ctx.fillStyle = theme.reach
    ctx.fill()
    ctx.lineWidth = 1.5
    ctx.strokeStyle = theme.sheet
    ctx.stroke()
  }
}

/** The window ends above the caption, however far out the camera is. */
function drawWindow(frame: Frame, shown: Box, place: OverviewPlace): void {
  const { ctx, theme } = frame
  ctx.save()
  ctx.beginPath()
  ctx.rect(0, 0, place.width, place.height - CAPTION_PX)
  ctx.clip()
  const box = boxInPane(frame, shown)
  ctx.beginPath()
  ctx.rect(box.minX, box.minY, box.maxX - box.minX, box.maxY - box.minY)
  ctx.fillStyle = theme.field
  ctx.globalAlpha = 0.12
  ctx.fill()
  ctx.globalAlpha = 1
  ctx.lineWidth = 2
  ctx.strokeStyle = theme.focus
  ctx.stroke()
  ctx.restore()
}
