/**
 * Modulus and functions where a label spans several channels, as the name of a package does: what the labels depend on,
 * so that each place holds one label, and a label any number of places. Functions are taken for as long as the labels,
 * the map itself counted, then take fewer bits to write down.
 */
import { lightestMasks, reducedMasks } from './elimination.ts'
import { bareBits, codeBits } from './evidence.ts'
import { unchanging } from './functions.ts'
import type { LearntFunction } from './joined.ts'
import { evenRows, finerGroups, type GroupedRows } from './groups.ts'
import { halvesOf } from './halves.ts'
import { partlyConstant } from './partly.ts'
import { placesOfAddresses } from './places.ts'
import { findResidueSets, type SureResidue } from './residue-sets.ts'
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
/** What is found parts the labels' places, so that what is constant in the parts is found next. */
const MOST_ROUNDS = 6

/** @returns the split that tells most, and how much; without function or modulus where nothing is sure */
export function learnPackages(all: LabelledAddresses): PackageSplit {
  const rows = fewerRows(all)
  const residue = findResidueSets(rows)
  const splits = [packagesOf(rows), ...(residue === undefined ? [] : [packagesOf(rows, residue)])]
  return splits.reduce((most, one) => (one.told > most.told ? one : most))
}

const NO_RESIDUE: SureResidue = { modulus: 1, gathered: [], bits: 0 }

function packagesOf(rows: LabelledAddresses, sure: SureResidue = NO_RESIDUE): PackageSplit {
  const { addresses, addressBits } = rows
  const { bits, ...residue } = sure
  const told = tellerOf(rows, bits)
  let split: LearntSplit = { residue, functions: [], addressBits, surplus: 0, untoldBits: [], openBits: [], untold: [] }
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const { functions } = split
    const grouped = finerGroups(rows, placesOfAddresses(addresses, split))
    const offered = [
      ...(residue.modulus > 1 ? offers(rows, grouped, split, 'rest') : []),
      ...offers(rows, grouped, split, 'address'),
    ]
    const more = chosen(functions, offered, (some) => told({ ...split, functions: some }))
    if (more.length === functions.length) break
    split = { ...split, functions: lightest(more) }
  }
  return { split, told: told(split) }
}

/** Functions of the address or of the rest that the split lacks. */
function offers(
  { addresses, random }: LabelledAddresses,
  grouped: Omit<GroupedRows, 'halves'>,
  split: LearntSplit,
  from: LearntFunction['from'],
): LearntFunction[] {
  const halves = halvesOf(from === 'rest' ? restsOf(addresses, split.residue, split.addressBits) : addresses)
  const still = unchanging({ halves, group: new Int32Array(addresses.length), groupCount: 1 })
  const known = split.functions.flatMap((one) => (one.from === from ? [one.mask] : []))
  return partlyConstant({ halves, ...grouped }, reducedMasks([...still, ...known]), random).map((mask) => ({
    mask,
    from,
  }))
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

/** Those before, then always the function that tells most beside them; in the end without those that others have replaced. */
function chosen(
  before: readonly LearntFunction[],
  offered: readonly LearntFunction[],
  told: (functions: readonly LearntFunction[]) => number,
): readonly LearntFunction[] {
  let taken = before
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
  return { ...all, ...evenRows(all, useful, MOST_ROWS) }
}
