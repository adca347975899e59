/**
 * Fast marching: first-arrival effort over a terrain, |∇T| = s, first-order upwind, in order of arrival from a binary
 * heap (Sethian 1996). No allocation while marching; a marcher's buffers are reused from run to run.
 */
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
   * Marches until everything within `limitMm` has been reached, or until `end` says so.
   * @returns how many cells were reached
   */
  run(seeds: Seeds, limitMm: number, end?: MarchLimits): number
}

export interface MarchLimits {
  /** Ends the march when it says true of a cell that has just arrived. */
  readonly stop?: (cell: number, effortMm: number) => boolean
  /** Per cell: a cell that arrives later than this is kept, but not marched on from. */
  readonly radiusMm?: Float32Array
}

type Ground = Pick<Terrain, 'grid' | 'slowness' | 'links' | 'linkEffortMm'>

/** Effort from the seeds to every cell, in mm of bare mask; Infinity where nothing gets or beyond the limit. */
export function march(terrain: Ground, seeds: Seeds, limitMm = Infinity): Float32Array {
  const marcher = createMarcher(terrain)
  marcher.run(seeds, limitMm)
  return new Float32Array(marcher.effortMm)
}

/** A marcher for one terrain. The terrain needs a rim of blocked cells around each layer. */
export function createMarcher(terrain: Ground): Marcher {
  const { slowness, links, linkEffortMm } = terrain
  const columns = terrain.grid.columns
  const cost = Float64Array.from(slowness, (s) => s * terrain.grid.cellMm)
  const effort = new Float64Array(cost.length).fill(Infinity)
  const queue = createQueue(cost.length)
  const order = new Int32Array(cost.length)
  let reached = 0

  const offer = (cell: number): void => {
    if ((effort[cell] ?? 0) !== Infinity) return
    const step = cost[cell] ?? Infinity
    if (step === Infinity) return
    const left = effort[cell - 1] ?? Infinity
    const right = effort[cell + 1] ?? Infinity
    const below = effort[cell - columns] ?? Infinity
    const above = effort[cell + columns] ?? Infinity
    const a = left < right ? left : right
    const b = below < above ? below : above
    const gap = a < b ? b - a : a - b
    if (gap < step) queue.lower(cell, (a + b + Math.sqrt(2 * step * step - gap * gap)) / 2)
    else queue.lower(cell, (a < b ? a : b) + step)
  }

  const run: Marcher['run'] = (seeds, limitMm, { stop, radiusMm } = {}) => {
    for (let i = 0; i < reached; i++) effort[order[i] ?? 0] = Infinity
    reached = 0
    queue.clear()
    for (const [i, cell] of seeds.cells.entries()) {
      if ((cost[cell] ?? Infinity) !== Infinity) queue.lower(cell, seeds.effortMm[i] ?? 0)
    }
    for (let cell = queue.first(); cell >= 0; cell = queue.first()) {
      const arrival = queue.keyOf(cell)
      if (arrival > limitMm) break
      queue.dropFirst()
      effort[cell] = arrival
      order[reached++] = cell
      if (stop?.(cell, arrival)) break
      if (radiusMm !== undefined && arrival > (radiusMm[cell] ?? 0)) continue
      offer(cell - 1)
      offer(cell + 1)
      offer(cell - columns)
      offer(cell + columns)
      const across = links?.[cell] ?? -1
      if (across >= 0 && effort[across] === Infinity) queue.lower(across, arrival + linkEffortMm)
    }
    return reached
  }
  return { effortMm: effort, order, run }
}

interface CellQueue {
  /** The waiting cell with the lowest key, or -1. */
  first(): number
  keyOf(cell: number): number
  dropFirst(): void
  /** Puts a cell in, or lowers its key; a higher key changes nothing. */
  lower(cell: number, key: number): void
  clear(): void
}

/** A binary min-heap of cells with back pointers, over typed arrays. */
function createQueue(size: number): CellQueue {
  const key = new Float64Array(size).fill(Infinity)
  const heap = new Int32Array(size + 2)
  const slot = new Int32Array(size)
  let waiting = 0

  const rise = (cell: number, from: number): void => {
    const mine = key[cell] ?? 0
    let at = from
    while (at > 1) {
      const above = heap[at >> 1] ?? 0
      if ((key[above] ?? 0) <= mine) break
      heap[at] = above
      slot[above] = at
      at >>= 1
    }
    heap[at] = cell
    slot[cell] = at
  }

  const sink = (cell: number): void => {
    const mine = key[cell] ?? 0
    let at = 1
    for (let child = 2; child <= waiting; child = at * 2) {
      let below = heap[child] ?? 0
      let least = key[below] ?? 0
      if (child < waiting) {
        const other = heap[child + 1] ?? 0
        const otherKey = key[other] ?? 0
        if (otherKey < least) {
          child++
          below = other
          least = otherKey
        }
      }
      if (least >= mine) break
      heap[at] = below
      slot[below] = at
      at = child
    }
    heap[at] = cell
    slot[cell] = at
  }

  return {
    first: () => (waiting === 0 ? -1 : (heap[1] ?? -1)),
    keyOf: (cell) => key[cell] ?? Infinity,
    dropFirst: () => {
      const gone = heap[1] ?? 0
      key[gone] = Infinity
      slot[gone] = 0
      const last = heap[waiting--] ?? 0
      if (waiting > 0) sink(last)
    },
    lower: (cell, value) => {
      if (value >= (key[cell] ?? 0)) return
      key[cell] = value
      const at = slot[cell] ?? 0
      rise(cell, at === 0 ? ++waiting : at)
    },
    clear: () => {
      for (let i = 1; i <= waiting; i++) {
        const cell = heap[i] ?? 0
        key[cell] = Infinity
        slot[cell] = 0
      }
      waiting = 0
    },
  }
}
