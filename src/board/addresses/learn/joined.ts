/**
 * Functions of the address and functions of the rest, put together without saying one twice. Bits that the mod digit does
 * not gather are in both; the quotient's lowest bit follows from the residue and a gathered bit; and near the top a few
 * address bits nearly make a bit of the quotient, so that a function of one kind fits almost as the true one of the other.
 */
import type { Random } from '../../../base/index.ts'
import { lightestMasks } from './elimination.ts'
import { wordsOf } from './groups.ts'
import { halvesOf, parity32 } from './halves.ts'
import { type Residue, residuesOf } from './residues.ts'
import { restsOf } from './rest.ts'

export interface LearntFunction {
  readonly mask: number
  /** What the mask is over: the address, or the rest that the mod digit leaves of it. */
  readonly from: 'address' | 'rest'
}

export interface Offered extends LearntFunction {
  /** Rows that contradict it. */
  readonly violated: number
}

export interface AddressRange {
  readonly lowest: number
  readonly highest: number
}

export interface Setting {
  readonly residue: Residue
  readonly addressBits: number
  readonly range: AddressRange
  /** Draws addresses to compare functions on. */
  readonly random: Random
}

const COMPARED_ADDRESSES = 1500
/** Two functions that differ, for a given residue, on a smaller share of all addresses are taken for one. */
const LEAST_DIFFERENT = 0.2
const MOST_OFFERED = 30

/** All of the surer source, and of the other what is none of their sums. */
export function joined(offered: readonly Offered[], setting: Setting): LearntFunction[] {
  const surer = surerSource(offered)
  const ranked = [...offered.filter(({ from }) => from === surer), ...offered.filter(({ from }) => from !== surer)]
  const differs = comparer(ranked.slice(0, MOST_OFFERED), setting)
  const chosen: number[] = []
  let sums = [0]
  for (const [place, { from }] of ranked.slice(0, MOST_OFFERED).entries()) {
    const own = 1 << place
    // Functions of one source are independent as they are; only those of the other have to be compared.
    const others = sums.filter((sum) => sum !== 0)
    if (from !== surer && !others.every((sum) => differs(sum | own))) continue
    chosen.push(place)
    if (sums.length < 256) sums = [...sums, ...sums.map((sum) => sum | own)]
  }
  return (['address', 'rest'] as const).flatMap((from) => {
    const masks = chosen.flatMap((place) => ranked.filter((one, i) => i === place && one.from === from))
    return lightestMasks(masks.map(({ mask }) => mask)).map((mask) => ({ mask, from }))
  })
}

/** The one that has more functions, unless the rows contradict one of them clearly more often than any of the other's. */
function surerSource(offered: readonly Offered[]): LearntFunction['from'] {
  const [direct, rest] = (['address', 'rest'] as const).map((from) => offered.filter((one) => one.from === from))
  const worst = (ones: readonly Offered[] = []): number => Math.max(0, ...ones.map(({ violated }) => violated))
  const isWorse = (one: number, other: number): boolean => one > 1.3 * other + 3
  const directCount = direct?.length ?? 0
  const restCount = rest?.length ?? 0
  if (directCount === 0 || restCount === 0) return directCount === 0 ? 'rest' : 'address'
  if (isWorse(worst(direct), worst(rest))) return 'rest'
  if (isWorse(worst(rest), worst(direct))) return 'address'
  return directCount > restCount ? 'address' : 'rest'
}

/** Is the sum of some of the functions both 0 and 1 often enough, for a given residue, on addresses drawn evenly? */
function comparer(offered: readonly Offered[], setting: Setting): (places: number) => boolean {
  const { residue, addressBits, range, random } = setting
  const span = range.highest - range.lowest + 1
  const addresses = Float64Array.from({ length: COMPARED_ADDRESSES }, () => {
    const share = random.next() + random.next() * 2 ** -32
    return range.lowest + Math.min(span - 1, Math.floor(share * span))
  })
  const masksOf = (from: LearntFunction['from']): number[] => offered.map((one) => (one.from === from ? one.mask : 0))
  const direct = wordsOf(halvesOf(addresses), masksOf('address'))
  const rests = wordsOf(halvesOf(restsOf(addresses, residue, addressBits)), masksOf('rest'))
  const residues = residuesOf(addresses, residue)
  return (places) => {
    const ones = new Int32Array(residue.modulus)
    const all = new Int32Array(residue.modulus)
    for (const [i, left] of residues.entries()) {
      all[left] = (all[left] ?? 0) + 1
      ones[left] = (ones[left] ?? 0) + parity32(((direct[i] ?? 0) ^ (rests[i] ?? 0)) & places)
    }
    const rarer = ones.reduce((sum, one, left) => sum + Math.min(one, (all[left] ?? 0) - one), 0)
    return rarer >= LEAST_DIFFERENT * COMPARED_ADDRESSES
  }
}
