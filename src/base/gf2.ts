/**
 * Linear algebra over GF(2), the field of two elements. A row is a bigint whose bit i is column i, so that an address
 * mask is a row as it stands. For matrices of tens of rows; the hot path of decoding uses tables instead.
 */

/** Parity (0 or 1) of the bits that are set. */
export function parity(value: bigint): 0 | 1 {
  let rest = value
  let odd: 0 | 1 = 0
  while (rest !== 0n) {
    rest &= rest - 1n
    odd = odd === 0 ? 1 : 0
  }
  return odd
}

/** Reduced row echelon form, zero rows dropped, highest pivot first. */
export function reducedRows(rows: readonly bigint[]): bigint[] {
  const basis: bigint[] = []
  for (const row of rows) {
    let rest = row
    for (const pivotRow of basis) if ((rest >> topBit(pivotRow)) & 1n) rest ^= pivotRow
    if (rest === 0n) continue
    const pivot = topBit(rest)
    for (let i = 0; i < basis.length; i++) {
      const other = basis[i] ?? 0n
      if ((other >> pivot) & 1n) basis[i] = other ^ rest
    }
    basis.push(rest)
    basis.sort((p, q) => (p < q ? 1 : -1))
  }
  return basis
}

/** How many of the rows are linearly independent over GF(2); rows of zero and repeated rows add nothing. */
export const rank = (rows: readonly bigint[]): number => reducedRows(rows).length

/** The first row that is a sum of rows before it, or undefined when all are independent. */
export function firstDependentRow(rows: readonly bigint[]): number | undefined {
  let basis: bigint[] = []
  for (const [i, row] of rows.entries()) {
    const next = reducedRows([...basis, row])
    if (next.length === basis.length) return i
    basis = next
  }
  return undefined
}

/** A basis of all x of `columns` bits with parity(row AND x) = 0 for every row: the orthogonal complement. */
export function nullSpace(rows: readonly bigint[], columns: number): bigint[] {
  const basis = reducedRows(rows)
  const pivots = basis.map(topBit)
  const free: bigint[] = []
  for (let column = 0n; column < BigInt(columns); column++) {
    if (pivots.includes(column)) continue
    let vector = 1n << column
    for (const [i, row] of basis.entries()) if ((row >> column) & 1n) vector |= 1n << (pivots[i] ?? 0n)
    free.push(vector)
  }
  return free
}

const topBit = (value: bigint): bigint => BigInt(value.toString(2).length - 1)
