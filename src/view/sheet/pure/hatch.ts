/** Parallel lines clipped to a polygon: the hatch that shows error load. */
import type { Point } from '../../../base/index.ts'

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
