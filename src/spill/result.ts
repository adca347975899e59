/** What the spill room answers. Types only. */
import type { Grid } from '../base/index.ts'
import type { Side } from '../board/index.ts'

export interface ReachField {
  readonly side: Side
  readonly grid: Grid
  /** First-arrival effort from the seed, in mm of bare mask; Infinity where nothing gets. Row by row from the lower left. */
  readonly effortMm: Float32Array
}

export interface ReachResult {
  /** Effort radius at which the wetted set holds the volume, at the mark's own point and amount; with the push where it is known that
   * something pressed it. */
  readonly radiusMm: number
  readonly areaMm2: number
  /** Of the volume, what found no place (the board is full): 0 in the usual case. */
  readonly unplacedMl: number
  readonly fields: readonly ReachField[]
  readonly parts: readonly { readonly ref: string; readonly probability: number }[]
  readonly regions: readonly { readonly id: string; readonly probability: number }[]
  readonly corridors: readonly { readonly lane: string; readonly probability: number }[]
  /** How far it lies about its point, in words that fit the way it moves. */
  readonly extent: string
  /** Sentences: how the substance moves here, and what the model does not know. */
  readonly notes: readonly string[]
}

/**
 * All the ways in which one spill may have gone (every place and amount that was summed over), merged by what they
 * reached. The suspects room sums over the groups; the members give the place back its field.
 */
export interface SpillHypotheses {
  /** Hypotheses that reached exactly the same things. Weights of all groups sum to one. */
  readonly groups: readonly {
    readonly weight: number
    /** Indices into `BoardModel.regions`, ascending. */
    readonly regions: Uint16Array
    /** Indices into `BoardModel.corridors`, ascending. */
    readonly corridors: Uint16Array
    /** Indices into the area marks that were handed in, ascending: those that it got to. */
    readonly areas: Uint16Array
  }[]
  /** One entry a place and amount; arrays of equal length. */
  readonly members: {
    readonly xMm: Float32Array
    readonly yMm: Float32Array
    readonly weight: Float32Array
    readonly group: Uint32Array
  }
  readonly side: Side
  readonly grid: Grid
}
