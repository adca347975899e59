/** The least effort to each target, read off a march. */
import type { Marcher } from './march.ts'
import type { TargetCells } from './target-cells.ts'

export interface Arrivals {
  /** Reads off the first `count` cells of a marcher's last run, forgetting what was read before. */
  read(marcher: Marcher, count: number): void
  /** Numbers of the targets within an effort, ascending. */
  within(effortMm: number): Uint16Array
}

const nothing = new Uint16Array(0)

/**
 * Reads the least effort to each target, mm, off a march: over the target's cells, the cell's effort plus the
 * target's own offset there. Working arrays are kept from read to read.
 */
export function createArrivals(cells: TargetCells, targets: number): Arrivals {
  const effortMm = new Float64Array(targets).fill(Infinity)
  const touched = new Uint16Array(targets)
  const found = new Uint16Array(targets)
  let touchedCount = 0
  return {
    read: (marcher, count) => {
      for (let i = 0; i < touchedCount; i++) effortMm[touched[i] ?? 0] = Infinity
      touchedCount = 0
      for (let i = 0; i < count; i++) {
        const cell = marcher.order[i] ?? 0
        const end = cells.start[cell + 1] ?? 0
        for (let at = cells.start[cell] ?? 0; at < end; at++) {
          const target = cells.target[at] ?? 0
          const effort = (marcher.effortMm[cell] ?? 0) + (cells.offsetMm[at] ?? 0)
          const before = effortMm[target] ?? Infinity
          if (before === Infinity) touched[touchedCount++] = target
          if (effort < before) effortMm[target] = effort
        }
      }
      touched.subarray(0, touchedCount).sort()
    },
    within: (limitMm) => {
      let count = 0
      for (let i = 0; i < touchedCount; i++) {
        const target = touched[i] ?? 0
        if ((effortMm[target] ?? Infinity) <= limitMm) found[count++] = target
      }
      return count === 0 ? nothing : found.slice(0, count)
    },
  }
}
