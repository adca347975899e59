/**
 * The hot loop: channel numbers of many addresses. Where every linear channel digit reads the address itself and at
 * most one digit is a residue, one table entry carries both: XOR word below bit 16, residue above it.
 */
import type { AddressPlan, NumberPlan } from './plan.ts'
import { numberReader, spreadOf } from './sources.ts'
import { CHUNK_BITS, CHUNK_MASK, CHUNK_SIZE, HALF, linearTables, residueTables } from './tables.ts'

/** Fills `out[i]` with the channel number of `addresses[i]` (whole numbers), or -1 where the map has none. */
export type ChannelKernel = (addresses: Float64Array, out: Int32Array) => void

const RESIDUE_SHIFT = 16
/** Residues are below 64 and four are summed. */
const RESIDUE_SUMS = 256

export function channelKernel(plan: AddressPlan): ChannelKernel {
  const { channel } = plan
  const residues = channel.terms.filter(({ kind }) => kind === 'residue')
  const fromAddress = channel.bits.every(({ source }) => source === 0) && plan.rests[0]?.parent !== 1
  if (!fromAddress || residues.length > 1 || channel.bits.length > RESIDUE_SHIFT - 2) return generalKernel(plan)
  return residues.length === 0 ? linearKernel(plan) : residueKernel(plan)
}

function generalKernel(plan: AddressPlan): ChannelKernel {
  const spread = spreadOf(plan)
  const read = numberReader(plan.channel, spread)
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

function linearKernel(plan: AddressPlan): ChannelKernel {
  const table = linearTables(plan.channel.bits.map((bit, place) => ({ bit, place })))
  const { first } = plan
  const size = plan.end - first
  return (addresses, out) => {
    for (let i = 0; i < addresses.length; i++) {
      const offset = (addresses[i] ?? -1) - first
      if (offset >= 0 && offset < size) {
        const high = (offset * (1 / HALF)) | 0
        const low = (offset - high * HALF) | 0
        out[i] =
          (table[low & CHUNK_MASK] ?? 0) ^
          (table[CHUNK_SIZE | (low >>> CHUNK_BITS)] ?? 0) ^
          (table[(2 * CHUNK_SIZE) | (high & CHUNK_MASK)] ?? 0) ^
          (table[(3 * CHUNK_SIZE) | (high >>> CHUNK_BITS)] ?? 0)
      } else out[i] = -1
    }
  }
}

function residueKernel(plan: AddressPlan): ChannelKernel {
  const table = packedTables(plan)
  const ofWord = wordPlaces(plan.channel)
  const ofSum = residuePlaces(plan)
  const wordMask = ofWord.length - 1
  const { first } = plan
  const size = plan.end - first
  return (addresses, out) => {
    for (let i = 0; i < addresses.length; i++) {
      const offset = (addresses[i] ?? -1) - first
      if (offset >= 0 && offset < size) {
        const high = (offset * (1 / HALF)) | 0
        const low = (offset - high * HALF) | 0
        const a = table[low & CHUNK_MASK] ?? 0
        const b = table[CHUNK_SIZE | (low >>> CHUNK_BITS)] ?? 0
        const c = table[(2 * CHUNK_SIZE) | (high & CHUNK_MASK)] ?? 0
        const d = table[(3 * CHUNK_SIZE) | (high >>> CHUNK_BITS)] ?? 0
        // The words below bit 16 are of at most 14 bits, so that four of them sum up without a carry into the residues.
        out[i] = (ofWord[(a ^ b ^ c ^ d) & wordMask] ?? 0) + (ofSum[(a + b + c + d) >>> RESIDUE_SHIFT] ?? 0)
      } else out[i] = -1
    }
  }
}

function packedTables(plan: AddressPlan): Int32Array {
  const rest = plan.rests[0]
  const table = linearTables(plan.channel.bits.map((bit, place) => ({ bit, place })))
  if (rest === undefined) return table
  const residues = residueTables(rest.gathered, rest.modulus)
  return table.map((word, i) => word | ((residues[i] ?? 0) << RESIDUE_SHIFT))
}

/** What each word of linear bits adds to the number. */
function wordPlaces(plan: NumberPlan): Int32Array {
  return Int32Array.from({ length: 2 ** plan.bits.length }, (_, word) =>
    plan.terms.reduce(
      (sum, term) =>
        term.kind === 'bits' ? sum + ((word >>> term.lowest) & (2 ** term.width - 1)) * term.weight : sum,
      0,
    ),
  )
}

/** What each sum of four residues adds to the number. */
function residuePlaces(plan: AddressPlan): Int32Array {
  const weight = plan.channel.terms.find(({ kind }) => kind === 'residue')?.weight ?? 0
  const modulus = plan.rests[0]?.modulus ?? 1
  return Int32Array.from({ length: RESIDUE_SUMS }, (_, sum) => (sum % modulus) * weight)
}
