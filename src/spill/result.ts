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
  /** Effort radius at which the wetted set holds the volume, at the mark's own point and amount. */
  readonly radiusMm: number
  readonly areaMm2: number
  /** Of the volume, what found no place (the board is full): 0 in the usual case. */
  readonly unplacedMl: number
  readonly fields: readonly ReachField[]
  readonly parts: readonly { readonly ref: string; readonly probability: number }[]
  readonly regions: readonly { readonly id: string; readonly probability: number }[]
  readonly corridors: readonly { readonly lane: string; readonly probability: number }[]
  /** Sentences: how the substance moves here, and what the model does not know. */
  readonly notes: readonly string[]
}

/**
 * One thing that may have happened with the spill, with its weight: which regions and corridors it reached.
 * The suspects room sums over these.
 */
export interface SpillHypothesis {
  readonly weight: number
  readonly at: { readonly x: number; readonly y: number }
  readonly radiusMm: number
  /** Indices into `BoardModel.regions` and `BoardModel.corridors`. */
  readonly regions: Uint16Array
  readonly corridors: Uint16Array
}
