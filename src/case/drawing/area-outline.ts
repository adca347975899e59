/** The edge of a painted area as closed lines: a lasso is one, what a brush swept is contoured. */
import { contours } from 'd3-contour'
import type { Point } from '../../base/index.ts'
import { type AreaMark, boxOfArea, distanceToArea } from '../../spill/index.ts'

const MOST_CELLS = 8_000
/** Cells across half the brush. */
const CELLS_ACROSS = 4

const kept = new WeakMap<AreaMark, readonly (readonly Point[])[]>()

/** In board mm; none for a plain circle. Kept for as long as the mark is. */
export function outlinesOf(mark: AreaMark): readonly (readonly Point[])[] {
  const known = kept.get(mark)
  if (known !== undefined) return known
  const made = mark.outline !== undefined ? [mark.outline] : mark.path === undefined ? [] : sweptOutlines(mark)
  kept.set(mark, made)
  return made
}

function sweptOutlines(mark: AreaMark): Point[][] {
  const box = boxOfArea(mark)
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY]
  const cellMm = Math.max(mark.radiusMm / CELLS_ACROSS, Math.sqrt((width * height) / MOST_CELLS))
  const originX = box.minX - 2 * cellMm
  const originY = box.minY - 2 * cellMm
  const columns = Math.ceil(width / cellMm) + 4
  const rows = Math.ceil(height / cellMm) + 4
  const depth = Array.from({ length: columns * rows }, (_, cell) => {
    const column = cell % columns
    const row = (cell - column) / columns
    return -distanceToArea(mark, { x: originX + (column + 0.5) * cellMm, y: originY + (row + 0.5) * cellMm })
  })
  const shape = contours().size([columns, rows]).contour(depth, 0)
  return shape.coordinates.flatMap((polygon) =>
    polygon.map((ring) => ring.map(([x, y]) => ({ x: originX + (x ?? 0) * cellMm, y: originY + (y ?? 0) * cellMm }))),
  )
}
