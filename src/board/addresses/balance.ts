/**
 * Is a sum of linear channel bits 1 exactly as often as 0, whatever the residues are? By characters: the channel
 * number is evenly spread if and only if each sum of some of its linear bits, times each character of its residues, has
 * the mean 0 (the XOR lemma, and its form for cyclic groups).
 */
import { parity } from '../../base/index.ts'
import { type Chain, COLUMN_STRIDE, columnsIn, gatheredAt, type Interval } from './columns.ts'

export type Balance = 'even' | 'uneven' | 'undecided'

/** @returns a judge of rows over the chain's columns; the chain must be whole and its residues evenly covered */
export function balanceJudge(chain: Chain): (row: bigint) => Balance {
  const gatheredBy = gatheredAt(chain)
  const last = chain.sources.at(-1)
  if (last === undefined) return () => 'undecided'
  const place = new Map(last.bits.filter((column) => column !== undefined).map((column, i) => [column, i]))
  return (row) => {
    if (row === 0n) return 'uneven'
    const columns = columnsIn(row)
    const stages = columns.flatMap((column) => gatheredBy.get(column) ?? [])
    if (stages.length === 0) return parityBalance(maskOver(columns, place), last)
    if (columns.some((column) => flipsFreely(column, Math.min(...stages), place, last.size))) return 'even'
    return cancelsUnderResidue(columns, chain) ? 'even' : 'undecided'
  }
}

/**
 * A column that no mod digit gathers, and that belongs to a source before those whose gathered bits the row reads, can
 * be flipped without touching a residue or any other bit of the row: the two halves pair off.
 */
function flipsFreely(
  column: number,
  firstStage: number,
  place: ReadonlyMap<number, number>,
  lastSize: number,
): boolean {
  const at = place.get(column)
  return at !== undefined && Math.floor(column / COLUMN_STRIDE) < firstStage && lastSize % 2 ** (at + 1) === 0
}

/**
 * One residue of odd modulus m: with the bits below its top run fixed, m consecutive values of the run give each residue
 * once. So a row that reads only bits below the run is independent of the residue, and even by itself.
 */
function cancelsUnderResidue(columns: readonly number[], chain: Chain): boolean {
  const only = chain.residues[0]
  if (chain.residues.length !== 1 || only?.topRunStart === undefined || only.rest.modulus % 2 === 0) return false
  const start = only.topRunStart
  return columns.every((column) => column < start)
}

const maskOver = (columns: readonly number[], place: ReadonlyMap<number, number>): bigint =>
  columns.reduce((mask, column) => mask | (1n << BigInt(place.get(column) ?? 0)), 0n)

/**
 * Exact: [0, size) is cut into aligned pieces of 2^p by the binary digits of its size; on a piece the parity is even
 * unless the mask has no bit below p, and then it is constant.
 */
function parityBalance(mask: bigint, { size }: Interval): Balance {
  let ones = 0n
  let base = 0n
  const total = BigInt(size)
  for (let p = BigInt(total.toString(2).length - 1); p >= 0n; p--) {
    if (((total >> p) & 1n) === 0n) continue
    if ((mask & ((1n << p) - 1n)) === 0n) ones += parity(mask & base) === 0 ? 1n << p : -(1n << p)
    base += 1n << p
  }
  return ones === 0n ? 'even' : 'uneven'
}
