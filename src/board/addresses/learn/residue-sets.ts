/** The odd factor where a label spans several channels: it has a few residues then, not one. */
import { bareBits, codeBits } from './evidence.ts'
import { SURE_BITS } from './judge.ts'
import { choiceBits, differentNumbers, fewer, type Residue, type ResidueRows, tonesOf } from './residues.ts'

export interface SureResidue extends Residue {
  /** What it takes to state it. */
  readonly bits: number
}

/** A residue group of a label must have this share of its rows, or wrong labels have made it. */
const LEAST_SHARE = 0.1

/** @returns the residue whose shares the groups differ in most clearly, or undefined where none surely do */
export function findResidueSets(all: ResidueRows): SureResidue | undefined {
  const rows = fewer(all)
  const sure = tonesOf(rows).flatMap((tone) => {
    const { modulus, gathered } = tone
    const { groups, residues } = differentNumbers(rows, tone)
    const told = bareBits(residues, modulus) - codeBits(groups, residues, modulus)
    const bits = choiceBits(rows, tone)
    return told > bits + SURE_BITS ? [{ modulus, gathered, bits, told }] : []
  })
  return sure.toSorted((a, b) => b.told - b.bits - (a.told - a.bits))[0]
}

/** Groups of one label and one residue; the few rows of a label that have a residue hardly any other has belong to none. */
export function byResidue(
  { group, groupCount }: Omit<ResidueRows, 'addresses'>,
  residues: Int32Array,
  modulus: number,
): Omit<ResidueRows, 'addresses'> {
  const finer = group.map((g, i) => (g < 0 ? -1 : g * modulus + (residues[i] ?? 0)))
  const sizes = new Int32Array(groupCount)
  const finerSizes = new Int32Array(groupCount * modulus)
  for (const [i, g] of group.entries()) {
    if (g < 0) continue
    sizes[g] = (sizes[g] ?? 0) + 1
    finerSizes[finer[i] ?? 0] = (finerSizes[finer[i] ?? 0] ?? 0) + 1
  }
  const isLarge = (g: number): boolean => (finerSizes[g] ?? 0) > LEAST_SHARE * (sizes[Math.floor(g / modulus)] ?? 0)
  return { group: finer.map((g) => (g >= 0 && isLarge(g) ? g : -1)), groupCount: groupCount * modulus }
}
