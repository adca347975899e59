/**
 * Modulus and functions where a label spans several channels, as the name of a package does: what the labels depend on,
 * so that each place holds one label, and a label any number of places. Functions are taken for as long as the labels,
 * the map itself counted, then take fewer bits to write down.
 */
import { lightestMasks } from './elimination.ts'
import { bareBits, codeBits } from './evidence.ts'
import { unchanging } from './functions.ts'
import type { LearntFunction } from './joined.ts'
import { halvesOf } from './halves.ts'
import { partlyConstant } from './partly.ts'
import { placesOfAddresses } from './places.ts'
import { byResidue, findResidueSets, type SureResidue } from './residue-sets.ts'
import { residuesOf } from './residues.ts'
import { restsOf } from './rest.ts'
import type { GroupedAddresses, LearntSplit } from './split.ts'

export interface PackageSplit {
  readonly split: LearntSplit
  /** Bits that the labels take fewer than without a map, less those that state the map. */
  readonly told: number
}

export interface LabelledAddresses extends GroupedAddresses {
  /** Bits of the highest address. */
  readonly addressBits: number
}

const MOST_ROWS = 3000
const MOST_FUNCTIONS = 12

/** @returns the split that tells most, and how much; without function or modulus where nothing is sure */
export function learnPackages(all: LabelledAddresses): PackageSplit {
  const rows = fewerRows(all)
  const residue = findResidueSets(rows)
  const splits = [packagesOf(rows), ...(residue === undefined ? [] : [packagesOf(rows, residue)])]
  return splits.reduce((most, one) => (one.told > most.told ? one : most))
}

const NO_RESIDUE: SureResidue = { modulus: 1, gathered: [], bits: 0 }

function packagesOf(rows: LabelledAddresses, sure: SureResidue = NO_RESIDUE): PackageSplit {
  const { addresses, random, addressBits } = rows
  const { bits, ...residue } = sure
  const hasResidue = residue.modulus > 1
  const grouped = hasResidue ? byResidue(rows, residuesOf(addresses, residue), residue.modulus) : rows
  const searched = (values: Float64Array): readonly number[] => {
    const halves = halvesOf(values)
    const one = { halves, group: new Int32Array(values.length), groupCount: 1 }
    return partlyConstant({ halves, group: grouped.group, groupCount: grouped.groupCount }, unchanging(one), random)
  }
  const offered = [
    ...(hasResidue ? searched(restsOf(addresses, residue, addressBits)) : []).map(
      (mask): LearntFunction => ({ mask, from: 'rest' }),
    ),
    ...searched(addresses).map((mask): LearntFunction => ({ mask, from: 'address' })),
  ]
  const empty: LearntSplit = {
    residue,
    functions: [],
    addressBits,
    surplus: 0,
    untoldBits: [],
    openBits: [],
    untold: [],
  }
  const told = tellerOf(rows, bits)
  const functions = chosen(offered, (some) => told({ ...empty, functions: some }))
  const split = { ...empty, functions: lightest(functions) }
  return { split, told: told(split) }
}

/** Bits that labels take fewer by places than without, less those of the map: a choice among all masks a function. */
function tellerOf(
  { addresses, group, groupCount, addressBits }: LabelledAddresses,
  residueBits: number,
): (split: LearntSplit) => number {
  const contexts = (places: ArrayLike<number>): Float64Array =>
    Float64Array.from(group, (g, i) => (g < 0 ? -1 : (places[i] ?? 0)))
  const bare = bareBits(group, groupCount)
  return (split) => {
    const placed = codeBits(contexts(placesOfAddresses(addresses, split)), group, groupCount)
    return bare - placed - residueBits - (addressBits + 1) * split.functions.length
  }
}

/** Always the function that tells most beside those before it; in the end without those that the others have replaced. */
function chosen(
  offered: readonly LearntFunction[],
  told: (functions: readonly LearntFunction[]) => number,
): readonly LearntFunction[] {
  let taken: readonly LearntFunction[] = []
  let most = told(taken)
  while (taken.length < MOST_FUNCTIONS) {
    const next = best(
      offered.map((one) => [...taken, one]),
      told,
    )
    if (next === undefined || next.told <= most) break
    taken = next.functions
    most = next.told
  }
  for (;;) {
    const next = best(
      taken.map((one) => taken.filter((other) => other !== one)),
      told,
    )
    if (next === undefined || next.told < most) return taken
    taken = next.functions
    most = next.told
  }
}

function best(
  choices: readonly (readonly LearntFunction[])[],
  told: (functions: readonly LearntFunction[]) => number,
): { functions: readonly LearntFunction[]; told: number } | undefined {
  let most: { functions: readonly LearntFunction[]; told: number } | undefined
  for (const functions of choices) {
    const bits = told(functions)
    if (most === undefined || bits > most.told) most = { functions, told: bits }
  }
  return most
}

const lightest = (functions: readonly LearntFunction[]): LearntFunction[] =>
  (['address', 'rest'] as const).flatMap((from) => {
    const masks = functions.filter((one) => one.from === from).map(({ mask }) => mask)
    return lightestMasks(masks).map((mask) => ({ mask, from }))
  })

/** Rows evenly out of all. */
function fewerRows(all: LabelledAddresses): LabelledAddresses {
  const useful = [...all.group.keys()].filter((i) => (all.group[i] ?? -1) >= 0)
  const step = Math.max(1, useful.length / MOST_ROWS)
  const picked = Array.from({ length: Math.floor(useful.length / step) }, (_, i) => useful[Math.floor(i * step)] ?? 0)
  return {
    ...all,
    addresses: Float64Array.from(picked, (i) => all.addresses[i] ?? 0),
    group: Int32Array.from(picked, (i) => all.group[i] ?? -1),
  }
}
