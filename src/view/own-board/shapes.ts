/** Parts as SVG paths in the board's millimetres; what stays the same is worked out once. */
import type { Point } from '../../base/index.ts'
import { type Part, partCorners } from '../../board/index.ts'

const short = (value: number): string => String(Math.round(value * 1000) / 1000)

export const pathOf = (points: readonly Point[]): string =>
  points.length === 0 ? '' : `M${points.map(({ x, y }) => `${short(x)} ${short(y)}`).join('L')}Z`

export const lineOf = (points: readonly Point[]): string =>
  points.length === 0 ? '' : `M${points.map(({ x, y }) => `${short(x)} ${short(y)}`).join('L')}`

interface PartShape {
  readonly body: string
  /** A cut at the upper left corner of its own drawing, so that a turn is seen; empty on small parts. */
  readonly corner: string
}

const shapes = new WeakMap<Part, PartShape>()

export function shapeOf(part: Part): PartShape {
  const known = shapes.get(part)
  if (known !== undefined) return known
  const corners = partCorners(part)
  const shape = { body: pathOf(corners), corner: cornerOf(corners) }
  shapes.set(part, shape)
  return shape
}

/** From this edge on a part shows how it is turned, mm. */
const SHOWS_FROM_MM = 2
const MOST_CUT_MM = 1.6

function cornerOf([lowerLeft, , upperRight, upperLeft]: readonly Point[]): string {
  if (lowerLeft === undefined || upperRight === undefined || upperLeft === undefined) return ''
  const down = Math.hypot(lowerLeft.x - upperLeft.x, lowerLeft.y - upperLeft.y)
  const along = Math.hypot(upperRight.x - upperLeft.x, upperRight.y - upperLeft.y)
  if (Math.min(down, along) < SHOWS_FROM_MM) return ''
  const cut = Math.min(MOST_CUT_MM, 0.25 * Math.min(down, along))
  const towards = (to: Point, length: number): Point => ({
    x: upperLeft.x + ((to.x - upperLeft.x) * cut) / length,
    y: upperLeft.y + ((to.y - upperLeft.y) * cut) / length,
  })
  return pathOf([upperLeft, towards(lowerLeft, down), towards(upperRight, along)])
}
