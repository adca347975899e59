/** Which labels lie at which places, where a label may hold several places and a place may have labels of two kinds. */
import { kindOfLabel } from './observations.ts'

export interface Occupancy {
  /** Place of each row. */
  readonly ofRow: Float64Array
  /** Places of each label, that with most rows first; none for a label `!…`. */
  readonly placesOf: readonly (readonly number[])[]
  /** Does an address at this place fit the label? */
  readonly holds: (label: number, place: number) => boolean
  /** Known label of the package at each place. */
  readonly packageAt: ReadonlyMap<number, number>
  /** Known label that has this place of its package alone, where there is one. */
  readonly channelAt: ReadonlyMap<number, number>
}

/** A label holds a place where it has this share of the rows it has at its fullest place … */
const LEAST_OF_LABEL = 0.25
/** … and this share of the rows of the commonest label there, or rows enough that wrong labels hardly ever meet so. */
const LEAST_OF_PLACE = 0.25
const LEAST_ROWS = 3

/** `U5` of `U5.CH2`, where `U5` is a label as well: the index of the label that says the package, for each label. */
export function packageLabels(labels: readonly string[]): Int32Array {
  const indexes = new Map(labels.map((label, i) => [label, i]))
  return Int32Array.from(labels, (label, i) => {
    if (kindOfLabel(label) !== 'known') return i
    const dot = label.indexOf('.')
    return dot < 1 ? i : (indexes.get(label.slice(0, dot).trim()) ?? i)
  })
}

/** One place a label: that of most of its rows. A place with several known labels has none that is its package. */
export function onePlaceEach(ofRow: Float64Array, ofGroup: Float64Array, labels: readonly string[]): Occupancy {
  const packageAt = new Map<number, number>()
  const shared = new Set<number>()
  for (const [label, place] of ofGroup.entries()) {
    if (place < 0 || kindOfLabel(labels[label] ?? '') !== 'known') continue
    if (packageAt.has(place)) shared.add(place)
    packageAt.set(place, label)
  }
  for (const place of shared) packageAt.delete(place)
  return {
    ofRow,
    placesOf: Array.from(ofGroup, (place) => (place < 0 ? [] : [place])),
    holds: (label, place) => place === ofGroup[label],
    packageAt,
    channelAt: new Map(),
  }
}

/**
 * Wrong labels are few at any one place, so a label holds the places where it is common enough. The package at a place is
 * the label with most rows there, or one that holds all of that label's places and more: `CH7` then is one of its
 * channels. Rows of `U5.CH2` count as rows of `U5`, if that is a label.
 */
export function severalPlacesEach(ofRow: Float64Array, labelOf: Int32Array, labels: readonly string[]): Occupancy {
  const { families, own } = tally(ofRow, labelOf, labels)
  const heldBy = held(families, labels)
  const heldByOwn = held(own, labels)
  const packageAt = packages(families, heldBy, labels)
  const channelAt = channels(own, heldByOwn, { heldBy, packageAt, labels })
  const family = packageLabels(labels)
  const isWithin = (label: number, other: number): boolean => isSubset(heldBy[label], heldBy[other])
  const holds = (label: number, place: number): boolean => {
    const owner = packageAt.get(place)
    const whole = family[label] ?? label
    if (owner === undefined || heldBy[whole]?.has(place) !== true) return false
    if (whole !== label && heldByOwn[label]?.has(place) !== true) return false
    return whole === owner || isWithin(whole, owner) || kindOfLabel(labels[label] ?? '') === 'unknown-one'
  }
  const placesOf = labels.map((label, i) => {
    const rows = (label === labels[family[i] ?? i] ? families : own)[i] ?? new Map<number, number>()
    return [...rows].toSorted(([, a], [, b]) => b - a).flatMap(([place]) => (holds(i, place) ? [place] : []))
  })
  return { ofRow, placesOf, holds, packageAt, channelAt }
}

/** Rows of each label at each place. */
type Rows = readonly ReadonlyMap<number, number>[]

