/** Learns how addresses are shared out to channels, or to packages of several channels, from addresses with labels. */
import type { Random } from '../../../base/index.ts'
import { relationsOf } from './relations.ts'
import { nextAddresses } from './next-addresses.ts'
import { kindOfLabel, type Observations } from './observations.ts'
import type { Occupancy } from './occupancy.ts'
import { partsOf } from './places.ts'
import type { LearntFunction } from './joined.ts'
import { readByChannel, readByPackage, type Reading } from './readings.ts'
import { bitAt } from './halves.ts'

/** A place: addresses that agree in residue and functions. */
export interface LearntPlace {
  /** n mod modulus of its addresses; 0 where there is no modulus. */
  readonly residue: number
  /** Value of each function on its addresses. */
  readonly values: readonly (0 | 1)[]
}

/** A label and where its addresses lie. */
export interface LearntLabel extends LearntPlace {
  readonly label: string
  readonly rows: number
  /** That of most of its rows first; `residue` and `values` are those of the first. */
  readonly places: readonly LearntPlace[]
}

/** A place, and what lies there. */
export interface NamedPlace extends LearntPlace {
  /** Label of the package, undefined where none is known. */
  readonly package: string | undefined
  /** Label of the one channel of that package which lies here; undefined where no label tells it from the others. */
  readonly channel: string | undefined
}

export interface LearntMap {
  /** Independent; constant on the addresses of each place. */
  readonly functions: readonly LearntFunction[]
  /** 1 where no odd factor was found. Even where plain low bits belong to it. */
  readonly modulus: number
  /** Lowest bit of the number whose residue is taken; 0 where there is no modulus. */
  readonly shift: number
  /** Address bits that make that number, lowest first. */
  readonly gathered: readonly number[]
  readonly rank: number
  /** Bits of the highest address seen. */
  readonly addressBits: number
  readonly highestAddress: number
  /** Address bits of which can't be told whether a function holds them. */
  readonly undeterminedBits: readonly number[]
  /** False where too few observations leave functions that may fit by chance: `functions` then are those still possible. */
  readonly isSettled: boolean
  /** Are there labels that hold several places, as packages of several channels do? */
  readonly isByPackage: boolean
  /** Lines whose label does not fit the rest, ascending. */
  readonly contradictions: readonly number[]
  readonly nextAddresses: readonly number[]
  readonly labels: readonly LearntLabel[]
  /** All places at which addresses were seen, by residue, then values. */
  readonly places: readonly NamedPlace[]
  /** Known labels that functions and residue don't tell apart, each list at the same places. */
  readonly notToldApart: readonly (readonly string[])[]
  /** For each label such as `?a` the known label that lies in the same place, if one does. */
  readonly meaning: ReadonlyMap<string, string | undefined>
}

/**
 * Model: n = some address bits read as a number; place = (n mod modulus, parities of address AND mask, parities of rest
 * AND mask), with `rest` as the board's address map has it. Each label is taken for one place; where that leaves labels
 * unexplained, for as many places as explain it: packages with several channels. Which of its places is which channel,
 * labels of packages don't tell, unless there are labels of channels as well: `U5.CH2` beside `U5`, or a name that holds
 * one of the places of `U5`. Wrong labels are outvoted. `?a` is one channel or package that is not known yet. `!U5` takes
 * no part in learning: it only contradicts, where its address turns out to be U5's.
 * @param random draws rows where labels may be wrong
 */
export function learnAddressMap(observations: Observations, random: Random): LearntMap {
  const byChannel = readByChannel(observations, random)
  const reading = readByPackage(observations, byChannel, random) ?? byChannel
  const { split, occupancy, isMissing, isSettled } = reading
  const { functions, residue } = split
  return {
    functions,
    modulus: residue.modulus,
    shift: residue.gathered[0] ?? 0,
    gathered: residue.gathered,
    rank: functions.length,
    addressBits: split.addressBits,
    highestAddress: observations.addresses.reduce((highest, address) => Math.max(highest, address), 0),
    undeterminedBits: undeterminedBits(reading),
    isSettled,
    isByPackage: occupancy.placesOf.some((places) => places.length > 1),
    contradictions: reading.contradictions,
    nextAddresses: nextAddresses({ split, occupancy, ...observations, isMissing }),
    labels: learntLabels(observations, reading),
    places: namedPlaces(observations.labels, reading),
    ...relationsOf(observations.labels, occupancy),
  }
}

/** Where labels are not told apart a function is missing, which may hold any bit. */
function undeterminedBits({ split, isSettled, isMissing }: Reading): readonly number[] {
  if (isMissing) return Array.from({ length: split.addressBits }, (_, bit) => bit)
  return isSettled ? split.untoldBits : split.openBits
}

function learntLabels({ labelOf, labels }: Observations, { split, occupancy }: Reading): LearntLabel[] {
  const rows = new Int32Array(labels.length)
  for (const index of labelOf) rows[index] = (rows[index] ?? 0) + 1
  return labels.flatMap((label, i) => {
    const places = (occupancy.placesOf[i] ?? []).map((place) => learntPlace(place, split))
    const [first] = places
    return first === undefined ? [] : [{ label, rows: rows[i] ?? 0, ...first, places }]
  })
}

function learntPlace(place: number, { residue: { modulus }, functions }: Reading['split']): LearntPlace {
  const { residue, word } = partsOf(place, modulus)
  return { residue, values: Array.from({ length: functions.length }, (_, bit) => (bitAt(word, bit) === 1 ? 1 : 0)) }
}

function namedPlaces(labels: readonly string[], { split, occupancy }: Reading): NamedPlace[] {
  const nameOf = (index: number | undefined): string | undefined => (index === undefined ? undefined : labels[index])
  const { packageAt, channelAt } = occupancy
  const keyOf = ({ residue, values }: LearntPlace): number =>
    values.reduce<number>((sum, bit) => 2 * sum + bit, residue)
  return seenPlaces(labels, occupancy)
    .map((place) => ({
      ...learntPlace(place, split),
      package: nameOf(packageAt.get(place)),
      channel: nameOf(channelAt.get(place)),
    }))
    .toSorted((a, b) => keyOf(a) - keyOf(b))
}

/** Those that any label holds. */
const seenPlaces = (labels: readonly string[], { placesOf }: Occupancy): number[] => [
  ...new Set(labels.flatMap((label, i) => (kindOfLabel(label) === 'not' ? [] : (placesOf[i] ?? [])))),
]
