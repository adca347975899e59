/** Found places: residue as stipple, film as waves, corrosion as crosses, a clean spot as a green diamond with a tick. */
import type { Box, Point } from '../../../base/index.ts'
import { type AreaMark, boxOfArea, type SlipMark } from '../../../spill/index.ts'
import { outlinesOf } from '../pure/areaOutline.ts'
import { boxInPane, type Frame, tracePolygon } from './frame.ts'

interface Disc {
  readonly x: number
  readonly y: number
  readonly radius: number
}

const SMALLEST_RADIUS_PX = 9

export function discOf(frame: Frame, mark: AreaMark | SlipMark): Disc {
  const { transform: t, scale } = frame
  return {
    x: t.a * mark.at.x + t.e,
    y: t.d * mark.at.y + t.f,
    radius: Math.max(SMALLEST_RADIUS_PX, mark.radiusMm * scale),
  }
}

/** What an area covers on the pane, and a closed way around it. */
interface Patch {
  readonly at: Point
  readonly box: Box
  readonly trace: () => void
}

export function drawAreaMark(frame: Frame, mark: AreaMark): void {
  const patch = patchOf(frame, mark)
  if (mark.kind === 'clean') drawClean(frame, patch)
  else drawFound(frame, patch, mark.kind)
}

function patchOf(frame: Frame, mark: AreaMark): Patch {
  const { ctx } = frame
  const disc = discOf(frame, mark)
  const { x, y, radius } = disc
  const outlines = outlinesOf(mark)
  if (outlines.length === 0) {
    const box = { minX: x - radius, minY: y - radius, maxX: x + radius, maxY: y + radius }
    return { at: disc, box, trace: () => ctx.arc(x, y, radius, 0, 2 * Math.PI) }
  }
  const trace = (): void => {
    for (const outline of outlines) tracePolygon(frame, outline)
  }
  return { at: disc, box: boxInPane(frame, boxOfArea(mark)), trace }
}

/** How dense the light line under an edge is, that tells it from a photo below. */
const HALO = 0.7

function drawFound(frame: Frame, patch: Patch, kind: 'residue' | 'film' | 'corrosion'): void {
  const { ctx, theme, pane } = frame
  ctx.beginPath()
  patch.trace()
  ctx.fillStyle = theme.residue
  ctx.globalAlpha *= 0.12
  ctx.fill('evenodd')
  ctx.globalAlpha /= 0.12
  ctx.save()
  ctx.clip('evenodd')
  ctx.fillStyle = theme.residue
  ctx.strokeStyle = theme.residue
  ctx.lineWidth = 1.3
  const field = { at: patch.at, box: cutTo(patch.box, pane.width, pane.height) }
  if (kind === 'residue') stipple(ctx, field)
  else if (kind === 'film') waves(ctx, field)
  else crosses(ctx, field)
  ctx.restore()
  ctx.beginPath()
  patch.trace()
  ctx.lineWidth = 3.6
  ctx.strokeStyle = theme.sheet
  ctx.globalAlpha *= HALO
  ctx.stroke()
  ctx.globalAlpha /= HALO
  ctx.setLineDash(kind === 'corrosion' ? [] : kind === 'film' ? [7, 4] : [2.5, 3])
  ctx.lineWidth = 1.6
  ctx.strokeStyle = theme.residue
  ctx.stroke()
  ctx.setLineDash([])
}

const cutTo = (box: Box, width: number, height: number): Box => ({
  minX: Math.max(0, box.minX),
  minY: Math.max(0, box.minY),
  maxX: Math.min(width, box.maxX),
  maxY: Math.min(height, box.maxY),
})

interface Field {
  readonly at: Point
  readonly box: Box
}

const STEP_PX = 6.5

/** Calls back at the nodes of a grid that moves with the mark, every other row shifted by half a step. */
function forNodes({ at, box }: Field, step: number, each: (x: number, y: number) => void): void {
  for (let row = Math.floor((box.minY - at.y) / step); at.y + row * step <= box.maxY + step; row++) {
    const shift = row % 2 === 0 ? 0 : step / 2
    for (let column = Math.floor((box.minX - at.x) / step) - 1; at.x + column * step <= box.maxX; column++) {
      each(at.x + column * step + shift, at.y + row * step)
    }
  }
}

function stipple(ctx: CanvasRenderingContext2D, field: Field): void {
  ctx.beginPath()
  forNodes(field, STEP_PX, (x, y) => {
    ctx.moveTo(x + 1.45, y)
    ctx.arc(x, y, 1.45, 0, 2 * Math.PI)
  })
  ctx.fill()
}

