/**
 * Fast marching: first-arrival effort over a terrain, |∇T| = s, first-order upwind, in order of arrival from a binary
 * heap (Sethian 1996). No allocation while marching; a marcher's buffers are reused from run to run.
 */
import { CellHeap } from './cell-heap.ts'
import type { Terrain } from './terrain.ts'

export interface Seeds {
  /** Cells of the terrain, layer included. Blocked ones are passed over. */
  readonly cells: readonly number[]
  /** The effort in mm at which each of them starts. */
  readonly effortMm: readonly number[]
}

export interface Marcher {
  /** Effort of each cell after a run, in mm of bare mask; Infinity where the run did not get. The next run overwrites it. */
  readonly effortMm: Float64Array
  /** Cells in the order of their arrival; only the first `count` of a run are valid. */
  readonly order: Int32Array
  /**
   * Marches until everything within `limitMm` has been reached, or until `stop` says so. The ground is read as it is then.
   * @returns how many cells were reached
   */
  run(seeds: Seeds, limitMm: number, stop?: MarchStop): number
}

/** Ends the march when it says true of a cell that has just arrived. */
export type MarchStop = (cell: number, effortMm: number) => boolean

type Ground = Pick<Terrain, 'grid' | 'slowness' | 'links' | 'linkEffortMm'>

/** Effort from the seeds to every cell, in mm of bare mask; Infinity where nothing gets or beyond the limit. */
export function march(terrain: Ground, seeds: Seeds, limitMm = Infinity): Float32Array {
  const marcher = createMarcher(terrain)
  marcher.run(seeds, limitMm)
  return new Float32Array(marcher.effortMm)
}

/** A marcher for one terrain. The terrain needs a rim of blocked cells around each layer. */
export const createMarcher = (terrain: Ground): Marcher => new FastMarcher(terrain)

/** A class, so that all marchers share what the engine has learned about the loop. */
class FastMarcher implements Marcher {
  readonly effortMm: Float64Array
  readonly order: Int32Array
  private readonly waiting: CellHeap
  private readonly ground: Ground
  private reached = 0

  constructor(ground: Ground) {
    const size = ground.slowness.length
    this.ground = ground
    this.effortMm = new Float64Array(size).fill(Infinity)
    this.order = new Int32Array(size)
    this.waiting = new CellHeap(size)
  }

  run(seeds: Seeds, limitMm: number, stop?: MarchStop): number {
    const { effortMm, order, waiting } = this
    const { links, linkEffortMm, slowness, grid } = this.ground
    this.start(seeds)
    let reached = 0
    for (let cell = waiting.first(); cell >= 0; cell = waiting.first()) {
      // The least of what waits can't be lowered any more, for every effort adds to a smaller one: it is final.
      const arrival = waiting.keyOf(cell)
      if (arrival > limitMm) break
      waiting.dropFirst()
      effortMm[cell] = arrival
      order[reached++] = cell
      if (stop?.(cell, arrival)) break
      this.offerAround(cell, effortMm, slowness, grid.cellMm, waiting)
      // Through a hole or over the edge to the other side: a link with an effort of its own beside the grid's scheme.
      const across = links === undefined ? -1 : (links[cell] ?? -1)
      if (across >= 0 && effortMm[across] === Infinity) waiting.lower(across, arrival + linkEffortMm)
    }
    this.reached = reached
    return reached
  }

  private start(seeds: Seeds): void {
    const { effortMm, order, waiting } = this
    const { slowness } = this.ground
    // Only what the last run reached is cleared: a short march must not cost a sweep over the board.
    for (let i = 0; i < this.reached; i++) effortMm[order[i] ?? 0] = Infinity
    waiting.clear()
    for (let i = 0; i < seeds.cells.length; i++) {
      const cell = seeds.cells[i] ?? 0
      if ((slowness[cell] ?? Infinity) !== Infinity) waiting.lower(cell, seeds.effortMm[i] ?? 0)
    }
  }

  /** Solves the upwind equation anew for the four neighbours of a cell that has just arrived. */
  private offerAround(
    cell: number,
    effort: Float64Array,
    slowness: Float32Array,
    cellMm: number,
    waiting: CellHeap,
  ): void {
    const { columns } = this.ground.grid
    for (let k = 0; k < 4; k++) {
      const next = k === 0 ? cell - 1 : k === 1 ? cell + 1 : k === 2 ? cell - columns : cell + columns
      const step = (slowness[next] ?? Infinity) * cellMm
      if (step === Infinity || effort[next] !== Infinity) continue
      // Cells that wait have no effort yet, so that only what the front has passed speaks: the upwind side of each
      // axis.
      const left = effort[next - 1] ?? Infinity
      const right = effort[next + 1] ?? Infinity
      const below = effort[next - columns] ?? Infinity
      const above = effort[next + columns] ?? Infinity
      const a = left < right ? left : right
      const b = below < above ? below : above
      const gap = a < b ? b - a : a - b
      // (T - a)² + (T - b)² = (s·c)², the larger root. Where the later side lies beyond a whole step, the front came
      // along one axis alone.
      waiting.lower(next, gap < step ? (a + b + Math.sqrt(2 * step * step - gap * gap)) / 2 : (a < b ? a : b) + step)
    }
  }
}
