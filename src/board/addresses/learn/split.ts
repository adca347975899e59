/** Modulus and functions of grouped addresses, put together. */
import type { Random } from '../../../base/index.ts'
import { type FunctionSpace, learnFunctions, MOST_VIOLATED_AFTER_RESIDUE } from './functions.ts'
import { bitsOf, bitWidth, halvesOf, supportOf } from './halves.ts'
import { SURE_BITS } from './judge.ts'
import { findResidue, type Residue, residuesOf } from './residues.ts'
import { restsOf, withPlainBits } from './rest.ts'
import { lightestMasks, reducedMasks } from './elimination.ts'
import { type AddressRange, joined, type LearntFunction } from './joined.ts'
import { agreeing, countGroups, countRows, type GroupedRows, wordsOf } from './groups.ts'

export interface LearntSplit {
  /** Modulus 1 and no bits where there is none. */
  readonly residue: Residue
  readonly functions: readonly LearntFunction[]
  readonly addressBits: number
  /** Differences of rows beyond those needed: functions that fit by chance are among them with 2^-surplus. */
  readonly surplus: number
  /** Address bits that can't be told, as the functions stand. */
  readonly untoldBits: readonly number[]
  /** Those, and bits of functions that may fit by chance. */
  readonly openBits: readonly number[]
  /** Address masks that are constant on all observations. */
  readonly untold: readonly number[]
}

export interface GroupedAddresses {
  readonly addresses: Float64Array
  readonly group: Int32Array
  readonly groupCount: number
  readonly random: Random
}

const NO_RESIDUE: Residue = { modulus: 1, gathered: [] }

/**
 * Residue and functions of grouped rows. Where the rows are too few to be sure of a residue, functions alone are preferred
 * if they tell all groups apart and no row contradicts them.
 */
export function learnSplit(grouped: GroupedAddresses): LearntSplit {
  const odd = findResidue(grouped)
  if (odd === undefined) return linearSplit(grouped).split
  const split = residueSplit(grouped, odd)
  if (split.surplus >= SURE_BITS) return split
  const linear = linearSplit(grouped)
  return linear.isWhole ? linear.split : split
}

function linearSplit({ addresses, group, groupCount, random }: GroupedAddresses): {
  split: LearntSplit
  isWhole: boolean
} {
  const rows = { halves: halvesOf(addresses), group, groupCount }
  const direct = learnFunctions(rows, { random })
  const masks = lightestMasks(direct.functions)
  const functions = masks.map((mask) => ({ mask, from: 'address' as const }))
  const split = splitOf({ residue: NO_RESIDUE, functions, addressBits: bitWidth(addresses), direct, main: direct })
  const words = wordsOf(rows.halves, masks.slice(0, 30))
  const places = new Set(words.filter((_, i) => (group[i] ?? -1) >= 0))
  const isWhole = countRows(direct.agreeing) === countRows(rows) && places.size === countGroups(rows)
  return { split, isWhole }
}

function residueSplit({ addresses, group, groupCount, random }: GroupedAddresses, odd: Residue): LearntSplit {
  const all = { halves: halvesOf(addresses), group, groupCount }
  const rows = agreeing(all, residuesOf(addresses, odd))
  const addressBits = bitWidth(addresses)
  const mostViolated = MOST_VIOLATED_AFTER_RESIDUE
  const direct = learnFunctions(rows, { random, mostViolated, residues: odd.modulus })
  const residue = withPlainBits(odd, direct.functions)
  const restRows = { ...rows, halves: halvesOf(restsOf(addresses, residue, addressBits)) }
  const rest = learnFunctions(restRows, { random, mostViolated, residues: residue.modulus })
  const masks = withoutPlain(direct.functions, residue)
  const offered = [
    ...masks.map((mask) => ({ mask, from: 'address' as const, violated: violations(rows, mask) })),
    ...rest.functions.map((mask) => ({ mask, from: 'rest' as const, violated: violations(restRows, mask) })),
  ]
  const functions = joined(offered, { residue, addressBits, random, range: rangeOf(addresses) })
  const main = functions.every(({ from }) => from === 'address') && functions.length > 0 ? direct : rest
  return splitOf({ residue, functions, addressBits, direct, main })
}

interface Learnt extends Pick<LearntSplit, 'residue' | 'functions' | 'addressBits'> {
  readonly direct: FunctionSpace
  readonly main: FunctionSpace
}

function splitOf({ residue, functions, addressBits, direct, main }: Learnt): LearntSplit {
  return {
    residue,
    functions,
    addressBits,
    surplus: main.surplus,
    untoldBits: supportOf(direct.untold),
    openBits: supportOf([...direct.untold, ...direct.functions, ...main.functions]).filter((bit) => bit < addressBits),
    untold: direct.untold,
  }
}

const violations = (rows: GroupedRows, mask: number): number =>
  countRows(rows) - countRows(agreeing(rows, wordsOf(rows.halves, [mask])))

/** Plain bits that belong to an even modulus are no functions beside it. */
function withoutPlain(masks: readonly number[], { modulus, gathered }: Residue): number[] {
  const plain = gathered.slice(0, twosOf(modulus))
  const cleared = masks.map((mask) =>
    bitsOf(mask).reduce((sum, bit) => (plain.includes(bit) ? sum : sum + 2 ** bit), 0),
  )
  return reducedMasks(cleared)
}

/** How many times 2 divides it. */
const twosOf = (modulus: number): number => (modulus % 2 === 0 ? 1 + twosOf(modulus / 2) : 0)

const rangeOf = (addresses: Float64Array): AddressRange => ({
  lowest: addresses.reduce((least, address) => Math.min(least, address), Infinity),
  highest: addresses.reduce((most, address) => Math.max(most, address), 0),
})
