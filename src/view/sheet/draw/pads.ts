/** Pads and balls in bulk: one path, read from flat arrays, only what the pane shows and large enough to be seen. */
import type { PadField } from '../pure/padField.ts'
import type { Frame } from './frame.ts'

/** Pads whose width and length together come to less are left out: a field of them would only be a grey haze. */
const SMALLEST_PAD_PX = 8
const SMALLEST_HALVES_PX = SMALLEST_PAD_PX / 2
/** Balls get round when they are large enough to look it. */
const ROUND_FROM_PX = 4.5
/** Farther out than this no pad is looked for. */
const SMALLEST_SCALE = 2

export function drawPads(frame: Frame, pads: PadField): void {
  if (frame.scale < SMALLEST_SCALE || pads.count === 0) return
  const { ctx, theme, shown } = frame
  ctx.fillStyle = theme.pad
  fillPads(frame, pads, pads.within(shown))
}

function fillPads(frame: Frame, pads: PadField, which: ArrayLike<number>): void {
  const { ctx, transform: t, scale } = frame
  const { xMm, yMm, halfWidthMm, halfLengthMm, rotationRad, round } = pads
  const { a, d, e, f } = t
  const count = which.length
  let roundOnes = 0
  ctx.beginPath()
  for (let k = 0; k < count; k++) {
    const i = which[k] ?? 0
    const halfWidth = (halfWidthMm[i] ?? 0) * scale
    const halfLength = (halfLengthMm[i] ?? 0) * scale
    if (halfWidth + halfLength < SMALLEST_HALVES_PX) continue
    const x = a * (xMm[i] ?? 0) + e
    const y = d * (yMm[i] ?? 0) + f
    if (round[i] === 1 && 2 * halfWidth >= ROUND_FROM_PX) {
      ctx.moveTo(x + halfWidth, y)
      ctx.arc(x, y, halfWidth, 0, 6.283185307179586)
      roundOnes++
    } else if (rotationRad[i] === 0) {
      ctx.fillRect(x - halfWidth, y - halfLength, 2 * halfWidth, 2 * halfLength)
    } else {
      traceTurned(frame, x, y, halfWidth, halfLength, (a < 0 ? 1 : -1) * (rotationRad[i] ?? 0))
      roundOnes++
    }
  }
  if (roundOnes > 0) ctx.fill()
}

function traceTurned(frame: Frame, x: number, y: number, halfWidth: number, halfLength: number, radians: number): void {
  const { ctx } = frame
  const cos = Math.cos(radians)
  const sin = Math.sin(radians)
  const ux = halfWidth * cos
  const uy = halfWidth * sin
  const vx = -halfLength * sin
  const vy = halfLength * cos
  ctx.moveTo(x - ux - vx, y - uy - vy)
  ctx.lineTo(x + ux - vx, y + uy - vy)
  ctx.lineTo(x + ux + vx, y + uy + vy)
  ctx.lineTo(x - ux + vx, y - uy + vy)
  ctx.closePath()
}
