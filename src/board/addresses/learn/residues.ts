/**
 * The odd factor of a map: which bits, read as a number n, give each group a residue n mod m of its own. A residue shows
 * as a tone: the sum of exp(2 pi i n / m) over the rows of a group is as long as the group is large, where it is short
 * for any wrong m or bits. Bits count with weights modulo m, so that stretches with a gap between are found as well.
 */
import { bitRuns, gather } from '../tables.ts'
import { commonest, evenRows, groupSizes } from './groups.ts'
import { log2Ways, SURE_BITS } from './judge.ts'
import { andOf, bitAt, bitWidth, COLUMNS } from './halves.ts'

export interface Residue {
  readonly modulus: number
  /** Address bits that make n, lowest first. */
  readonly gathered: readonly number[]
}

export interface ResidueRows {
  readonly addresses: Float64Array
  readonly group: Int32Array
  readonly groupCount: number
}

export interface Tone extends Residue {
  /** Weight of each address bit, modulo m. */
  readonly weights: readonly number[]
  /** Mean of cos(2 pi (n - n') / m) over pairs of one group: 1 for a residue of their own, 0 by chance. */
  readonly coherence: number
}

const HEARD_ROWS = 1500
const MOST_MODULUS = 63
/** Standard deviations above chance at which bits are looked at more closely; far less than any true residue has. */
const LOUD = 6
/** Numbers must range over so many times the modulus: few of them have like residues for no reason, as the top bits do. */
const SPREAD = 8
const CLOSER_LOOKS = 6
const MOST_ASTRAY = 0.3
/** A factor of the modulus fits as well as the whole; wrong labels make their shares differ by so much. */
const AS_GOOD = 0.08

/** @returns the residue that the groups have, or undefined where none is surely there */
export function findResidue(all: ResidueRows): Residue | undefined {
  const rows = fewer(all)
  const sure = tonesOf(rows)
    .map((tone) => ({ ...tone, astray: astrayShare(rows, tone) }))
    .filter(({ astray }) => astray < 1)
  const best = Math.min(...sure.map(({ astray }) => astray))
  const good = sure.filter(({ astray }) => astray <= best + AS_GOOD)
  return good.toSorted((a, b) => b.modulus - a.modulus || a.astray - b.astray)[0]
}

/** The loudest tones, each as heard and with its bits looked at more closely. */
export function tonesOf(rows: ResidueRows): Tone[] {
  const width = bitWidth(rows.addresses)
  const columns = Array.from({ length: width }, (_, bit) => Int32Array.from(rows.addresses, (a) => bitAt(a, bit)))
  const heard = loudTones(rows, columns)
  const loudest = heard.toSorted((a, b) => b.coherence - a.coherence).slice(0, CLOSER_LOOKS)
  return loudest.flatMap((tone) => [tone, ...closer(rows, columns, tone)])
}

/** Each odd modulus with each stretch of bits up to the top: n mod m from n div 2, so from the top bit down. */
function loudTones(rows: ResidueRows, columns: readonly Int32Array[]): Tone[] {
  const spread = spreadOf(rows.addresses)
  const least = LOUD / Math.sqrt(2 * pairsOf(rows))
  const residues = new Int32Array(rows.group.length)
  const tones: Tone[] = []
  for (let modulus = 3; modulus <= MOST_MODULUS; modulus += 2) {
    const hear = listener(rows, modulus)
    residues.fill(0)
    // By Horner's rule one run down the bits gives n mod m of every stretch that ends at the top.
    for (let shift = columns.length - 1; shift >= 0; shift--) {
      const column = columns[shift] ?? residues
      for (let i = 0; i < residues.length; i++) residues[i] = (2 * (residues[i] ?? 0) + (column[i] ?? 0)) % modulus
      // A number that takes few values has like residues for no reason.
      if (spread / 2 ** shift < SPREAD * modulus) continue
      const coherence = hear(residues)
      if (coherence < least) continue
      const gathered = Array.from({ length: columns.length - shift }, (_, i) => shift + i)
      tones.push({ modulus, gathered, coherence, weights: doubled(gathered, modulus) })
    }
  }
  return tones
}

/** n mod m of each address. */
export function residuesOf(addresses: Float64Array, { modulus, gathered }: Residue): Int32Array {
  const runs = bitRuns(gathered)
  return Int32Array.from(addresses, (address) => gather(address, runs) % modulus)
}

/** Weights of n mod m: each gathered bit counts twice the one before it. */
function doubled(gathered: readonly number[], modulus: number): number[] {
  const weights = Array.from({ length: COLUMNS }, () => 0)
  let weight = 1
  for (const bit of gathered) {
    weights[bit] = weight
    weight = (weight * 2) % modulus
  }
  return weights
}

function residueValues(addresses: Float64Array, weights: readonly number[], modulus: number): Int32Array {
  const bits = [...weights.keys()].filter((bit) => weights[bit] !== 0)
  return Int32Array.from(addresses, (address) => {
    let sum = 0
    for (const bit of bits) if (bitAt(address, bit) === 1) sum += weights[bit] ?? 0
    return sum % modulus
  })
}

/** Rows evenly out of all, those of groups of one left out. */
export function fewer({ addresses, group, groupCount }: ResidueRows): ResidueRows {
  const sizes = groupSizes(group, groupCount)
  const useful = [...group.keys()].filter((i) => (sizes[group[i] ?? -1] ?? 0) > 1)
  return { ...evenRows({ addresses, group }, useful, HEARD_ROWS), groupCount }
}

function pairsOf({ group, groupCount }: ResidueRows): number {
  const sizes = groupSizes(group, groupCount)
  return sizes.reduce((sum, size) => sum + (size * (size - 1)) / 2, 0)
}

