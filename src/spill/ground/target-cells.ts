/** Which targets each cell of a terrain leads to: what a march over it reaches is read off on the way. */
import type { Target } from './targets.ts'
import type { Terrain } from './terrain.ts'

/** Entries `start[cell]` to `start[cell + 1]` of `target` and `offsetMm`: from a cell at effort T a target is at T + offset. */
export interface TargetCells {
  readonly start: Int32Array
  readonly target: Uint16Array
  readonly offsetMm: Float32Array
}

/** Effort is symmetric: the seeds of a march from a target are the cells from which it is reached. */
export function targetCellsOf(terrain: Terrain, targets: readonly Target[]): TargetCells {
  const seeds = targets.map((target) => {
    const layer = terrain.sides.indexOf(target.side)
    return layer < 0 ? { cells: [], effortMm: [] } : target.seeds(terrain, layer)
  })
  const start = new Int32Array(terrain.slowness.length + 1)
  for (const { cells } of seeds) for (const cell of cells) start[cell + 1] = (start[cell + 1] ?? 0) + 1
  for (let cell = 1; cell < start.length; cell++) start[cell] = (start[cell] ?? 0) + (start[cell - 1] ?? 0)
  const filled = start.slice(0, -1)
  const target = new Uint16Array(start[start.length - 1] ?? 0)
  const offsetMm = new Float32Array(target.length)
  for (const [index, { cells, effortMm }] of seeds.entries()) {
    for (const [i, cell] of cells.entries()) {
      const at = filled[cell] ?? 0
      filled[cell] = at + 1
      target[at] = index
      offsetMm[at] = effortMm[i] ?? 0
    }
  }
  return { start, target, offsetMm }
}
