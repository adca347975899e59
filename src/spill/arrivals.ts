/** Which targets each place and amount reaches. More of a substance reaches no less, so one number a place says it all. */
import type { FieldStore, Need } from './fields.ts'
import type { Places } from './places.ts'
import type { CellWindow } from './raster.ts'
import { firstOnStreak, type Streaks } from './streak-arrivals.ts'
import { readMap, type StreakBoard } from './streak-board.ts'
import type { Target } from './targets.ts'
import type { EffortWindow } from './window.ts'

/** All the ways in which a spill may have gone: places × amount levels. */
export interface Spread {
  readonly places: Places
  /** Weight of each amount level, ascending amounts; they sum to one. */
  readonly levelWeights: Float64Array
  /** Entry j: weight of level j and all above it; one more entry, which is 0. */
  readonly tailWeights: Float64Array
  /** Effort radius in mm at place i and level j: entry i · levels + j, not falling with j. */
  readonly radiusMm: Float64Array
  /** Streaks downhill from each place, or undefined where nothing runs. */
  readonly streaks: Streaks | undefined
  /** The same from every cell, where they were worked out ahead. */
  readonly board: StreakBoard | undefined
  /** First levels of a target that nothing reaches. */
  readonly never: Uint8Array
  /** How far a target's field has to go for this spread. */
  readonly need: Need
}

/** Per place the lowest level that reaches the target; the number of levels where none does. */
export function firstLevels(target: Target, fields: FieldStore, spread: Spread): Uint8Array {
  const map = spread.board?.maps.get(target.key)
  const window = map ?? fields.of(target, spread.need)
  const span = spread.streaks && map === undefined ? spread.streaks.cells : spread.places.cells
  if (!overlaps(window, span)) return spread.never
  const first = new Uint8Array(spread.never.length)
  if (map !== undefined && spread.streaks) readMap(map, spread.streaks, spread.places.landing, first)
  else if ('effortMm' in window) fillFrom(window, spread, first)
  return first
}

function fillFrom(window: EffortWindow, spread: Spread, first: Uint8Array): void {
  const { streaks } = spread
  if (streaks === undefined) return fillFromPoints(first, window, spread)
  for (let i = 0; i < first.length; i++) first[i] = firstOnStreak(window, streaks, i)
}

const overlaps = (
  window: Pick<EffortWindow, 'firstColumn' | 'firstRow' | 'columns' | 'rows'>,
  cells: CellWindow,
): boolean =>
  cells.lastColumn + 1 >= window.firstColumn &&
  cells.firstColumn < window.firstColumn + window.columns &&
  cells.lastRow + 1 >= window.firstRow &&
  cells.firstRow < window.firstRow + window.rows

/** Bilinear in each place's four cells. This is the loop that a drag spends its time in. */
function fillFromPoints(first: Uint8Array, window: EffortWindow, spread: Spread): void {
  const { radiusMm } = spread
  const { column, row, weights } = spread.places.spots
  const { firstColumn, firstRow, columns, rows, effortMm } = window
  const levels = spread.levelWeights.length
  for (let i = 0; i < first.length; i++) {
    const x = (column[i] ?? 0) - firstColumn
    const y = (row[i] ?? 0) - firstRow
    let level = levels
    if (x >= 0 && y >= 0 && x + 1 < columns && y + 1 < rows) {
      const at = y * columns + x
      const w = i * 4
      const effort =
        (weights[w] ?? 0) * (effortMm[at] ?? 0) +
        (weights[w + 1] ?? 0) * (effortMm[at + 1] ?? 0) +
        (weights[w + 2] ?? 0) * (effortMm[at + columns] ?? 0) +
        (weights[w + 3] ?? 0) * (effortMm[at + columns + 1] ?? 0)
      const base = i * levels
      if (effort <= (radiusMm[base] ?? 0)) level = 0
      else if (effort <= (radiusMm[base + levels - 1] ?? 0)) {
        level = 1
        while (effort > (radiusMm[base + level] ?? 0)) level++
      }
    }
    first[i] = level
  }
}

/** Probability that a target is reached, from its first levels. */
export function probabilityOf(first: Uint8Array, spread: Spread): number {
  if (first === spread.never) return 0
  const { tailWeights } = spread
  const { weights } = spread.places
  let sum = 0
  for (let i = 0; i < first.length; i++) sum += (weights[i] ?? 0) * (tailWeights[first[i] ?? 0] ?? 0)
  return Math.min(1, Math.max(0, sum))
}

/** For each level its weight and that of all above it, and a 0 at the end. */
export function tailsOf(levelWeights: Float64Array): Float64Array {
  const tails = new Float64Array(levelWeights.length + 1)
  for (let j = levelWeights.length - 1; j >= 0; j--) tails[j] = (tails[j + 1] ?? 0) + (levelWeights[j] ?? 0)
  return tails
}

/** First levels of "any of these": the least, place by place. */
export function leastLevels(all: readonly Uint8Array[]): Uint8Array {
  const least = Uint8Array.from(all[0] ?? [])
  for (const one of all) {
    for (let i = 0; i < least.length; i++) {
      const level = one[i] ?? 0
      if (level < (least[i] ?? 0)) least[i] = level
    }
  }
  return least
}

/** First levels of a target that nothing reaches. */
export const neverReached = (places: number, levels: number): Uint8Array => new Uint8Array(places).fill(levels)

/** The farthest that any place and amount gets. */
export function farthestMm(radiusMm: Float64Array): number {
  let farthest = 0
  for (let i = 0; i < radiusMm.length; i++) farthest = Math.max(farthest, radiusMm[i] ?? 0)
  return farthest
}
