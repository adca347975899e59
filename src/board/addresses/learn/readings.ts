/** Two ways to read labels: each as one channel, or each as a package that may hold several. */
import type { Random } from '../../../base/index.ts'
import { unchanging } from './functions.ts'
import { halvesOf, supportOf } from './halves.ts'
import { SURE_BITS } from './judge.ts'
import { kindOfLabel, type Observations } from './observations.ts'
import { type Occupancy, onePlaceEach, packageLabels, severalPlacesEach } from './occupancy.ts'
import { learnPackages } from './packages.ts'
import { placesOf, placesOfAddresses } from './places.ts'
import { contradictionsOf, sameLabels } from './relations.ts'
import { learnSplit, type LearntSplit } from './split.ts'

export interface Reading {
  readonly split: LearntSplit
  readonly occupancy: Occupancy
  /** Labels stay unexplained: a function is missing. */
  readonly isMissing: boolean
  readonly isSettled: boolean
  readonly contradictions: readonly number[]
}

/** A function that is missing leaves half of the labels in pairs; a slip in a name leaves few. */
const LEAST_TOLD_APART = 0.75
/** Wrong labels are fewer; where more lines contradict, labels may hold several channels. */
const FEW_CONTRADICTIONS = 0.07
/** More lines contradict, and of few lines in all, where a function is missing. */
const MOST_CONTRADICTIONS = 0.2
const MOST_OF_FEW = 0.14
/** At so many places a missing function leaves lines of two labels together; one label mistaken for another does at few. */
const MOST_RIVALRY = 0.2
/** With so many rows for each address bit, and for each place, a function that tells labels apart would have been found. */
const AMPLE_ROWS = 6
const AMPLE_ROWS_OF_PLACE = 12

/** Each label is one place. */
export function readByChannel(observations: Observations, random: Random): Reading {
  const { addresses, labels } = observations
  const group = learningGroups(observations)
  const split = learnSplit({ addresses, group, groupCount: labels.length, random })
  const { ofRow, ofGroup } = placesOf(addresses, group, labels.length, split)
  const occupancy = onePlaceEach(ofRow, ofGroup, labels)
  const known = labels.filter((label) => kindOfLabel(label) === 'known').length
  const separate = sameLabels(labels, occupancy.placesOf).length
  const isMissing = separate < LEAST_TOLD_APART * known
  return {
    split,
    occupancy,
    isMissing,
    isSettled: !isMissing && isSure(split, separate) && rivalry(occupancy, observations) < MOST_RIVALRY,
    contradictions: contradictionsOf(observations, occupancy),
  }
}

/**
 * Each label holds as many places as the rows say.
 * @param byChannel the other reading, which is kept unless it leaves something unexplained that this one explains
 * @returns undefined where it is to be kept
 */
export function readByPackage(observations: Observations, byChannel: Reading, random: Random): Reading | undefined {
  const { addresses, labelOf, labels, lines } = observations
  const isPlain = packageLabels(labels).every((family, label) => family === label)
  const isTold = mergedLabels(labels, byChannel.occupancy) === 0
  const isFew = byChannel.contradictions.length <= FEW_CONTRADICTIONS * lines.length
  if (byChannel.isSettled && isPlain && isTold && isFew) return undefined
  const group = learningGroups(observations)
  const { addressBits } = byChannel.split
  const { split, told } = learnPackages({ addresses, group, groupCount: labels.length, random, addressBits })
  const occupancy = severalPlacesEach(placesOfAddresses(addresses, split), labelOf, labels)
  const contradictions = contradictionsOf(observations, occupancy)
  const merged = mergedLabels(labels, occupancy)
  const isBetter =
    contradictions.length < byChannel.contradictions.length && merged <= mergedLabels(labels, byChannel.occupancy)
  const isAmple = lines.length >= Math.max(AMPLE_ROWS * addressBits, AMPLE_ROWS_OF_PLACE * countPlaces(split))
  const mostContradictions = isAmple ? MOST_CONTRADICTIONS : MOST_OF_FEW
  const isExplained =
    told >= SURE_BITS &&
    contradictions.length <= mostContradictions * lines.length &&
    (isAmple || merged === 0) &&
    rivalry(occupancy, observations) < MOST_RIVALRY
  if (!isExplained || !(isBetter || !byChannel.isSettled)) return undefined
  const untold = unchanging({ halves: halvesOf(addresses), group, groupCount: labels.length })
  const untoldBits = supportOf(untold)
  return {
    split: { ...split, untold, untoldBits, openBits: untoldBits },
    occupancy,
    isMissing: false,
    isSettled: true,
    contradictions,
  }
}

/** Group of each row: its label, or none where that only says what the address is not. */
function learningGroups({ labelOf, labels }: Observations): Int32Array {
  const isNot = labels.map((label) => kindOfLabel(label) === 'not')
  return labelOf.map((index) => (isNot[index] === true ? -1 : index))
}

/** At which share of the places held several lines, and a fifth of all there, have one label that does not fit. */
function rivalry({ ofRow, holds, placesOf: placesOfLabel }: Occupancy, { labelOf, labels }: Observations): number {
  const owned = new Set(placesOfLabel.flat())
  const rows = new Map<number, number>()
  const rivals = new Map<string, { place: number; count: number }>()
  for (const [row, label] of labelOf.entries()) {
    const place = ofRow[row] ?? -1
    if (!owned.has(place) || kindOfLabel(labels[label] ?? '') === 'not') continue
    rows.set(place, (rows.get(place) ?? 0) + 1)
    if (holds(label, place)) continue
    const rival = `${place} ${label}`
    rivals.set(rival, { place, count: (rivals.get(rival)?.count ?? 0) + 1 })
  }
  const isRival = ({ place, count }: { place: number; count: number }): boolean =>
    count > 1 && count >= 0.2 * (rows.get(place) ?? 0)
  return (
    new Set([...rivals.values()].flatMap((rival) => (isRival(rival) ? [rival.place] : []))).size /
    Math.max(1, rows.size)
  )
}

/** How many labels fewer there would be if those at the same places were one. */
const mergedLabels = (labels: readonly string[], occupancy: Occupancy): number =>
  sameLabels(labels, occupancy.placesOf).reduce((sum, same) => sum + same.length - 1, 0)

const countPlaces = ({ functions, residue }: Pick<LearntSplit, 'functions' | 'residue'>): number =>
  residue.modulus * 2 ** functions.length

/**
 * Enough differences beyond those needed; or so few functions that none can be left out, with too many labels in places
 * of their own for chance: of L labels at random in P places all are apart with the probability (1 - 1/P)…(1 - (L-1)/P).
 */
function isSure({ surplus, functions, residue }: LearntSplit, separate: number): boolean {
  if (surplus >= SURE_BITS) return true
  const places = countPlaces({ functions, residue })
  if (functions.length === 0 || places / 2 >= separate) return false
  let apartBits = 0
  for (let other = 1; other < separate; other++) apartBits -= Math.log2(1 - other / places)
  return surplus + apartBits >= SURE_BITS
}
