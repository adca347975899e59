/** Plain grounds for marching, and a slow reference: Gauss–Seidel sweeps of the same upwind scheme until nothing moves. */
import { cellAt, cellCentre, cellCount, type Grid, type Point } from '../../src/base/index.ts'
import { touchPath } from '../../src/spill/index.ts'

export interface PlainGround {
  readonly grid: Grid
  readonly slowness: Float32Array
  readonly links: undefined
  readonly linkEffortMm: number
}

/** A ground of the given size about the origin with a blocked rim; `slownessAt` says each cell's value at its centre. */
export function plainGround(halfMm: number, cellMm: number, slownessAt: (at: Point) => number = () => 1): PlainGround {
  const across = 2 * Math.round(halfMm / cellMm) + 3
  const origin = -(across * cellMm) / 2
  const grid: Grid = { originXMm: origin, originYMm: origin, cellMm, columns: across, rows: across }
  const slowness = new Float32Array(cellCount(grid)).fill(Infinity)
  for (let row = 1; row < across - 1; row++) {
    for (let column = 1; column < across - 1; column++) {
      const cell = row * across + column
      slowness[cell] = slownessAt(cellCentre(grid, cell))
    }
  }
  return { grid, slowness, links: undefined, linkEffortMm: 0 }
}

export function wall(ground: PlainGround, path: readonly Point[]): void {
  touchPath(ground.grid, path, (cell) => {
    ground.slowness[cell] = Infinity
  })
}

/** The seed of a point: every cell within `exactMm` of it at its true distance (in open ground of slowness 1). */
export function pointSeed(ground: PlainGround, at: Point, exactMm = 0): { cells: number[]; effortMm: number[] } {
  const centre = cellAt(ground.grid, at)
  const cells: number[] = []
  const effortMm: number[] = []
  for (let cell = 0; cell < ground.slowness.length; cell++) {
    const there = cellCentre(ground.grid, cell)
    const distanceMm = Math.hypot(there.x - at.x, there.y - at.y)
    if (cell !== centre && distanceMm > exactMm) continue
    cells.push(cell)
    effortMm.push(distanceMm)
  }
  return { cells, effortMm }
}

export function sweepToRest(
  ground: PlainGround,
  seeds: { readonly cells: readonly number[]; readonly effortMm: readonly number[] },
): Float64Array {
  const { columns, rows, cellMm } = ground.grid
  const effort = new Float64Array(columns * rows).fill(Infinity)
  for (const [i, cell] of seeds.cells.entries()) {
    if (ground.slowness[cell] !== Infinity) effort[cell] = seeds.effortMm[i] ?? 0
  }
  for (let moved = true; moved; ) {
    moved = false
    for (let cell = 0; cell < effort.length; cell++) {
      const step = (ground.slowness[cell] ?? Infinity) * cellMm
      if (step === Infinity) continue
      const a = Math.min(effort[cell - 1] ?? Infinity, effort[cell + 1] ?? Infinity)
      const b = Math.min(effort[cell - columns] ?? Infinity, effort[cell + columns] ?? Infinity)
      const low = Math.min(a, b)
      const high = Math.max(a, b)
      if (low === Infinity) continue
      const oneSided = low + step
      const arrival = oneSided <= high ? oneSided : (a + b + Math.sqrt(2 * step * step - (a - b) ** 2)) / 2
      if (arrival < (effort[cell] ?? 0) - 1e-12) {
        effort[cell] = arrival
        moved = true
      }
    }
  }
  return effort
}