/** Rows of each label, and those with what is said of parts of it. */
function tally(ofRow: Float64Array, labelOf: Int32Array, labels: readonly string[]): { families: Rows; own: Rows } {
  const family = packageLabels(labels)
  const families = labels.map(() => new Map<number, number>())
  const own = labels.map(() => new Map<number, number>())
  for (const [row, label] of labelOf.entries()) {
    if (kindOfLabel(labels[label] ?? '') === 'not') continue
    const place = ofRow[row] ?? 0
    for (const counts of [own[label], families[family[label] ?? label]])
      counts?.set(place, (counts.get(place) ?? 0) + 1)
  }
  return { families, own }
}

/** Rows of known labels at each place: all, and those of the commonest. */
function rowsAt(rows: Rows, labels: readonly string[]): ReadonlyMap<number, { all: number; commonest: number }> {
  const at = new Map<number, { all: number; commonest: number }>()
  for (const [label, counts] of rows.entries()) {
    if (kindOfLabel(labels[label] ?? '') !== 'known') continue
    for (const [place, count] of counts) {
      const { all, commonest } = at.get(place) ?? { all: 0, commonest: 0 }
      at.set(place, { all: all + count, commonest: Math.max(commonest, count) })
    }
  }
  return at
}

/** A label holds a place where it is common enough, or has most of several rows; and its fullest one in any case. */
function held(rows: Rows, labels: readonly string[]): ReadonlySet<number>[] {
  const at = rowsAt(rows, labels)
  return rows.map((counts) => {
    const fullest = [...counts.values()].reduce((a, b) => Math.max(a, b), 0)
    const isHeld = ([place, count]: readonly [number, number]): boolean => {
      const { all, commonest } = at.get(place) ?? { all: count, commonest: count }
      const isMost = count > 1 && 2 * count > all
      const isCommon = count >= LEAST_OF_LABEL * fullest && count >= Math.min(LEAST_ROWS, LEAST_OF_PLACE * commonest)
      return count === fullest || isMost || isCommon
    }
    return new Set([...counts].filter(isHeld).map(([place]) => place))
  })
}

function packages(rows: Rows, heldBy: readonly ReadonlySet<number>[], labels: readonly string[]): Map<number, number> {
  const at = new Map<number, number[]>()
  for (const [label, places] of heldBy.entries()) {
    if (kindOfLabel(labels[label] ?? '') !== 'known') continue
    for (const place of places) at.set(place, [...(at.get(place) ?? []), label])
  }
  const sizeOf = (label: number): number => heldBy[label]?.size ?? 0
  const packageAt = new Map<number, number>()
  for (const [place, present] of at) {
    const commonest = present.toSorted((a, b) => (rows[b]?.get(place) ?? 0) - (rows[a]?.get(place) ?? 0))[0] ?? -1
    // A label that lies nearly everywhere says nothing of a package, nor does one with a row or two.
    const isAround = (other: number): boolean =>
      2 * sizeOf(other) <= at.size &&
      (rows[other]?.get(place) ?? 0) >= LEAST_ROWS &&
      isSubset(heldBy[commonest], heldBy[other])
    const around = present.filter((other) => other === commonest || isAround(other))
    packageAt.set(place, around.toSorted((a, b) => sizeOf(b) - sizeOf(a) || a - b)[0] ?? commonest)
  }
  return packageAt
}

interface Around {
  readonly heldBy: readonly ReadonlySet<number>[]
  readonly packageAt: ReadonlyMap<number, number>
  readonly labels: readonly string[]
}

/** The label that holds one place and no other of a package that holds more. */
function channels(rows: Rows, heldByOwn: readonly ReadonlySet<number>[], around: Around): Map<number, number> {
  const { heldBy, packageAt, labels } = around
  const channelAt = new Map<number, number>()
  for (const [label, places] of heldByOwn.entries()) {
    const [place] = places
    if (place === undefined || places.size > 1 || kindOfLabel(labels[label] ?? '') !== 'known') continue
    const owner = packageAt.get(place) ?? -1
    if (owner === label || (heldBy[owner]?.size ?? 0) < 2 || (rows[label]?.get(place) ?? 0) < LEAST_ROWS) continue
    const rival = channelAt.get(place)
    const isMore = rival === undefined || (rows[label]?.get(place) ?? 0) > (rows[rival]?.get(place) ?? 0)
    if (isMore) channelAt.set(place, label)
  }
  return channelAt
}

const isSubset = (some: ReadonlySet<number> = new Set(), all: ReadonlySet<number> = new Set()): boolean =>
  [...some].every((place) => all.has(place))
