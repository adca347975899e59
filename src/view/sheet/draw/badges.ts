/** The lift order: numbered badges in ink on the parts, joined by a dotted line; hollow where the part is on the other side. */
import type { BoardModel, PlacedPart } from '../../../board/index.ts'
import { type Box, boxOf, type Point } from '../../../base/index.ts'
import { toPane } from '../pure/camera.ts'
import { BADGE_RADIUS_PX, badgeArcs, badgePlaces } from '../pure/badges.ts'
import { boxInPane, type Frame, traceRounded } from './frame.ts'
import { drawText } from './text.ts'

export interface Badge {
  readonly number: number
  readonly part: PlacedPart
  readonly partBox: Box
  readonly at: Point
}

export function badgesOf(frame: Frame, model: BoardModel, lift: readonly string[], obstacles: readonly Box[]): Badge[] {
  const parts = lift.map((ref) => model.partByRef.get(ref)).filter((part) => part !== undefined)
  const boxes = parts.map((part) => boxInPane(frame, part.box))
  const bounds = { minX: 0, minY: 0, maxX: frame.pane.width, maxY: frame.pane.height }
  const places = badgePlaces(boxes, obstacles, bounds, centreOf(frame, model, boxes))
  return parts.map((part, i) => ({
    number: i + 1,
    part,
    partBox: boxes[i] ?? bounds,
    at: places[i] ?? { x: 0, y: 0 },
  }))
}

export const badgeBox = (badge: Badge): Box => ({
  minX: badge.at.x - BADGE_RADIUS_PX,
  maxX: badge.at.x + BADGE_RADIUS_PX,
  minY: badge.at.y - BADGE_RADIUS_PX,
  maxY: badge.at.y + BADGE_RADIUS_PX,
})

/** What badges and lines turn away from: the core, else the middle of what is lifted. */
function centreOf(frame: Frame, model: BoardModel, boxes: readonly Box[]): Point {
  if (model.core !== undefined) return toPane(frame.transform, model.core.placement.at)
  const box = boxOf(
    boxes.flatMap((one) => [
      { x: one.minX, y: one.minY },
      { x: one.maxX, y: one.maxY },
    ]),
  )
  return { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }
}

const LONG_LINE_PX = 420

export function drawBadges(frame: Frame, model: BoardModel, badges: readonly Badge[]): void {
  const { ctx, theme } = frame
  const places = badges.map((badge) => badge.at)
  ctx.lineCap = 'round'
  ctx.setLineDash([0.1, 5.5])
  ctx.lineWidth = 2.4
  ctx.strokeStyle = theme.ink
  for (const arc of badgeArcs(
    places,
    centreOf(
      frame,
      model,
      badges.map((badge) => badge.partBox),
    ),
  )) {
    ctx.globalAlpha = Math.hypot(arc.to.x - arc.from.x, arc.to.y - arc.from.y) > LONG_LINE_PX ? 0.4 : 1
    ctx.beginPath()
    ctx.moveTo(arc.from.x, arc.from.y)
    ctx.quadraticCurveTo(arc.control.x, arc.control.y, arc.to.x, arc.to.y)
    ctx.stroke()
  }
  ctx.globalAlpha = 1
  ctx.setLineDash([])
  for (const badge of badges) drawBadge(frame, badge)
}

function drawBadge(frame: Frame, badge: Badge): void {
  const { ctx, theme, pane } = frame
  const hollow = badge.part.side !== pane.side
  if (hollow) {
    ctx.beginPath()
    traceRounded(frame, badge.part.outline, 5)
    ctx.setLineDash([5, 4])
    ctx.lineWidth = 1.6
    ctx.strokeStyle = theme.ink
    ctx.stroke()
    ctx.setLineDash([])
  }
  ctx.beginPath()
  ctx.arc(badge.at.x, badge.at.y, BADGE_RADIUS_PX + 2, 0, 2 * Math.PI)
  ctx.fillStyle = theme.sheet
  ctx.fill()
  ctx.beginPath()
  ctx.arc(badge.at.x, badge.at.y, BADGE_RADIUS_PX - (hollow ? 1 : 0), 0, 2 * Math.PI)
  ctx.fillStyle = hollow ? theme.sheet : theme.ink
  ctx.fill()
  ctx.lineWidth = 2
  ctx.strokeStyle = theme.ink
  ctx.stroke()
  drawText(ctx, String(badge.number), badge.at.x, badge.at.y, {
    size: 16,
    weight: 700,
    colour: hollow ? theme.ink : theme.onInk,
    align: 'center',
  })
}
