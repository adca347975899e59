/** Modulus and functions of grouped addresses, put together. */
import { firstDependentRow, type Random, rank } from '../../../base/index.ts'
import {
  type FunctionSpace,
  learnFunctions,
  MOST_VIOLATED_AFTER_FUNCTIONS,
  MOST_VIOLATED_AFTER_RESIDUE,
} from './functions.ts'
import { bitsOf, halvesOf, supportOf } from './halves.ts'
import { findResidue, type Residue, residuesOf, withResidue } from './residues.ts'
import { keptBits, restsOf, withPlainBits } from './rest.ts'
import { lightestMasks, reducedMasks } from './elimination.ts'

export interface LearntFunction {
  readonly mask: number
  /** What the mask is over: the address, or the rest that the mod digit leaves of it. */
  readonly from: 'address' | 'rest'
}

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

export function learnSplit({ addresses, group, groupCount, random }: GroupedAddresses): LearntSplit {
  const odd = findResidue({ addresses, group, groupCount })
  const all = { halves: halvesOf(addresses), group, groupCount }
  const rows = odd === undefined ? all : withResidue(all, residuesOf(addresses, odd))
  const direct = learnFunctions(
    rows,
    odd === undefined ? { random } : { random, mostViolated: MOST_VIOLATED_AFTER_RESIDUE, residues: odd.modulus },
  )
  const addressBits = widthOf(addresses)
  if (odd === undefined) {
    const functions = lightestMasks(direct.functions).map((mask) => ({ mask, from: 'address' as const }))
    return splitOf({ residue: NO_RESIDUE, functions, addressBits, direct, main: direct })
  }
  const residue = withPlainBits(odd, direct.functions)
  const rests = restsOf(addresses, residue, addressBits)
  const mostViolated = direct.functions.length > 0 ? MOST_VIOLATED_AFTER_FUNCTIONS : MOST_VIOLATED_AFTER_RESIDUE
  const wish = { random, mostViolated, residues: residue.modulus }
  const rest = learnFunctions({ ...direct.agreeing, halves: halvesOf(rests) }, wish)
  const functions = joined(direct, rest, residue, addressBits)
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

/**
 * Functions of the address and of the rest without those said twice: bits that the mod digit does not gather are in
 * both, and the lowest bit of the quotient is, for a given residue, the lowest gathered bit that is no plain one.
 */
function joined(direct: FunctionSpace, rest: FunctionSpace, residue: Residue, addressBits: number): LearntFunction[] {
  const plain = residue.gathered.slice(0, twosOf(residue.modulus))
  const fromAddress = reducedMasks(direct.functions.map((mask) => without(mask, plain)))
  const kept = keptBits(residue.gathered, addressBits)
  const columnOfRest = (bit: number): number => {
    if (bit < kept.length) return kept[bit] ?? 0
    return bit === kept.length ? (residue.gathered[plain.length] ?? 64) : 64 + bit
  }
  const ofAddress = fromAddress.map((mask) => ({ mask, from: 'address' as const, row: rowOf(bitsOf(mask)) }))
  const ofRest = rest.functions.map((mask) => ({
    mask,
    from: 'rest' as const,
    row: rowOf(bitsOf(mask).map(columnOfRest)),
  }))
  const order = ofAddress.length > ofRest.length ? [...ofAddress, ...ofRest] : [...ofRest, ...ofAddress]
  const chosen: typeof order = []
  for (const next of order) if (isNew(next.row, chosen)) chosen.push(next)
  return (['address', 'rest'] as const).flatMap((from) =>
    lightestMasks(chosen.filter((one) => one.from === from).map(({ mask }) => mask)).map((mask) => ({ mask, from })),
  )
}

const isNew = (row: bigint, chosen: readonly { row: bigint }[]): boolean =>
  firstDependentRow([...chosen.map((other) => other.row), row]) === undefined && rank([row]) === 1

const rowOf = (columns: readonly number[]): bigint => columns.reduce((row, column) => row ^ (1n << BigInt(column)), 0n)

const without = (mask: number, bits: readonly number[]): number =>
  bitsOf(mask).reduce((sum, bit) => (bits.includes(bit) ? sum : sum + 2 ** bit), 0)

/** How many times 2 divides it. */
const twosOf = (modulus: number): number => (modulus % 2 === 0 ? 1 + twosOf(modulus / 2) : 0)

const widthOf = (addresses: Float64Array): number => {
  const highest = addresses.reduce((most, address) => Math.max(most, address), 0)
  return highest === 0 ? 0 : Math.floor(Math.log2(highest)) + 1
}
