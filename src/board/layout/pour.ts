/** Copper of one piece of a zone from the corners of its edge. */
import type { Point } from '../../base/index.ts'
import type { Pour } from './model.ts'

/** @param points mm, y down; fills are cut open so that they have no holes */
export function pourInside(points: readonly Point[], pour: Pick<Pour, 'net' | 'layer' | 'isFilled'>): Pour {
  const edge = Float64Array.from(points.flatMap(({ x, y }) => [x, y]))
  return { ...pour, edge, areaMm2: areaInside(edge) }
}

function areaInside(edge: Float64Array): number {
  let twice = 0
  const count = edge.length
  for (let i = 0; i < count; i += 2) {
    const next = (i + 2) % count
    twice += (edge[i] ?? 0) * (edge[next + 1] ?? 0) - (edge[next] ?? 0) * (edge[i + 1] ?? 0)
  }
  return Math.abs(twice) / 2
}
