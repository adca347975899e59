/** Learns how addresses are shared out to channels from addresses whose channel is known. */
import type { Random } from '../../../base/index.ts'
import { SURE_BITS } from './judge.ts'
import { bitAt } from './halves.ts'
import { nextAddresses } from './next-addresses.ts'
import { kindOfLabel, type Observations } from './observations.ts'
import { type Places, placesOf } from './places.ts'
import type { LearntFunction } from './joined.ts'
import { learnSplit, type LearntSplit } from './split.ts'

/** A label and where its addresses lie. */
export interface LearntLabel {
  readonly label: string
  readonly rows: number
  /** n mod modulus of its addresses; 0 where there is no modulus. */
  readonly residue: number
  /** Value of each function on its addresses. */
  readonly values: readonly (0 | 1)[]
}

export interface LearntMap {
  /** Independent; constant on the addresses of each channel. */
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
  /** Address bits of which can't be told whether a function holds them. */
  readonly undeterminedBits: readonly number[]
  /** False where too few observations leave functions that may fit by chance: `functions` then are those still possible. */
  readonly isSettled: boolean
  /** Lines whose label does not fit the rest, ascending. */
  readonly contradictions: readonly number[]
  readonly nextAddresses: readonly number[]
  readonly labels: readonly LearntLabel[]
  /** Known labels that functions and residue don't tell apart, each list one place. */
  readonly notToldApart: readonly (readonly string[])[]
  /** For each label such as `?a` the known label that lies in the same place, if one does. */
  readonly meaning: ReadonlyMap<string, string | undefined>
}

/** A function that is missing leaves half of the labels in pairs; a slip in a name leaves few. */
const LEAST_TOLD_APART = 0.75

/**
 * Model: n = some address bits read as a number; channel = (n mod modulus, parities of address AND mask, parities of
 * rest AND mask), with `rest` as the board's address map has it. Wrong labels are outvoted. Each label is taken for one
 * channel; `?a` for one channel that is not known yet. `!U5` takes no part in learning: it only contradicts, where its
 * address turns out to be U5's.
 * @param random draws rows where labels may be wrong
 */
export function learnAddressMap(observations: Observations, random: Random): LearntMap {
  const { addresses, labelOf, labels } = observations
  const kinds = labels.map(kindOfLabel)
  const group = labelOf.map((index) => (kinds[index] === 'not' ? -1 : index))
  const split = learnSplit({ addresses, group, groupCount: labels.length, random })
  const places = placesOf(addresses, group, labels.length, split)
  const known = labels.filter((_, i) => kinds[i] === 'known')
  const separate = new Set(known.map((label) => places.ofGroup[labels.indexOf(label)])).size
  const { functions, residue } = split
  const isMissing = separate < LEAST_TOLD_APART * known.length
  const isSettled = !isMissing && isSure(split, separate)
  return {
    functions,
    modulus: residue.modulus,
    shift: residue.gathered[0] ?? 0,
    gathered: residue.gathered,
    rank: functions.length,
    addressBits: split.addressBits,
    undeterminedBits: undeterminedBits(split, isSettled, isMissing),
    isSettled,
    contradictions: contradictionsOf(observations, places),
    nextAddresses: nextAddresses({ split, places, addresses, group, isMissing }),
    labels: learntLabels(observations, places, split.functions.length),
    ...relationsOf(labels, places),
  }
}

/**
 * Enough differences beyond those needed; or so few functions that none can be left out, with too many labels in places
 * of their own for chance: of L labels at random in P places all are apart with the probability (1 - 1/P)…(1 - (L-1)/P).
 */
function isSure({ surplus, functions, residue }: LearntSplit, separate: number): boolean {
  if (surplus >= SURE_BITS) return true
  const places = residue.modulus * 2 ** functions.length
  if (functions.length === 0 || places / 2 >= separate) return false
  let apartBits = 0
  for (let other = 1; other < separate; other++) apartBits -= Math.log2(1 - other / places)
  return surplus + apartBits >= SURE_BITS
}

/** Where labels are not told apart a function is missing, which may hold any bit. */
function undeterminedBits(split: LearntSplit, isSettled: boolean, isMissing: boolean): readonly number[] {
  if (isMissing) return Array.from({ length: split.addressBits }, (_, bit) => bit)
  return isSettled ? split.untoldBits : split.openBits
}

function contradictionsOf({ labelOf, labels, lines }: Observations, { ofRow, ofGroup }: Places): number[] {
  const denied = labels.map((label) => (kindOfLabel(label) === 'not' ? labels.indexOf(label.slice(1).trim()) : -1))
  const contradictions: number[] = []
  for (const [row, line] of lines.entries()) {
    const index = labelOf[row] ?? 0
    const place = ofRow[row]
    const isNot = kindOfLabel(labels[index] ?? '') === 'not'
    if (isNot ? place === ofGroup[denied[index] ?? -1] : place !== ofGroup[index]) contradictions.push(line)
  }
  return contradictions
}

function learntLabels({ labelOf, labels }: Observations, { ofGroup, partsOf }: Places, count: number): LearntLabel[] {
  const rows = new Int32Array(labels.length)
  for (const index of labelOf) rows[index] = (rows[index] ?? 0) + 1
  return labels.flatMap((label, i) => {
    const place = ofGroup[i] ?? -1
    if (place < 0) return []
    const { residue, word } = partsOf(place)
    const values = Array.from({ length: count }, (_, bit) => (bitAt(word, bit) === 1 ? 1 : 0))
    return [{ label, rows: rows[i] ?? 0, residue, values }]
  })
}

function relationsOf(labels: readonly string[], { ofGroup }: Places): Pick<LearntMap, 'notToldApart' | 'meaning'> {
  const byPlace = new Map<number, string[]>()
  for (const [i, label] of labels.entries()) {
    if (kindOfLabel(label) !== 'known') continue
    const place = ofGroup[i] ?? -1
    byPlace.set(place, [...(byPlace.get(place) ?? []), label])
  }
  const meaning = new Map<string, string | undefined>()
  for (const [i, label] of labels.entries()) {
    if (kindOfLabel(label) !== 'unknown-one') continue
    const same = byPlace.get(ofGroup[i] ?? -1) ?? []
    meaning.set(label, same.length === 1 ? same[0] : undefined)
  }
  return { notToldApart: [...byPlace.values()].filter((same) => same.length > 1), meaning }
}
