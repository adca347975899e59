/**
 * How a substance really spread: cells are wetted in the order of their first passage, each with a passage time of its own
 * (first-passage percolation: Hammersley and Welsh 1965), slower uphill and faster downhill, drawn under bodies or stopped
 * at gaps that happen to be closed, until the volume is used up. Rough by chance where the inference's own is smooth.
 */
import type { Point, Random } from '../../base/index.ts'
import { between, chance } from './draw.ts'
import { cellAt, centreOf, type Ground } from './ground.ts'
import type { WetCells } from './types.ts'

export interface Pour {
  /** Where it starts; several points for a bead. */
  readonly from: readonly Point[]
  readonly volumeMm3: number
  /** Height on bare board, and of what fills the gap under a body. */
  readonly bareMm: number
  readonly gapMm: number
  /** Time to pass a cell under a body, where 1 is a bare one. */
  readonly underBody: number
  /** How deep under a body it comes at all; Infinity for what is drawn in. */
  readonly deepestMm: number
  /** Degrees counter-clockwise from x; undefined where the card lay flat. */
  readonly downDeg: number | undefined
  /** How much faster downhill than across: 0 for what does not run. */
  readonly runs: number
  /** Share of bodies whose gap is closed. */
  readonly closed: number
}

const BLOCKED = 0.05
const ROUGHNESS = 0.55
const NEIGHBOURS = [
  [1, 0, 1],
  [-1, 0, 1],
  [0, 1, 1],
  [0, -1, 1],
  [1, 1, Math.SQRT2],
  [1, -1, Math.SQRT2],
  [-1, 1, Math.SQRT2],
  [-1, -1, Math.SQRT2],
] as const

/**
 * Wets cells from the points where it landed until the volume in mm³ is spent, the front stops or nothing is left to
 * reach. Points off the board wet nothing.
 */
export function pour(ground: Ground, { from, ...rest }: Pour, random: Random): WetCells {
  const { columns, rows, board, body, depthMm } = ground
  const closed = ground.bodies.map(() => chance(random, rest.closed))
  const deepest = ground.bodies.map(() => rest.deepestMm * between(random, 0.5, 1.3))
  const down = rest.downDeg === undefined ? undefined : (rest.downDeg * Math.PI) / 180
  const [downX, downY] = down === undefined ? [0, 0] : [Math.cos(down), Math.sin(down)]
  const roughness = new Map<number, number>()
  const passage = (cell: number): number => {
    const known = roughness.get(cell)
    if (known !== undefined) return known
    const drawn = chance(random, BLOCKED) ? Infinity : Math.exp(ROUGHNESS * random.normal())
    roughness.set(cell, drawn)
    return drawn
  }
  const time = new Map<number, number>()
  const queue = newQueue()
  for (const point of from) {
    const cell = cellAt(ground, point)
    if (board[cell] !== 1) continue
    time.set(cell, 0)
    queue.push(0, cell)
  }
  const cells = new Uint8Array(columns * rows)
  let left = rest.volumeMm3
  while (left > 0) {
    const next = queue.pop()
    if (next === undefined) break
    if (cells[next.cell] === 1) continue
    cells[next.cell] = 1
    const over = body[next.cell] ?? -1
    left -= ground.cellMm ** 2 * (over >= 0 ? rest.gapMm : rest.bareMm)
    const column = next.cell % columns
    const row = Math.floor(next.cell / columns)
    for (const [dx, dy, length] of NEIGHBOURS) {
      const x = column + dx
      const y = row + dy
      if (x < 0 || y < 0 || x >= columns || y >= rows) continue
      const cell = y * columns + x
      if (board[cell] !== 1 || cells[cell] === 1) continue
      const under = body[cell] ?? -1
      if (under >= 0 && (closed[under] || (depthMm[cell] ?? 0) > (deepest[under] ?? 0))) continue
      const downhill = ((dx * downX + dy * downY) / length) * rest.runs
      const slope = downhill >= 0 ? 1 / (1 + 4 * downhill) : 1 - 3 * downhill
      const step = length * slope * passage(cell) * (under >= 0 ? rest.underBody : 1)
      const arrival = next.time + step
      if (arrival >= (time.get(cell) ?? Infinity)) continue
      time.set(cell, arrival)
      queue.push(arrival, cell)
    }
  }
  const { side, cellMm, minX, minY } = ground
  return { side, cellMm, columns, rows, minX, minY, cells }
}

/** Share of the cells that are wet. */
export function wetShare(wet: WetCells, cells: Int32Array): number {
  if (cells.length === 0) return 0
  let count = 0
  for (const cell of cells) count += wet.cells[cell] ?? 0
  return count / cells.length
}

/** Whether anything within a radius of a point is wet. */
export function isWetNear(wet: WetCells, at: Point, radiusMm: number): boolean {
  const reach = Math.ceil(radiusMm / wet.cellMm)
  const middle = cellAt(wet, at)
  for (let dy = -reach; dy <= reach; dy++) {
    for (let dx = -reach; dx <= reach; dx++) {
      const cell = middle + dy * wet.columns + dx
      if (wet.cells[cell] !== 1) continue
      const centre = centreOf(wet, cell)
      if (Math.hypot(centre.x - at.x, centre.y - at.y) <= radiusMm) return true
    }
  }
  return false
}

interface Queue {
  readonly push: (time: number, cell: number) => void
  readonly pop: () => { readonly time: number; readonly cell: number } | undefined
}

/** A binary heap, least time first. */
function newQueue(): Queue {
  const times: number[] = []
  const cells: number[] = []
  const swap = (a: number, b: number): void => {
    ;[times[a], times[b]] = [times[b] ?? 0, times[a] ?? 0]
    ;[cells[a], cells[b]] = [cells[b] ?? 0, cells[a] ?? 0]
  }
  const earlier = (a: number, b: number): boolean => (times[a] ?? Infinity) < (times[b] ?? Infinity)
  const push = (time: number, cell: number): void => {
    if (time === Infinity) return
    let at = times.push(time) - 1
    cells.push(cell)
    while (at > 0) {
      const parent = (at - 1) >> 1
      if (!earlier(at, parent)) break
      swap(at, parent)
      at = parent
    }
  }
  const pop: Queue['pop'] = () => {
    const time = times[0]
    const cell = cells[0]
    if (time === undefined || cell === undefined) return undefined
    swap(0, times.length - 1)
    times.pop()
    cells.pop()
    for (let at = 0; ; ) {
      const child = 2 * at + 1
      const least = earlier(child + 1, child) ? child + 1 : child
      if (least >= times.length || !earlier(least, at)) break
      swap(least, at)
      at = least
    }
    return { time, cell }
  }
  return { push, pop }
}
