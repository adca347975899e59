/**
 * The ways to compute one number of the map (channel, row, bank or column) for many addresses. Maps with at most one
 * mod digit, which is nearly all of them, need only table lookups and a product; the rest take the general way.
 */
import type { AddressPlan, LinearBit, NumberPlan } from './plan.ts'
import { numberReader, spreadOf } from './sources.ts'
import {
  decodeByResidue,
  decodeByTopQuotient,
  decodeLinear,
  decodeMixed,
  RESIDUE_SHIFT,
  RESIDUE_SUMS,
} from './loops.ts'
import { bitRuns, linearTables, residueTables } from './tables.ts'

/** Fills `out[i]` with the number of `addresses[i]` (whole numbers), or -1 where the map has none. */
export type BulkKernel = (addresses: Float64Array, out: Int32Array) => void

/** A table of what each word of linear bits adds to the number is kept up to so many bits. */
const MAX_WORD_BITS = 12
/** Gathered numbers below this are small integers in V8 and other engines. */
const SMALL_INTEGERS = 2 ** 31

/**
 * The cheapest exact kernel for one number of the map: tables alone where nothing is divided, one product where it
 * rests on one mod digit, else the general way.
 */
export function bulkKernel(plan: AddressPlan, number: NumberPlan): BulkKernel {
  const plain = number.terms.length === 1 && number.terms[0]?.kind === 'bits'
  if (plan.rests.length > 1 || (!plain && number.bits.length > MAX_WORD_BITS)) return generalKernel(plan, number)
  const { ofAddress, ofQuotient } = bitsBySource(plan, number)
  if (ofQuotient.length > 0) return quotientKernel(plan, number, ofAddress, ofQuotient)
  return plain ? linearKernel(plan, linearTables(ofAddress)) : residueKernel(plan, number, ofAddress)
}

interface PlacedBit {
  readonly bit: LinearBit
  readonly place: number
}

/** Splits each linear bit into what it reads of the address and what it reads of the one quotient. */
function bitsBySource(plan: AddressPlan, number: NumberPlan): { ofAddress: PlacedBit[]; ofQuotient: PlacedBit[] } {
  const ofAddress: PlacedBit[] = []
  const ofQuotient: PlacedBit[] = []
  const kept = plan.rests[0]?.kept ?? []
  for (const [place, bit] of number.bits.entries()) {
    if (bit.source === 0) {
      ofAddress.push({ bit, place })
      continue
    }
    const keptMask = kept.reduce(
      (mask, column, i) => ((bit.mask >> BigInt(i)) & 1n ? mask | (1n << BigInt(column)) : mask),
      0n,
    )
    const quotientMask = bit.mask >> BigInt(kept.length)
    if (keptMask !== 0n) ofAddress.push({ bit: { ...bit, mask: keptMask }, place })
    if (quotientMask !== 0n) ofQuotient.push({ bit: { ...bit, mask: quotientMask }, place })
  }
  return { ofAddress, ofQuotient }
}

function generalKernel(plan: AddressPlan, number: NumberPlan): BulkKernel {
  const spread = spreadOf(plan)
  const read = numberReader(number, spread)
  const { first } = plan
  const size = plan.end - first
  return (addresses, out) => {
    for (let i = 0; i < addresses.length; i++) {
      const offset = (addresses[i] ?? -1) - first
      if (offset >= 0 && offset < size) {
        spread.set(offset)
        out[i] = read()
      } else out[i] = -1
    }
  }
}

function linearKernel(plan: AddressPlan, table: Int32Array): BulkKernel {
  const { first } = plan
  const size = plan.end - first
  return (addresses, out) => decodeLinear(addresses, out, { first, size, table })
}

/** All linear bits read the address: one table entry carries the XOR word and, above it, the residue. */
function residueKernel(plan: AddressPlan, number: NumberPlan, ofAddress: readonly PlacedBit[]): BulkKernel {
  const { gathered = [], modulus = 1 } = plan.rests[0] ?? {}
  const { first } = plan
  const weight = residueWeight(number)
  const residues = residueTables(gathered, modulus)
  const tables = {
    first,
    size: plan.end - first,
    table: linearTables(ofAddress).map((word, i) => word | ((residues[i] ?? 0) << RESIDUE_SHIFT)),
    ofWord: wordPlaces(number),
    ofSum: Int32Array.from({ length: RESIDUE_SUMS }, (_, sum) => (sum % modulus) * weight),
  }
  return (addresses, out) => decodeByResidue(addresses, out, tables)
}

/** Some linear bits read the quotient, and perhaps others the address. */
function quotientKernel(
  plan: AddressPlan,
  number: NumberPlan,
  ofAddress: readonly PlacedBit[],
  ofQuotient: readonly PlacedBit[],
): BulkKernel {
  const { gathered = [], modulus = 1 } = plan.rests[0] ?? {}
  const { first } = plan
  const runs = bitRuns(gathered)
  const plain = number.terms.every((term) => term.kind === 'residue' || term.weight === 1)
  const tables = {
    first,
    size: plan.end - first,
    table: linearTables(ofQuotient),
    modulus,
    weight: residueWeight(number),
  }
  const down = runs[0]?.down ?? 1
  const toTop = runs.length === 1 && gathered.at(-1) === plan.addressBits - 1
  const small = tables.size * down <= SMALL_INTEGERS && plan.addressBits < 52
  if (toTop && small && plain && ofAddress.length === 0) {
    const topTables = { ...tables, down }
    return (addresses, out) => decodeByTopQuotient(addresses, out, topTables)
  }
  const ofWord = plain ? undefined : wordPlaces(number)
  const mixed = { ...tables, addressTable: linearTables(ofAddress), ofWord, runs }
  return (addresses, out) => decodeMixed(addresses, out, mixed)
}

/** What each word of linear bits adds to the number. */
function wordPlaces(number: NumberPlan): Int32Array {
  return Int32Array.from({ length: 2 ** number.bits.length }, (_, word) =>
    number.terms.reduce(
      (sum, term) =>
        term.kind === 'bits' ? sum + ((word >>> term.lowest) & (2 ** term.width - 1)) * term.weight : sum,
      0,
    ),
  )
}

const residueWeight = (number: NumberPlan): number => number.terms.find(({ kind }) => kind === 'residue')?.weight ?? 0
