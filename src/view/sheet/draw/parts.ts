/** Bodies of parts: the core and memory in ink, the rest softer; small ones in one path together. */
import { type PlacedPart, stacksOn } from '../../../board/index.ts'
import { inInk } from '../../../case/index.ts'
import { dieOutline } from '../pure/die.ts'
import type { Scene, SideScene } from '../pure/scene.ts'
import { fillBody, type Frame, tracePolygon, traceRounded } from './frame.ts'

const SMALLEST_PART_PX = 1.2
/** Parts up to this size are drawn plain, all of them in one path. */
const PLAIN_UP_TO_PX = 20

export function visibleParts(frame: Frame, scene: SideScene): PlacedPart[] {
  return scene.partIndex
    .within(frame.shown)
    .map((i) => scene.parts[i])
    .filter((part) => part !== undefined)
    .filter((part) => Math.max(part.widthMm, part.lengthMm) * frame.scale >= SMALLEST_PART_PX)
}

export function drawParts(frame: Frame, parts: readonly PlacedPart[]): void {
  const sizePx = (part: PlacedPart): number => Math.max(part.widthMm, part.lengthMm) * frame.scale
  const plain = (part: PlacedPart): boolean => sizePx(part) <= PLAIN_UP_TO_PX && !inInk(part)
  for (const part of parts) if (!plain(part)) drawPart(frame, part)
  drawPlainParts(frame, parts.filter(plain))
}

function drawPlainParts(frame: Frame, parts: readonly PlacedPart[]): void {
  const { ctx, theme } = frame
  ctx.beginPath()
  for (const part of parts) tracePolygon(frame, part.outline)
  fillBody(frame, theme.bodyFill)
  ctx.lineJoin = 'miter'
  ctx.lineWidth = 1
  ctx.strokeStyle = theme.outlineSoft
  ctx.stroke()
}

function drawPart(frame: Frame, part: PlacedPart): void {
  const { ctx, theme, scale } = frame
  const shorterPx = Math.min(part.widthMm, part.lengthMm) * scale
  ctx.beginPath()
  traceRounded(frame, part.outline, Math.min(6, shorterPx * 0.12))
  fillBody(frame, inInk(part) || part.kind === 'connector' ? theme.partFill : theme.bodyFill)
  ctx.lineJoin = 'round'
  ctx.lineWidth = part.kind === 'core' ? 2.2 : part.kind === 'memory' ? 1.7 : 1.2
  ctx.strokeStyle = inInk(part) ? theme.ink : theme.outlineSoft
  ctx.stroke()
  if (part.kind === 'inductor' && shorterPx > 26) drawCoil(frame, part, shorterPx)
  if (inInk(part)) drawFirstBall(frame, part, shorterPx)
}

/** The die, over the balls: they are on the other face of the package. */
export function drawDie(frame: Frame, scene: Scene, part: PlacedPart): void {
  const { ctx, theme } = frame
  const beside = [part, ...stacksOn(scene.model, part.ref)].flatMap(({ ref }) => scene.regionsByPart.get(ref) ?? [])
  const die = dieOutline(part, beside)
  if (die === undefined) return
  ctx.beginPath()
  traceRounded(frame, die, 3)
  fillBody(frame, theme.bodyFill)
  ctx.lineWidth = 1.2
  ctx.strokeStyle = theme.outlineSoft
  ctx.stroke()
}

/** The usual drawing of a wound part: a ring within its body. */
function drawCoil(frame: Frame, part: PlacedPart, shorterPx: number): void {
  const { ctx, transform: t, theme } = frame
  ctx.beginPath()
  ctx.arc(t.a * part.placement.at.x + t.e, t.d * part.placement.at.y + t.f, shorterPx * 0.38, 0, 2 * Math.PI)
  ctx.lineWidth = 1
  ctx.globalAlpha = 0.45
  ctx.strokeStyle = theme.outlineSoft
  ctx.stroke()
  ctx.globalAlpha = 1
}

const FIRST_PADS = new Set(['A1', '1'])

/** A dot in the corner nearest to ball A1 or pad 1, where the pads say which that is. */
function drawFirstBall(frame: Frame, part: PlacedPart, shorterPx: number): void {
  if (shorterPx < 40) return
  const first = part.pads.find((pad) => FIRST_PADS.has(pad.number))
  if (first === undefined) return
  const { ctx, transform: t, theme } = frame
  const corner = part.outline.reduce((best, p) =>
    Math.hypot(p.x - first.at.x, p.y - first.at.y) < Math.hypot(best.x - first.at.x, best.y - first.at.y) ? p : best,
  )
  const cornerX = t.a * corner.x + t.e
  const cornerY = t.d * corner.y + t.f
  const inwardX = Math.sign(t.a * part.placement.at.x + t.e - cornerX)
  const inwardY = Math.sign(t.d * part.placement.at.y + t.f - cornerY)
  const inset = Math.min(7, shorterPx * 0.07)
  ctx.beginPath()
  ctx.arc(cornerX + inwardX * inset, cornerY + inwardY * inset, Math.min(2.4, inset / 2), 0, 2 * Math.PI)
  ctx.fillStyle = theme.ink
  ctx.fill()
}

/** Where the large parts of the other side lie, for orientation. */
export function drawGhosts(frame: Frame, otherSide: SideScene): void {
  const { ctx, theme } = frame
  ctx.beginPath()
  for (const i of otherSide.partIndex.within(frame.shown)) {
    const part = otherSide.parts[i]
    if (part && inInk(part)) traceRounded(frame, part.outline, 4)
  }
  ctx.setLineDash([2, 4])
  ctx.lineWidth = 1
  ctx.strokeStyle = theme.outlineSoft
  ctx.stroke()
  ctx.setLineDash([])
}