function crosses(ctx: CanvasRenderingContext2D, field: Field): void {
  ctx.beginPath()
  forNodes(field, 8.5, (x, y) => {
    ctx.moveTo(x - 2, y - 2)
    ctx.lineTo(x + 2, y + 2)
    ctx.moveTo(x - 2, y + 2)
    ctx.lineTo(x + 2, y - 2)
  })
  ctx.stroke()
}

const WAVE_ROW_PX = 7
const WAVE_PX = 8

function waves(ctx: CanvasRenderingContext2D, { at, box }: Field): void {
  ctx.beginPath()
  const left = at.x + Math.floor((box.minX - at.x) / (2 * WAVE_PX)) * 2 * WAVE_PX
  const top = at.y + Math.floor((box.minY - at.y) / WAVE_ROW_PX) * WAVE_ROW_PX
  for (let y = top; y <= box.maxY; y += WAVE_ROW_PX) {
    ctx.moveTo(left, y)
    for (let x = left, up = true; x < box.maxX; x += WAVE_PX, up = !up)
      ctx.quadraticCurveTo(x + 4, y + (up ? -3.2 : 3.2), x + WAVE_PX, y)
  }
  ctx.stroke()
}

/** A clean place is ringed where it is larger than its symbol. */
const RINGED_FROM_PX = 32

function drawClean(frame: Frame, { at, box, trace }: Patch): void {
  const { ctx, theme } = frame
  if (Math.max(box.maxX - box.minX, box.maxY - box.minY) > RINGED_FROM_PX) {
    ctx.beginPath()
    trace()
    ctx.setLineDash([3, 5])
    ctx.lineWidth = 1.2
    ctx.strokeStyle = theme.clean
    ctx.stroke()
    ctx.setLineDash([])
  }
  const half = 10
  ctx.beginPath()
  ctx.moveTo(at.x, at.y - half)
  ctx.lineTo(at.x + half, at.y)
  ctx.lineTo(at.x, at.y + half)
  ctx.lineTo(at.x - half, at.y)
  ctx.closePath()
  ctx.lineJoin = 'round'
  ctx.fillStyle = theme.sheet
  ctx.fill()
  ctx.lineWidth = 2
  ctx.strokeStyle = theme.clean
  ctx.stroke()
  ctx.beginPath()
  ctx.moveTo(at.x - 4, at.y + 0.2)
  ctx.lineTo(at.x - 1, at.y + 3.2)
  ctx.lineTo(at.x + 4.4, at.y - 3.4)
  ctx.lineCap = 'round'
  ctx.stroke()
}

/** How wide the brush is, where it stands. */
export function drawBrush(frame: Frame, { at, radiusMm }: { readonly at: Point; readonly radiusMm: number }): void {
  const { ctx, transform: t, theme, scale } = frame
  for (const [lineWidth, colour] of [
    [3.2, theme.sheet],
    [1.4, theme.residue],
  ] as const) {
    ctx.beginPath()
    ctx.arc(t.a * at.x + t.e, t.d * at.y + t.f, Math.max(1.5, radiusMm * scale), 0, 2 * Math.PI)
    ctx.lineWidth = lineWidth
    ctx.strokeStyle = colour
    ctx.stroke()
  }
}

/** Where a tool slipped: three scratches within a thin circle, in ink. */
export function drawSlip(frame: Frame, mark: SlipMark): void {
  const { ctx, theme } = frame
  const disc = discOf(frame, mark)
  ctx.beginPath()
  ctx.arc(disc.x, disc.y, disc.radius, 0, 2 * Math.PI)
  ctx.setLineDash([1.5, 4])
  ctx.lineCap = 'round'
  ctx.lineWidth = 1.5
  ctx.strokeStyle = theme.ink
  ctx.stroke()
  ctx.setLineDash([])
  const reach = Math.min(disc.radius * 0.62, 16)
  ctx.beginPath()
  for (const k of [-1, 0, 1]) {
    const aside = k * reach * 0.42
    const length = reach * (k === 0 ? 1 : 0.62)
    ctx.moveTo(disc.x + aside - length * 0.75, disc.y + aside + length * 0.75)
    ctx.lineTo(disc.x + aside + length * 0.75, disc.y + aside - length * 0.75)
  }
  ctx.lineWidth = 4.5
  ctx.strokeStyle = theme.sheet
  ctx.stroke()
  ctx.lineWidth = 2
  ctx.strokeStyle = theme.ink
  ctx.stroke()
}