/** Coherence of residues that are given row by row. */
function listener(rows: ResidueRows, modulus: number): (residues: Int32Array) => number {
  const { group, groupCount } = rows
  const cosines = Float64Array.from({ length: modulus }, (_, r) => Math.cos((2 * Math.PI * r) / modulus))
  const sines = Float64Array.from({ length: modulus }, (_, r) => Math.sin((2 * Math.PI * r) / modulus))
  const real = new Float64Array(groupCount)
  const imaginary = new Float64Array(groupCount)
  const pairs = pairsOf(rows)
  return (residues) => {
    real.fill(0)
    imaginary.fill(0)
    for (let i = 0; i < group.length; i++) {
      const g = group[i] ?? 0
      const residue = residues[i] ?? 0
      real[g] = (real[g] ?? 0) + (cosines[residue] ?? 0)
      imaginary[g] = (imaginary[g] ?? 0) + (sines[residue] ?? 0)
    }
    let sum = -group.length
    for (let g = 0; g < groupCount; g++) sum += (real[g] ?? 0) ** 2 + (imaginary[g] ?? 0) ** 2
    return pairs === 0 ? 0 : sum / 2 / pairs
  }
}

const spreadOf = (addresses: Float64Array): number =>
  addresses.reduce((most, address) => Math.max(most, address), 0) -
  addresses.reduce((least, address) => Math.min(least, address), Infinity)

/** Gives single bits other weights for as long as that makes the tone clearer. None where no mod digit has such. */
function closer(rows: ResidueRows, columns: readonly Int32Array[], tone: Tone): Tone[] {
  const { modulus } = tone
  const hear = listener(rows, modulus)
  const weights = [...tone.weights]
  const sums = residueValues(rows.addresses, weights, modulus)
  // Four standard deviations of what chance does to a tone: less is no improvement.
  const clearer = 4 / Math.sqrt(2 * pairsOf(rows))
  let coherence = tone.coherence
  for (let changed = true; changed && coherence < 1 - clearer; ) {
    changed = false
    for (const [bit, column] of columns.entries()) {
      const best = clearest(sums, column, modulus, hear)
      if (best.coherence < coherence + clearer) continue
      changed = true
      coherence = best.coherence
      weights[bit] = ((weights[bit] ?? 0) + best.add) % modulus
      for (let i = 0; i < sums.length; i++) sums[i] = ((sums[i] ?? 0) + best.add * (column[i] ?? 0)) % modulus
    }
  }
  const gathered = [...weights.keys()].filter((bit) => weights[bit] !== 0)
  // Weights times any unit make the same groups; only weights that double from bit to bit are those of a number.
  const first = weights[gathered[0] ?? 0] ?? 1
  const isNumber = doubled(gathered, modulus).every((weight, bit) => (weight * first) % modulus === weights[bit])
  return isNumber ? [{ modulus, gathered, weights, coherence }] : []
}

/** The weight that makes the tone clearest when the bit counts so much more. */
function clearest(
  sums: Int32Array,
  column: Int32Array,
  modulus: number,
  hear: (residues: Int32Array) => number,
): { add: number; coherence: number } {
  const residues = sums.slice()
  let best = { add: 0, coherence: 0 }
  for (let add = 1; add < modulus; add++) {
    for (let i = 0; i < residues.length; i++) residues[i] = ((residues[i] ?? 0) + (column[i] ?? 0)) % modulus
    const coherence = hear(residues)
    if (coherence > best.coherence) best = { add, coherence }
  }
  return best
}

/**
 * Share of the rows with another residue than most of their group, counted on different numbers only. 1 where that is
 * too large, or where more than 2^-7 of the residues looked at would fit as well by chance.
 */
function astrayShare(rows: ResidueRows, tone: Tone): number {
  const { modulus } = tone
  const { groupCount } = rows
  // Rows of one number can't disagree with themselves, so repeats would count as proof: each number once a group.
  const { groups, residues } = differentNumbers(rows, tone)
  const usual = commonest(residues, groups, groupCount)
  const astray = groups.reduce((sum, g, i) => sum + (residues[i] === usual[g] ? 0 : 1), 0)
  const freedom = groups.length - new Set(groups).size
  const isSure =
    choiceBits(rows, tone) + log2Ways(freedom, astray) + (astray - freedom) * Math.log2(modulus) < -SURE_BITS
  return isSure && astray < MOST_ASTRAY * groups.length ? astray / groups.length : 1
}

/** Group and residue of each row that has another number, or another group, than those before it. */
export function differentNumbers({ addresses, group }: ResidueRows, { modulus, gathered, weights }: Tone) {
  const mask = gathered.reduce((sum, bit) => sum + 2 ** bit, 0)
  const seen = new Set<string>()
  const different = [...group.keys()].filter((i) => {
    const key = `${group[i]} ${andOf(addresses[i] ?? 0, mask)}`
    if (seen.has(key)) return false
    seen.add(key)
    return true
  })
  const kept = Float64Array.from(different, (i) => addresses[i] ?? 0)
  return {
    groups: Int32Array.from(different, (i) => group[i] ?? 0),
    residues: residueValues(kept, weights, modulus),
  }
}

/** log2 of how many residues were looked at to come to one with so many stretches. */
export const choiceBits = ({ addresses }: ResidueRows, { gathered }: Residue): number =>
  Math.log2((COLUMNS * MOST_MODULUS) / 2) + edgesOf(gathered, bitWidth(addresses)) * Math.log2(COLUMNS)

/** How many edges its stretches have beyond the first: each is a choice of bits, among which one may fit by chance. */
function edgesOf(gathered: readonly number[], width: number): number {
  const edges = gathered.reduce((sum, bit) => sum + (gathered.includes(bit + 1) ? 0 : 2), -2)
  return gathered.includes(width - 1) ? edges : edges + 1
}
