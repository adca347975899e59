/** Reach as contour rings for every drawing: the reached set's edge and some round distances around it, in board mm. */
import { contours } from 'd3-contour'
import { drawnMm, type Grid, type Point, roundDown125, loopOnBoard } from '../base/index.ts'
import type { ReachField } from './result.ts'

export interface RingLevel {
  readonly effortMm: number
  /** The radius that holds the volume; the others are for orientation. */
  readonly solid: boolean
}

export interface Ring extends RingLevel {
  readonly label: string
  /** Closed loops, holes among them; each a list of x, y in mm without the repeated last point. */
  readonly loops: readonly Float32Array[]
}

/**
 * The radius in mm as a solid ring and up to four multiples of a round step, ascending, none above 1.6 times the radius
 * or within 18 % of it, where two rings would touch. None for a radius that is not positive.
 */
export function ringLevels(radiusMm: number): RingLevel[] {
  if (!(radiusMm > 0) || !Number.isFinite(radiusMm)) return []
  const step = roundDown125(radiusMm / 1.9)
  const others = [1, 2, 3, 4]
    .map((k) => k * step)
    .filter((level) => level <= radiusMm * 1.6 && Math.abs(level - radiusMm) >= radiusMm * 0.18)
  return [...others.map((effortMm) => ({ effortMm, solid: false })), { effortMm: radiusMm, solid: true }].toSorted(
    (p, q) => p.effortMm - q.effortMm,
  )
}

/**
 * @param field efforts of one side
 * @param radiusMm the effort up to which it is wetted
 * @returns rings from the inside out with what they are called; none where nothing is reached
 */
export function ringsOf(field: ReachField, radiusMm: number): Ring[] {
  const levels = ringLevels(radiusMm)
  const outermost = levels.at(-1)?.effortMm
  if (outermost === undefined) return []
  const window = windowWithin(field, outermost * 1.05 + 2 * field.grid.cellMm)
  if (window === undefined) return []
  // Inside is where -effort >= -level; what nothing reaches gets a finite height so that edges interpolate.
  const ceiling = outermost + 4 * field.grid.cellMm
  const heights = Array.from(window.effortMm, (effort) => -Math.min(effort, ceiling))
  const contour = contours().size([window.grid.columns, window.grid.rows])
  return levels.map((level) => ({
    ...level,
    label: `${drawnMm(level.effortMm)} mm`,
    loops: contour
      .contour(heights, -level.effortMm)
      .coordinates.flat()
      .map((loop) => rounded(rounded(loopOnBoard(loop, window.grid)))),
  }))
}

/** The smallest block of cells that holds every effort up to a level, with a rim of one; undefined where none does. */
function windowWithin(field: ReachField, level: number): { grid: Grid; effortMm: Float32Array } | undefined {
  const { grid, effortMm } = field
  let left = grid.columns
  let right = -1
  let low = grid.rows
  let high = -1
  for (let row = 0; row < grid.rows; row++) {
    for (let column = 0; column < grid.columns; column++) {
      if (!((effortMm[row * grid.columns + column] ?? Infinity) <= level)) continue
      if (column < left) left = column
      if (column > right) right = column
      if (row < low) low = row
      high = row
    }
  }
  if (right < 0) return undefined
  const columns = right - left + 3
  const rows = high - low + 3
  const part = new Float32Array(columns * rows).fill(Infinity)
  for (let row = 0; row < rows; row++) {
    const from = (low - 1 + row) * grid.columns
    if (low - 1 + row < 0 || low - 1 + row >= grid.rows) continue
    for (let column = 0; column < columns; column++) {
      const source = left - 1 + column
      if (source >= 0 && source < grid.columns) part[row * columns + column] = effortMm[from + source] ?? Infinity
    }
  }
  const { cellMm } = grid
  return {
    grid: {
      cellMm,
      columns,
      rows,
      originXMm: grid.originXMm + (left - 1) * cellMm,
      originYMm: grid.originYMm + (low - 1) * cellMm,
    },
    effortMm: part,
  }
}

/** One pass of corner cutting (Chaikin 1974), so that the raster's stairs do not show at close zoom. */
function rounded(loop: Float32Array): Float32Array {
  const n = loop.length / 2
  const cut = new Float32Array(4 * n)
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n
    for (const axis of [0, 1]) {
      const a = loop[2 * i + axis] ?? 0
      const b = loop[2 * j + axis] ?? 0
      cut[4 * i + axis] = 0.75 * a + 0.25 * b
      cut[4 * i + 2 + axis] = 0.25 * a + 0.75 * b
    }
  }
  return cut
}

/** Where a ring's label can stand, best first: its lowest, highest, rightmost and leftmost points. */
export function labelPoints(ring: Ring): Point[] {
  const longest = ring.loops.reduce<Float32Array | undefined>(
    (best, loop) => (best === undefined || loop.length > best.length ? loop : best),
    undefined,
  )
  if (longest === undefined || longest.length === 0) return []
  const extreme = (axis: 0 | 1, sign: 1 | -1): Point => {
    let at = 0
    for (let i = 0; i < longest.length; i += 2)
      if (sign * (longest[i + axis] ?? 0) > sign * (longest[at + axis] ?? 0)) at = i
    return { x: longest[at] ?? 0, y: longest[at + 1] ?? 0 }
  }
  return [extreme(1, -1), extreme(1, 1), extreme(0, 1), extreme(0, -1)]
}
