/** Streaks from every cell of the board, and for each target from which of them it is reached: dragging looks them up. */
import { cellCentre, cellCount, type Point } from '../base/index.ts'
import type { Load } from './film.ts'
import type { Site } from './site.ts'
import { firstOnStreak, type Streaks } from './streak-arrivals.ts'
import { streaksFrom } from './streaks.ts'
import type { Target } from './targets.ts'
import type { EffortWindow } from './window.ts'

export interface StreakBoard {
  readonly streaks: Streaks
  /** Cells of the spill's side to streaks; -1 where nothing lands. */
  readonly streakOf: Int32Array
  readonly maps: Map<string, LevelMap>
}

/** For the streaks that start in a rectangle of cells, the lowest level that reaches a target; elsewhere none does. */
export interface LevelMap {
  readonly firstColumn: number
  readonly firstRow: number
  readonly columns: number
  readonly rows: number
  readonly first: Uint8Array
}

/** Same loads and same direction down, same board of streaks. */
export const streakBoardKey = (loads: readonly Load[], downDeg: number): string => JSON.stringify([downDeg, loads])

export function createStreakBoard(site: Site, loads: readonly Load[], downDeg: number): StreakBoard {
  const { terrain } = site
  const cells = cellCount(terrain.grid)
  const streakOf = new Int32Array(cells).fill(-1)
  const starts: Point[] = []
  for (let cell = 0; cell < cells; cell++) {
    if (terrain.slowness[cell] === Infinity) continue
    streakOf[cell] = starts.push(cellCentre(terrain.grid, cell)) - 1
  }
  return { streaks: streaksFrom(site, loads, downDeg, starts), streakOf, maps: new Map() }
}

/** Fills in the map of one target, whose field goes far enough for these streaks. */
export function mapTarget(board: StreakBoard, target: Target, window: EffortWindow): void {
  if (board.maps.has(target.key)) return
  const { streaks, streakOf } = board
  const { levels, grid } = streaks
  const longest = streaks.longestSteps
  const [back, up] = [-longest * streaks.stepColumns, -longest * streaks.stepRows]
  const firstColumn = Math.max(0, Math.floor(window.firstColumn + Math.min(0, back)))
  const firstRow = Math.max(0, Math.floor(window.firstRow + Math.min(0, up)))
  const endColumn = Math.min(grid.columns, Math.ceil(window.firstColumn + window.columns + Math.max(0, back)))
  const endRow = Math.min(grid.rows, Math.ceil(window.firstRow + window.rows + Math.max(0, up)))
  const columns = window.columns === 0 ? 0 : Math.max(0, endColumn - firstColumn)
  const rows = Math.max(0, endRow - firstRow)
  const first = new Uint8Array(columns * rows).fill(levels)
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const streak = streakOf[(firstRow + row) * grid.columns + firstColumn + column] ?? -1
      if (streak >= 0) first[row * columns + column] = firstOnStreak(window, streaks, streak)
    }
  }
  board.maps.set(target.key, { firstColumn, firstRow, columns, rows, first })
}

/** First levels of the streaks that start in the given cells. */
export function readMap(map: LevelMap, streaks: Streaks, starts: Int32Array, first: Uint8Array): void {
  const across = streaks.grid.columns
  for (let i = 0; i < first.length; i++) {
    const cell = starts[i] ?? 0
    const column = (cell % across) - map.firstColumn
    const row = Math.floor(cell / across) - map.firstRow
    const inside = column >= 0 && row >= 0 && column < map.columns && row < map.rows
    first[i] = inside ? (map.first[row * map.columns + column] ?? streaks.levels) : streaks.levels
  }
}
