/**
 * What parts share, for boards on which so much fails that explained sets are too many: rows (every way in which the
 * reported spills can lie), further places (a state of another spatial cause), and sets of shared point causes.
 */
import type { Firing } from './lattice.ts'
import type { Problem } from './posterior.ts'
import type { ReducedPoint, ReducedSpatial } from './reduce.ts'

/** One way in which one or several spatial causes touch the bad findings. */
export interface Place {
  readonly weight: number
  readonly lifts: readonly number[]
  /** Spatial cause and group of each that touches. */
  readonly chosen: readonly { readonly spatial: number; readonly group: number }[]
  /** By bit: what it leaves good. */
  readonly good: Float64Array
}

export interface SharedSpatial {
  readonly reduced: ReducedSpatial
  /** Number among `Posterior.groups`. */
  readonly index: number
  /** Weight of all states that touch no bad finding. */
  readonly untouching: number
}

export function sharedSpatials(problem: Problem): { grounds: SharedSpatial[]; others: SharedSpatial[] } {
  const spatials = problem.moving === undefined ? problem.standing : [...problem.standing, problem.moving]
  const all = spatials.map((reduced, index) => ({ reduced, index, untouching: untouchingWithout(reduced, new Set()) }))
  return {
    grounds: all.filter(({ reduced }) => reduced.cause.kind === 'spill'),
    others: all.filter(({ reduced }) => reduced.cause.kind !== 'spill'),
  }
}

/** Weight of the states that touch nothing bad and lift none of these parts. */
export function untouchingWithout(spatial: ReducedSpatial, banned: ReadonlySet<number>): number {
  let weight = spatial.absent
  for (const group of spatial.groups) {
    if (group.firing.bits.length === 0 && !group.lifts.some((part) => banned.has(part))) weight += group.weight
  }
  return weight
}

const leave = (good: Float64Array, firing: Firing): Float64Array => {
  const left = good.slice()
  for (const [i, bit] of firing.bits.entries()) left[bit] = (left[bit] ?? 1) * (1 - (firing.q[i] ?? 0))
  return left
}

/** States of one spatial cause that touch something bad. */
function placesOf(n: number, { reduced, index }: SharedSpatial): Place[] {
  const untouched = new Float64Array(n).fill(1)
  return reduced.groups.flatMap(({ weight, firing, lifts }, group) =>
    firing.bits.length === 0 || weight === 0
      ? []
      : [{ weight, lifts, chosen: [{ spatial: index, group }], good: leave(untouched, firing) }],
  )
}

/**
 * Every way in which some spatial causes can lie, "touches nothing" included, likeliest first.
 * @returns the `most` likeliest rows, and whether that left any out
 */
export function rowsOf(n: number, spatials: readonly SharedSpatial[], most: number): { rows: Place[]; cut: boolean } {
  const untouched = new Float64Array(n).fill(1)
  let rows: Place[] = [{ weight: 1, lifts: [], chosen: [], good: untouched }]
  let cut = false
  for (const spatial of spatials) {
    const nowhere: Place = { weight: spatial.untouching, lifts: [], chosen: [], good: untouched }
    const places = [nowhere, ...placesOf(n, spatial)].filter(({ weight }) => weight > 0).toSorted(byWeight)
    if (rows.length * places.length > most) cut = true
    // The likeliest `most` products of two sorted lists lie where (i + 1) · (j + 1) does not exceed `most`.
    rows = rows
      .flatMap((row, i) => places.slice(0, Math.floor(most / (i + 1))).map((place) => both(row, place)))
      .toSorted(byWeight)
      .slice(0, most)
  }
  return { rows, cut }
}

const byWeight = (a: Place, b: Place): number => b.weight - a.weight

function both(row: Place, place: Place): Place {
  return {
    weight: row.weight * place.weight,
    lifts: place.lifts.length === 0 ? row.lifts : [...row.lifts, ...place.lifts],
    chosen: place.chosen.length === 0 ? row.chosen : [...row.chosen, ...place.chosen],
    good: place.chosen.length === 0 ? row.good : row.good.map((value, bit) => value * (place.good[bit] ?? 1)),
  }
}

/** A set of shared point causes, all others of them absent. */
export interface PointSet {
  /** Positions in the list of shared points. */
  readonly members: readonly number[]
  readonly weight: number
  readonly good: Float64Array
}

export function pointSet(n: number, shared: readonly ReducedPoint[], members: readonly number[]): PointSet {
  let weight = 1
  let good: Float64Array = new Float64Array(n).fill(1)
  for (const [at, point] of shared.entries()) {
    const there = members.includes(at)
    weight *= there ? point.probability : 1 - point.probability
    if (there) good = leave(good, point.firing)
  }
  return { members, weight, good }
}
