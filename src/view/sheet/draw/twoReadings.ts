/**
 * Two readings of one report side by side: what A blames has a solid frame, slanted lines and a square with an A, what B
 * blames a dashed frame, dots and a round B; a part that both blame has both.
 */
import { type Box, hatchSegments } from '../../../base/index.ts'
import type { PlacedPart } from '../../../board/index.ts'
import { dotted, HATCH_DEG, partLabels, segmentSteps } from '../../../case/index.ts'
import type { SheetNames, TwoReadings } from '../props.ts'
import type { Scene } from '../pure/scene.ts'
import { boxInPane, type Frame } from './frame.ts'
import { measureOn, paint, viewOf } from './paint.ts'
import { drawText } from './text.ts'

const HATCH_PX = 8
const BADGE_PX = 11
const INSET_PX = 4

const partsOf = ({ pane }: Frame, { model }: Scene, refs: readonly string[]): PlacedPart[] =>
  refs.flatMap((ref) => model.partByRef.get(ref) ?? []).filter(({ side }) => side === pane.side)

/** What their letters cover: other badges keep off. */
export function twoReadingsBoxes(frame: Frame, scene: Scene, { a, b }: TwoReadings): Box[] {
  const around = (x: number, y: number): Box => ({
    minX: x - BADGE_PX,
    maxX: x + BADGE_PX,
    minY: y - BADGE_PX,
    maxY: y + BADGE_PX,
  })
  const boxes = (refs: readonly string[]): Box[] =>
    partsOf(frame, scene, refs).map((part) => boxInPane(frame, part.box))
  return [
    ...boxes(a).map(({ minX, minY }) => around(minX, minY)),
    ...boxes(b).map(({ maxX, minY }) => around(maxX, minY)),
  ]
}

export function drawTwoReadings(frame: Frame, scene: Scene, { a, b }: TwoReadings, names?: SheetNames): void {
  const [ofA, ofB] = [partsOf(frame, scene, a), partsOf(frame, scene, b)]
  for (const part of ofB) drawB(frame, boxInPane(frame, part.box))
  for (const part of ofA) drawA(frame, boxInPane(frame, part.box))
  for (const part of ofB) letterB(frame, boxInPane(frame, part.box))
  for (const part of ofA) letterA(frame, boxInPane(frame, part.box))
  // What is drawn over a part leaves its ref legible.
  for (const { text, size, weight, box } of partLabels(
    viewOf(frame),
    [...ofA, ...ofB],
    measureOn(frame),
    names?.parts,
  )) {
    const { ctx, theme } = frame
    ctx.fillStyle = theme.partFill
    ctx.fillRect(box.minX - 4, box.minY - 2, box.maxX - box.minX + 8, box.maxY - box.minY + 4)
    const middle = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }
    drawText(ctx, text, middle.x, middle.y, { size, weight, colour: theme.ink, align: 'center' })
  }
}

function drawA(frame: Frame, box: Box): void {
  const { ctx, theme } = frame
  const steps = segmentSteps(hatchSegments(cornersOf(box), HATCH_PX, HATCH_DEG))
  paint(frame, [{ steps, stroke: { colour: 'reachText', width: 1.2 } }])
  ctx.strokeStyle = theme.reachText
  ctx.lineWidth = 3
  ctx.strokeRect(box.minX, box.minY, box.maxX - box.minX, box.maxY - box.minY)
}

function letterA({ ctx, theme }: Frame, box: Box): void {
  ctx.fillStyle = theme.reachText
  ctx.fillRect(box.minX - BADGE_PX, box.minY - BADGE_PX, 2 * BADGE_PX, 2 * BADGE_PX)
  drawText(ctx, 'A', box.minX, box.minY, { size: 15, weight: 700, colour: theme.sheet, align: 'center' })
}

function drawB(frame: Frame, box: Box): void {
  const { ctx, theme } = frame
  paint(frame, [dotted(cornersOf(box), 1)])
  ctx.setLineDash([7, 5])
  ctx.lineWidth = 3
  ctx.strokeStyle = theme.residueText
  ctx.strokeRect(
    box.minX - INSET_PX,
    box.minY - INSET_PX,
    box.maxX - box.minX + 2 * INSET_PX,
    box.maxY - box.minY + 2 * INSET_PX,
  )
  ctx.setLineDash([])
}

function letterB({ ctx, theme }: Frame, box: Box): void {
  ctx.beginPath()
  ctx.arc(box.maxX, box.minY, BADGE_PX + 1, 0, 2 * Math.PI)
  ctx.fillStyle = theme.sheet
  ctx.fill()
  ctx.lineWidth = 2.5
  ctx.strokeStyle = theme.residueText
  ctx.stroke()
  drawText(ctx, 'B', box.maxX, box.minY, { size: 15, weight: 700, colour: theme.residueText, align: 'center' })
}

const cornersOf = (box: Box) => [
  { x: box.minX, y: box.minY },
  { x: box.maxX, y: box.minY },
  { x: box.maxX, y: box.maxY },
  { x: box.minX, y: box.maxY },
]
