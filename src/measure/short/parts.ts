/** Which of the rail's parts the short may be in. */
import { type Box, cellCentre, distanceToSegment, type Point, polygonContains } from '../../base/index.ts'
import type { PlacedPart } from '../../board/index.ts'
import { shortAssumptions } from './assumptions.ts'
import type { SuspectPart } from './result.ts'
import type { Sheet } from './sheet.ts'

/**
 * If the short is in one of these parts, each as likely as any other before and anywhere in a part alike, then part k has
 * the share d_k / Σ d, with d the mean probability of the cells under it and within 1 mm of it.
 * @returns the likeliest first; parts off this copper are left out
 */
export function suspectParts(sheet: Sheet, probability: Float64Array, parts: readonly PlacedPart[]): SuspectPart[] {
  const weighed = parts.flatMap((part) => {
    const { mass, cells } = massNear(sheet, probability, part)
    return cells === 0 ? [] : [{ ref: part.ref, mass, mean: mass / cells }]
  })
  const sum = weighed.reduce((total, { mean }) => total + mean, 0)
  if (sum === 0) return []
  return weighed
    .map(({ ref, mass, mean }) => ({ ref, mass, share: mean / sum }))
    .toSorted((a, b) => b.share - a.share || b.mass - a.mass)
}

function massNear(
  { grid, nodeOf }: Sheet,
  probability: Float64Array,
  part: PlacedPart,
): { mass: number; cells: number } {
  const near = Math.max(shortAssumptions.nearPartMm, grid.cellMm * 0.71)
  const { firstColumn, lastColumn, firstRow, lastRow } = cellsOf(grid, part.box, near)
  let mass = 0
  let cells = 0
  for (let row = firstRow; row <= lastRow; row++) {
    for (let column = firstColumn; column <= lastColumn; column++) {
      const cell = row * grid.columns + column
      const node = nodeOf[cell] ?? -1
      if (node < 0 || !isNear(part.outline, cellCentre(grid, cell), near)) continue
      mass += probability[node] ?? 0
      cells++
    }
  }
  return { mass, cells }
}

const cellsOf = (grid: Sheet['grid'], box: Box, around: number) => ({
  firstColumn: Math.max(0, Math.floor((box.minX - around - grid.originXMm) / grid.cellMm)),
  lastColumn: Math.min(grid.columns - 1, Math.floor((box.maxX + around - grid.originXMm) / grid.cellMm)),
  firstRow: Math.max(0, Math.floor((box.minY - around - grid.originYMm) / grid.cellMm)),
  lastRow: Math.min(grid.rows - 1, Math.floor((box.maxY + around - grid.originYMm) / grid.cellMm)),
})

function isNear(outline: readonly Point[], at: Point, around: number): boolean {
  if (polygonContains(outline, at)) return true
  return outline.some(
    (corner, i) => distanceToSegment(at, corner, outline[(i + 1) % outline.length] ?? corner) <= around,
  )
}
