/** Volume closure: how much a growing wetted set holds, and so how far an amount gets. */
import type { Load } from './film.ts'
import type { Marcher, Seeds } from '../ground/march.ts'
import type { Terrain } from '../ground/terrain.ts'

/** Spacing of the radii at which a curve is kept; between them it runs straight. */
const BIN_MM = 0.5

/** What the set {T <= r} holds, at r = 0, 0.5, 1 mm…: bare mask in mm², and the gaps under bodies in mm³. */
export interface VolumeCurve {
  readonly openMm2: Float64Array
  readonly gapMm3: Float64Array
  /** How many cells the march reached. */
  readonly count: number
  /** True when the march filled all that it can get to: more than the last entry has no place. */
  readonly full: boolean
}

export interface Closure {
  readonly radiusMm: number
  readonly unplacedMm3: number
}

export interface MarchEnd {
  /** Stops here though the load has not found its place. */
  readonly limitMm: number
  /** Goes on to this many times the radius at which it has. */
  readonly beyond: number
}

/**
 * Marches until the load has its place, and as far beyond as `end` says. The curve is what the set {T <= r} holds.
 * A cell fills evenly while the front crosses it, from T − s·c/2 to T + s·c/2, so that the curve has no steps.
 */
export function marchVolume(terrain: Terrain, marcher: Marcher, seeds: Seeds, load: Load, end: MarchEnd): VolumeCurve {
  const cellMm2 = terrain.grid.cellMm ** 2
  let heldMm3 = 0
  let placed = false
  let stopAtMm = end.limitMm
  const stop = (cell: number, effortMm: number): boolean => {
    if (effortMm > stopAtMm) return true
    // Counted cell by cell as the front goes, so that the march ends soon after the load has found its place.
    heldMm3 += cellMm2 * (terrain.underBody[cell] ? (terrain.filmMm[cell] ?? 0) : load.maskFilmMm)
    if (heldMm3 >= load.volumeMm3 && !placed) {
      // One cell and one bin beyond: cells fill over a band about their arrival, and the curve has to be whole at the
      // radius.
      placed = true
      stopAtMm = Math.min(end.limitMm, effortMm * end.beyond + terrain.grid.cellMm + BIN_MM)
    }
    return false
  }
  const count = marcher.run(seeds, Infinity, stop)
  const lastMm = count > 0 ? (marcher.effortMm[marcher.order[count - 1] ?? 0] ?? 0) : 0
  const full = lastMm <= stopAtMm
  return curveOf(
    terrain,
    marcher,
    count,
    full ? lastMm + terrain.grid.cellMm : stopAtMm - terrain.grid.cellMm / 2,
    full,
  )
}

function curveOf(terrain: Terrain, marcher: Marcher, count: number, toMm: number, full: boolean): VolumeCurve {
  const bins = Math.max(2, (full ? Math.ceil(toMm / BIN_MM) : Math.floor(toMm / BIN_MM)) + 1)
  const openMm2 = new Float64Array(bins)
  const gapMm3 = new Float64Array(bins)
  const { cellMm } = terrain.grid
  for (let i = 0; i < count; i++) {
    const cell = marcher.order[i] ?? 0
    const effortMm = marcher.effortMm[cell] ?? 0
    const half = ((terrain.slowness[cell] ?? 0) * cellMm) / 2
    const under = terrain.underBody[cell] === 1
    const amount = cellMm * cellMm * (under ? (terrain.filmMm[cell] ?? 0) : 1)
    spread(under ? gapMm3 : openMm2, amount, Math.max(0, effortMm - half), effortMm + half)
  }
  accumulate(openMm2)
  accumulate(gapMm3)
  return { openMm2, gapMm3, count, full }
}

/** Adds to bin k what fills between its lower neighbour and itself. */
function spread(bins: Float64Array, amount: number, fromMm: number, toMm: number): void {
  const last = bins.length - 1
  const first = Math.min(last, Math.floor(fromMm / BIN_MM))
  const end = Math.min(last, Math.ceil(toMm / BIN_MM))
  const perMm = amount / (toMm - fromMm)
  for (let k = first; k < end; k++) {
    const overlap = Math.min(toMm, (k + 1) * BIN_MM) - Math.max(fromMm, k * BIN_MM)
    bins[k + 1] = (bins[k + 1] ?? 0) + perMm * Math.max(0, overlap)
  }
}

function accumulate(bins: Float64Array): void {
  for (let k = 1; k < bins.length; k++) bins[k] = (bins[k] ?? 0) + (bins[k - 1] ?? 0)
}

/** The effort radius at which the wetted set holds the load, or undefined where the curve ends before it does. */
export function closeVolume(curve: VolumeCurve, load: Load): Closure | undefined {
  const last = curve.openMm2.length - 1
  const heldAt = (k: number): number => (curve.openMm2[k] ?? 0) * load.maskFilmMm + (curve.gapMm3[k] ?? 0)
  // A march that filled all that it can get to and still holds less than the load: the rest ran off.
  const heldMm3 = heldAt(last)
  if (heldMm3 < load.volumeMm3 * (1 - 1e-9)) {
    if (!curve.full) return undefined
    return { radiusMm: last * BIN_MM, unplacedMm3: load.volumeMm3 - heldMm3 }
  }
  // What the set holds never falls with r: halving finds the bin, and within it the curve runs straight.
  let low = 0
  let high = last
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (heldAt(middle) < load.volumeMm3) low = middle
    else high = middle
  }
  const below = heldAt(low)
  const share = (load.volumeMm3 - below) / (heldAt(high) - below)
  return { radiusMm: (low + share) * BIN_MM, unplacedMm3: 0 }
}

/** Radius up to which the curve is known. */
export const curveEndMm = (curve: VolumeCurve): number => (curve.openMm2.length - 1) * BIN_MM
