/**
 * The columns over which the proofs do their algebra. A column is one bit that can take both values: a bit of the
 * address, or a bit of a mod digit's quotient. A rest is the columns it keeps of its parent, below its quotient's.
 *
 * On a chain (each mod digit reads what the one before it left) the address and (residues, last rest) determine each
 * other: where the gathered bits take every value below a multiple of the modulus, the residue takes each value equally
 * often, and for each of them the rest runs over the same interval.
 */
import type { AddressPlan, LinearBit, RestSource } from './plan.ts'

/** Column bit `source * COLUMN_STRIDE + k`: address bit k, or bit k of the quotient that made source `source`. */
export const COLUMN_STRIDE = 64

export interface Interval {
  /** Column of each source bit, lowest first; undefined for a bit that is always 0. */
  readonly bits: readonly (number | undefined)[]
  /** The source takes the whole numbers below `size` of its columns, read lowest first without the constant bits. */
  readonly size: number
}

export interface Residues {
  readonly rest: RestSource
  /** How many consecutive values the gathered bits take, from 0. */
  readonly values: number
  /** The gathered bits from this address bit up run without a gap to the top of the source; else undefined. */
  readonly topRunStart: number | undefined
  /** The source's size must be a multiple of this for the residues to share it equally; 0 where no size does it. */
  readonly evenBlock: number
  readonly columns: readonly number[]
}

/** All sources of a chain; `residues` has one entry less and stops with `sources` where a rest is no interval. */
export interface Chain {
  readonly sources: readonly Interval[]
  readonly residues: readonly Residues[]
  /** False where the mod digits do not follow on each other, or a rest is no interval: the algebra does not apply. */
  readonly whole: boolean
}

/**
 * The columns of the address and of the first `restCount` rests. `whole` is false as soon as one mod digit does not
 * read what the one before it left, its rest is no interval, or its values are no multiple of its modulus; later
 * rests are then left out.
 */
export function chainOf(plan: AddressPlan, restCount: number): Chain {
  const addressSize = plan.end - plan.first
  const width = bitLength(addressSize - 1)
  const address: Interval = { bits: columnsOf(0, width), size: addressSize }
  const sources = [address]
  const residues: Residues[] = []
  for (const [i, rest] of plan.rests.slice(0, restCount).entries()) {
    const parent = sources[i]
    if (parent === undefined || rest.parent !== i) return { sources, residues, whole: false }
    const taken = residuesOf(rest, parent)
    if (taken === undefined) return { sources, residues, whole: false }
    residues.push(taken)
    if (taken.values % rest.modulus !== 0) return { sources, residues, whole: false }
    const kept = rest.kept.map((bit) => parent.bits[bit])
    const quotient = columnsOf(i + 1, bitLength(taken.values / rest.modulus - 1))
    sources.push({ bits: [...kept, ...quotient], size: parent.size / rest.modulus })
  }
  return { sources, residues, whole: true }
}

/** Undefined where the gathered bits do not take consecutive values independently of the kept ones. */
function residuesOf(rest: RestSource, parent: Interval): Residues | undefined {
  const live = parent.bits.flatMap((column, bit) => (column === undefined ? [] : [{ column, bit }]))
  const gathered = live.map(({ bit }) => rest.gathered.includes(bit))
  const columns = live.filter((_, i) => gathered[i]).map(({ column }) => column)
  const topKept = gathered.lastIndexOf(false)
  if (topKept < live.length - 1) {
    const unit = 2 ** (topKept + 1)
    if (parent.size % unit !== 0) return undefined
    const lowGathered = gathered.slice(0, topKept + 1).filter(Boolean).length
    const values = (parent.size / unit) * 2 ** lowGathered
    const evenBlock = unit * (rest.modulus / greatestCommonDivisor(rest.modulus, 2 ** lowGathered))
    return { rest, values, topRunStart: live[topKept + 1]?.bit ?? 0, evenBlock, columns }
  }
  if (parent.size !== 2 ** live.length) return undefined
  return { rest, values: 2 ** columns.length, topRunStart: undefined, evenBlock: 0, columns }
}

/** The row of a linear bit over the columns; bits that are always 0 drop out. */
export function rowOf({ source, mask }: LinearBit, chain: Chain): bigint {
  let row = 0n
  for (const [bit, column] of (chain.sources[source]?.bits ?? []).entries())
    if (column !== undefined && (mask >> BigInt(bit)) & 1n) row ^= 1n << BigInt(column)
  return row
}

/** For each gathered column, the source (1 up) whose mod digit gathered it. */
export function gatheredAt(chain: Chain): ReadonlyMap<number, number> {
  return new Map(chain.residues.flatMap(({ columns }, i) => columns.map((column) => [column, i + 1] as const)))
}

/** Columns of a row, ascending. */
export function columnsIn(row: bigint): number[] {
  const columns: number[] = []
  for (let rest = row, column = 0; rest !== 0n; rest >>= 1n, column++) if (rest & 1n) columns.push(column)
  return columns
}

const columnsOf = (source: number, count: number): number[] =>
  Array.from({ length: count }, (_, k) => source * COLUMN_STRIDE + k)

/** Bits that it takes to write a whole number below 2^53; 0 for 0. */
export const bitLength = (value: number): number => (value <= 0 ? 0 : BigInt(value).toString(2).length)

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b)
}
