/**
 * Gauss elimination over GF(2) for rows of up to 52 columns, fed row by row: for the many small systems of the search
 * and for 100,000 rows at once. `base/gf2.ts` does the same for few rows and any width.
 */
import { bitsOf, COLUMNS, HALF_BITS, highestBit, highOf, joinHalves, lowOf, parity32, xorOf } from './halves.ts'

export interface Elimination {
  readonly clear: () => void
  /** @returns false where the row is a sum of rows before it */
  readonly insert: (low: number, high: number) => boolean
  readonly rank: () => number
  /** A basis of all masks within `columns` that have even parity on every row; ascending by their free column. */
  readonly complement: (columns: number) => number[]
}

/** An empty system of 52 columns. Rows come as two halves of 26 bits, and the rank never exceeds 52. */
export function elimination(): Elimination {
  const lows = new Int32Array(COLUMNS)
  const highs = new Int32Array(COLUMNS)
  const filled = new Uint8Array(COLUMNS)
  let rank = 0

  const insert = (rowLow: number, rowHigh: number): boolean => {
    let low = rowLow
    let high = rowHigh
    // From the top bit down: what no row before it cancels is independent, and keeps its highest bit as a pivot.
    while ((low | high) !== 0) {
      const pivot = highestBit(low, high)
      if (filled[pivot] === 0) {
        filled[pivot] = 1
        lows[pivot] = low
        highs[pivot] = high
        rank++
        return true
      }
      low ^= lows[pivot] ?? 0
      high ^= highs[pivot] ?? 0
    }
    return false
  }

  const complement = (columns: number): number[] => {
    const [asksLow, asksHigh] = [lowOf(columns), highOf(columns)]
    const masks: number[] = []
    for (let free = 0; free < COLUMNS; free++) {
      if (filled[free] === 1 || bitOfHalves(asksLow, asksHigh, free) === 0) continue
      // One mask a free column: its bit, and from there up each pivot that makes the parity of its own row even.
      let low = free < HALF_BITS ? 1 << free : 0
      let high = free < HALF_BITS ? 0 : 1 << (free - HALF_BITS)
      for (let pivot = free + 1; pivot < COLUMNS; pivot++) {
        if (filled[pivot] === 0) continue
        if (parity32(((lows[pivot] ?? 0) & low) ^ ((highs[pivot] ?? 0) & high)) === 0) continue
        if (pivot < HALF_BITS) low |= 1 << pivot
        else high |= 1 << (pivot - HALF_BITS)
      }
      masks.push(joinHalves(low, high))
    }
    return masks
  }

  const clear = (): void => {
    filled.fill(0)
    rank = 0
  }
  return { clear, insert, rank: () => rank, complement }
}

const bitOfHalves = (low: number, high: number, bit: number): number =>
  bit < HALF_BITS ? (low >>> bit) & 1 : (high >>> (bit - HALF_BITS)) & 1

/** Reduced row echelon form of masks below 2^52, highest pivot first, zero rows dropped. */
export function reducedMasks(masks: readonly number[]): number[] {
  const basis: { low: number; high: number; pivot: number }[] = []
  for (const mask of masks) {
    let low = lowOf(mask)
    let high = highOf(mask)
    for (const row of basis) {
      if (bitOfHalves(low, high, row.pivot) === 0) continue
      low ^= row.low
      high ^= row.high
    }
    if ((low | high) === 0) continue
    const pivot = highestBit(low, high)
    for (const row of basis) {
      if (bitOfHalves(row.low, row.high, pivot) === 0) continue
      row.low ^= low
      row.high ^= high
    }
    basis.push({ low, high, pivot })
  }
  return basis.toSorted((a, b) => b.pivot - a.pivot).map(({ low, high }) => joinHalves(low, high))
}

/** Adds a mask below 2^52 as a row. @returns false where it is a sum of rows before it */
export const insertMask = (system: Elimination, mask: number): boolean => system.insert(lowOf(mask), highOf(mask))

/** Is the mask a sum of some of the others? */
export function isSpanned(mask: number, by: readonly number[]): boolean {
  const system = elimination()
  for (const other of by) insertMask(system, other)
  return !insertMask(system, mask)
}

const MOST_LIGHT = 12

/**
 * A basis of the same space with as few bits as can be, lightest first: each is the lightest mask that the ones before it
 * do not span. More than 12 masks come back as they are.
 */
export function lightestMasks(masks: readonly number[]): readonly number[] {
  if (masks.length > MOST_LIGHT) return masks
  let sums = [0]
  for (const mask of masks) sums = [...sums, ...sums.map((sum) => xorOf(sum, mask))]
  const byWeight = sums
    .slice(1)
    .map((mask) => ({ mask, weight: bitsOf(mask).length }))
    .toSorted((a, b) => a.weight - b.weight || a.mask - b.mask)
  const system = elimination()
  return byWeight.flatMap(({ mask }) => (insertMask(system, mask) ? [mask] : []))
}
