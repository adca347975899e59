/** Hatch lines and dots clipped to polygons, in the drawing's own unit: one rule for the screen and for paper. */
import type { Point } from './geometry.ts'

/**
 * Segments of the lines x·sin(angle) - y·cos(angle) = k·spacing + phase inside of a simple polygon (even-odd rule).
 * @param spacing distance between lines, in the polygon's own unit; refused as empty where not positive
 * @param angleDeg direction of the lines, counter-clockwise from x in the polygon's own axes
 * @returns x1, y1, x2, y2 for each segment in turn
 */
export function hatchSegments(polygon: readonly Point[], spacing: number, angleDeg: number, phase = 0): number[] {
  if (!(spacing > 0) || polygon.length < 3) return []
  const cos = Math.cos((angleDeg * Math.PI) / 180)
  const sin = Math.sin((angleDeg * Math.PI) / 180)
  const along = polygon.map((p) => p.x * cos + p.y * sin)
  const across = polygon.map((p) => p.x * sin - p.y * cos)
  const first = Math.ceil((Math.min(...across) - phase) / spacing)
  const last = Math.floor((Math.max(...across) - phase) / spacing)
  const segments: number[] = []
  for (let k = first; k <= last; k++) {
    const level = k * spacing + phase
    const cuts = crossings(along, across, level)
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      const from = cuts[i] ?? 0
      const to = cuts[i + 1] ?? 0
      if (to - from < 1e-9) continue
      segments.push(from * cos + level * sin, from * sin - level * cos, to * cos + level * sin, to * sin - level * cos)
    }
  }
  return segments
}

function crossings(along: readonly number[], across: readonly number[], level: number): number[] {
  const cuts: number[] = []
  for (let i = 0, j = along.length - 1; i < along.length; j = i++) {
    const from = across[j] ?? 0
    const to = across[i] ?? 0
    if (from > level === to > level) continue
    const share = (level - from) / (to - from)
    cuts.push((along[j] ?? 0) + share * ((along[i] ?? 0) - (along[j] ?? 0)))
  }
  return cuts.toSorted((a, b) => a - b)
}

/**
 * Where a level line runs inside of a shape of several closed lines (even-odd rule, so that a hole is outside).
 * @returns pairs of x from left to right; empty above and below the shape
 */
export function spansAt(loops: readonly (readonly Point[])[], y: number): (readonly [number, number])[] {
  const cuts = loops
    .flatMap((loop) =>
      crossings(
        loop.map((p) => p.x),
        loop.map((p) => p.y),
        y,
      ),
    )
    .toSorted((a, b) => a - b)
  return Array.from(
    { length: Math.floor(cuts.length / 2) },
    (_, i) => [cuts[2 * i] ?? 0, cuts[2 * i + 1] ?? 0] as const,
  )
}

/** Points of a square lattice inside of a simple polygon, in its own unit; the lattice is the same for all polygons. */
export function dotsIn(polygon: readonly Point[], spacing: number): Point[] {
  const rows = hatchSegments(polygon, spacing, 0, spacing / 2)
  const dots: Point[] = []
  for (let i = 0; i < rows.length; i += 4) {
    const y = rows[i + 1] ?? 0
    const from = Math.min(rows[i] ?? 0, rows[i + 2] ?? 0)
    const to = Math.max(rows[i] ?? 0, rows[i + 2] ?? 0)
    for (let x = Math.ceil(from / spacing) * spacing; x <= to; x += spacing) dots.push({ x, y })
  }
  return dots
}
