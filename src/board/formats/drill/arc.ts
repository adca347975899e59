/** An arc that a mill cuts, as points: by its radius, or by its middle. */
import type { Point } from '../../../base/index.ts'

interface Arc {
  readonly isClockwise: boolean
  /** The shorter of the two arcs of this radius. */
  readonly radiusMm: number | undefined
  /** The middle, from the beginning. */
  readonly i: number | undefined
  readonly j: number | undefined
}

const STEP_RAD = Math.PI / 36

/** @returns points after `from`, `to` last; the straight way where neither radius nor middle is told */
export function arcThrough(from: Point, to: Point, { isClockwise, radiusMm, i, j }: Arc): Point[] {
  const middle =
    i !== undefined || j !== undefined
      ? { x: from.x + (i ?? 0), y: from.y + (j ?? 0) }
      : radiusMm === undefined
        ? undefined
        : middleOf(from, to, radiusMm, isClockwise)
  if (middle === undefined) return [to]
  const start = Math.atan2(from.y - middle.y, from.x - middle.x)
  const end = Math.atan2(to.y - middle.y, to.x - middle.x)
  const turn = ((isClockwise ? start - end : end - start) + 2 * Math.PI) % (2 * Math.PI) || 2 * Math.PI
  const radius = Math.hypot(from.x - middle.x, from.y - middle.y)
  const steps = Math.max(1, Math.ceil(turn / STEP_RAD))
  return Array.from({ length: steps }, (_, k): Point => {
    if (k === steps - 1) return to
    const angle = start + ((isClockwise ? -1 : 1) * turn * (k + 1)) / steps
    return { x: middle.x + radius * Math.cos(angle), y: middle.y + radius * Math.sin(angle) }
  })
}

function middleOf(from: Point, to: Point, radiusMm: number, isClockwise: boolean): Point | undefined {
  const [dx, dy] = [to.x - from.x, to.y - from.y]
  const chord = Math.hypot(dx, dy)
  if (chord === 0) return undefined
  const off = Math.sqrt(Math.max(0, radiusMm * radiusMm - (chord * chord) / 4)) * (isClockwise ? -1 : 1)
  return { x: (from.x + to.x) / 2 - (dy / chord) * off, y: (from.y + to.y) / 2 + (dx / chord) * off }
}
