/** The lines of a search for a short: the copper's edge, and the least areas that hold a half, 90 % and 99 %. */
import { contours } from 'd3-contour'
import type { Grid } from '../../../base/index.ts'

export interface HeldArea {
  /** Share of the probability inside. */
  readonly held: number
  /** Closed loops of x, y in board mm. */
  readonly loops: readonly Float32Array[]
}

export interface ShortLines {
  readonly copper: readonly Float32Array[]
  /** The widest first. */
  readonly held: readonly HeldArea[]
}

const HELD = [0.99, 0.9, 0.5] as const

const kept = new WeakMap<Float32Array, ShortLines>()

/** Worked out once a field. */
export function shortLinesOf(grid: Grid, density: Float32Array, copper: Uint8Array, telling: boolean): ShortLines {
  const known = kept.get(density)
  if (known !== undefined) return known
  const edge = loopsAt(grid, Array.from(copper), 0.5)
  const values = Array.from(density)
  const held = telling
    ? levelsOf(density).map((level, i) => ({ held: HELD[i] ?? 1, loops: loopsAt(grid, values, level) }))
    : []
  const lines = { copper: edge, held }
  kept.set(density, lines)
  return lines
}

/** The least probability of the likeliest cells that hold each share, the greatest share first. */
export function levelsOf(density: Float32Array): number[] {
  const sorted = density.toSorted().toReversed()
  const levels: number[] = []
  let sum = 0
  let i = 0
  for (const share of HELD.toReversed()) {
    while (i < sorted.length && sum < share) sum += sorted[i++] ?? 0
    levels.push(sorted[Math.max(0, i - 1)] ?? 0)
  }
  return levels.toReversed()
}

function loopsAt(grid: Grid, values: number[], level: number): Float32Array[] {
  const found = contours().size([grid.columns, grid.rows]).contour(values, level)
  return found.coordinates.flat().map((loop) => {
    const points = new Float32Array(2 * Math.max(0, loop.length - 1))
    for (let i = 0; i + 1 < loop.length; i++) {
      points[2 * i] = grid.originXMm + (loop[i]?.[0] ?? 0) * grid.cellMm
      points[2 * i + 1] = grid.originYMm + (loop[i]?.[1] ?? 0) * grid.cellMm
    }
    return points
  })
}
