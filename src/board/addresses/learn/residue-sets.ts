/** The odd factor where a label spans several channels: it has a few residues then, not one. */
import { bareBits, codeBits } from './evidence.ts'
import { SURE_BITS } from './judge.ts'
import { choiceBits, differentNumbers, fewer, type Residue, type ResidueRows, tonesOf } from './residues.ts'

export interface SureResidue extends Residue {
  /** What it takes to state it. */
  readonly bits: number
}

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
