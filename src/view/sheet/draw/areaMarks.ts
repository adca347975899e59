/** Found places: residue as stipple, film as waves, corrosion as crosses, a clean spot as a green diamond with a tick. */
import type { AreaMark, SlipMark } from '../../../spill/index.ts'
import type { Frame } from './frame.ts'

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

export function drawAreaMark(frame: Frame, mark: AreaMark): void {
  const disc = discOf(frame, mark)
  if (mark.kind === 'clean') drawClean(frame, disc)
  else drawFound(frame, disc, mark.kind)
}

function drawFound(frame: Frame, disc: Disc, kind: 'residue' | 'film' | 'corrosion'): void {
  const { ctx, theme } = frame
  traceDisc(ctx, disc)
  ctx.fillStyle = theme.residue
  ctx.globalAlpha = 0.12
  ctx.fill()
  ctx.globalAlpha = 1
  ctx.save()
  ctx.clip()
  ctx.fillStyle = theme.residue
  ctx.strokeStyle = theme.residue
  ctx.lineWidth = 1.3
  if (kind === 'residue') stipple(ctx, disc)
  else if (kind === 'film') waves(ctx, disc)
  else crosses(ctx, disc)
  ctx.restore()
  traceDisc(ctx, disc)
  ctx.setLineDash(kind === 'corrosion' ? [] : kind === 'film' ? [7, 4] : [2.5, 3])
  ctx.lineWidth = 1.6
  ctx.strokeStyle = theme.residue
  ctx.stroke()
  ctx.setLineDash([])
}

function traceDisc(ctx: CanvasRenderingContext2D, disc: Disc): void {
  ctx.beginPath()
  ctx.arc(disc.x, disc.y, disc.radius, 0, 2 * Math.PI)
}

const STEP_PX = 6.5

/** Calls back at the nodes of a grid that moves with the disc, every other row shifted by half a step. */
function forNodes(disc: Disc, step: number, each: (x: number, y: number) => void): void {
  const rows = Math.ceil(disc.radius / step)
  for (let row = -rows; row <= rows; row++) {
    const shift = row % 2 === 0 ? 0 : step / 2
    for (let column = -rows; column <= rows; column++) each(disc.x + column * step + shift, disc.y + row * step)
  }
}

function stipple(ctx: CanvasRenderingContext2D, disc: Disc): void {
  ctx.beginPath()
  forNodes(disc, STEP_PX, (x, y) => {
    ctx.moveTo(x + 1.45, y)
    ctx.arc(x, y, 1.45, 0, 2 * Math.PI)
  })
  ctx.fill()
}

function crosses(ctx: CanvasRenderingContext2D, disc: Disc): void {
  ctx.beginPath()
  forNodes(disc, 8.5, (x, y) => {
    ctx.moveTo(x - 2, y - 2)
    ctx.lineTo(x + 2, y + 2)
    ctx.moveTo(x - 2, y + 2)
    ctx.lineTo(x + 2, y - 2)
  })
  ctx.stroke()
}

function waves(ctx: CanvasRenderingContext2D, disc: Disc): void {
  ctx.beginPath()
  for (let y = disc.y - disc.radius; y <= disc.y + disc.radius; y += 7) {
    ctx.moveTo(disc.x - disc.radius, y)
    for (let x = disc.x - disc.radius, up = true; x < disc.x + disc.radius; x += 8, up = !up)
      ctx.quadraticCurveTo(x + 4, y + (up ? -3.2 : 3.2), x + 8, y)
  }
  ctx.stroke()
}

function drawClean(frame: Frame, disc: Disc): void {
  const { ctx, theme } = frame
  if (disc.radius > 16) {
    ctx.beginPath()
    ctx.arc(disc.x, disc.y, disc.radius, 0, 2 * Math.PI)
    ctx.setLineDash([3, 5])
    ctx.lineWidth = 1.2
    ctx.strokeStyle = theme.clean
    ctx.stroke()
    ctx.setLineDash([])
  }
  const half = 10
  ctx.beginPath()
  ctx.moveTo(disc.x, disc.y - half)
  ctx.lineTo(disc.x + half, disc.y)
  ctx.lineTo(disc.x, disc.y + half)
  ctx.lineTo(disc.x - half, disc.y)
  ctx.closePath()
  ctx.lineJoin = 'round'
  ctx.fillStyle = theme.sheet
  ctx.fill()
  ctx.lineWidth = 2
  ctx.strokeStyle = theme.clean
  ctx.stroke()
  ctx.beginPath()
  ctx.moveTo(disc.x - 4, disc.y + 0.2)
  ctx.lineTo(disc.x - 1, disc.y + 3.2)
  ctx.lineTo(disc.x + 4.4, disc.y - 3.4)
  ctx.lineCap = 'round'
  ctx.stroke()
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
