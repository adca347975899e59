/** The sheet as a network of conductances: what solvers share. */
import type { Sheet } from './sheet.ts'

/** Shifts values in place so that their mean is 0: without a fixed potential only differences count. */
export function takeOffMean(values: Float64Array): void {
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += values[i] ?? 0
  const mean = sum / values.length
  for (let i = 0; i < values.length; i++) values[i] = (values[i] ?? 0) - mean
}

/** Sum of the conductances at each node. */
export function diagonalOf({ cells, west, south, westPerMilliohm, southPerMilliohm }: Sheet): Float64Array {
  const diagonal = new Float64Array(cells.length)
  for (let i = 0; i < cells.length; i++) {
    const left = west[i] ?? -1
    const below = south[i] ?? -1
    const toLeft = westPerMilliohm[i] ?? 0
    const toBelow = southPerMilliohm[i] ?? 0
    diagonal[i] = (diagonal[i] ?? 0) + toLeft + toBelow
    if (left >= 0) diagonal[left] = (diagonal[left] ?? 0) + toLeft
    if (below >= 0) diagonal[below] = (diagonal[below] ?? 0) + toBelow
  }
  return diagonal
}

/** Kirchhoff's law at each node: what flows off it at these potentials. */
export function multiply(sheet: Sheet, diagonal: Float64Array, x: Float64Array, to: Float64Array): void {
  const { west, south, westPerMilliohm, southPerMilliohm } = sheet
  for (let i = 0; i < x.length; i++) to[i] = (diagonal[i] ?? 0) * (x[i] ?? 0)
  for (let i = 0; i < x.length; i++) {
    const left = west[i] ?? -1
    const below = south[i] ?? -1
    if (left >= 0) {
      const g = westPerMilliohm[i] ?? 0
      to[i] = (to[i] ?? 0) - g * (x[left] ?? 0)
      to[left] = (to[left] ?? 0) - g * (x[i] ?? 0)
    }
    if (below >= 0) {
      const g = southPerMilliohm[i] ?? 0
      to[i] = (to[i] ?? 0) - g * (x[below] ?? 0)
      to[below] = (to[below] ?? 0) - g * (x[i] ?? 0)
    }
  }
}
