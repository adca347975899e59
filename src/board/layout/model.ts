/** A layout in whatever format it came: mm, degrees, y down as on a screen, nothing interpreted yet. Types only. */
import type { Point } from '../../base/index.ts'
import type { LayerTable } from './layers.ts'

export interface LayoutPad {
  readonly number: string
  /** `smd`, `thru_hole`, `np_thru_hole` or `connect`. */
  readonly type: string
  readonly shape: string
  /** In the footprint’s own coordinates, y down. */
  readonly at: Point
  /** Turned on the board, the footprint’s rotation included. */
  readonly rotationDeg: number
  readonly widthMm: number
  readonly lengthMm: number
  readonly drill: { readonly widthMm: number; readonly lengthMm: number } | undefined
  readonly layers: readonly string[]
  readonly net: string | undefined
  readonly signal: string | undefined
  readonly pinType: string | undefined
}

/** A line, arc, circle, rectangle, polygon or curve as a run of points. */
export interface Stroke {
  readonly layer: string
  readonly points: readonly Point[]
  readonly closed: boolean
  /** Set for a full circle. */
  readonly circle?: { readonly at: Point; readonly radiusMm: number }
  readonly line: number
}

export interface Footprint {
  /** Name of the footprint in its library. */
  readonly library: string
  readonly layer: string
  readonly at: Point
  readonly rotationDeg: number
  readonly reference: string
  readonly value: string
  readonly pads: readonly LayoutPad[]
  /** Drawn in the footprint’s own coordinates, y down. */
  readonly strokes: readonly Stroke[]
  readonly line: number
  /** Set where the file places it as a part, whatever is known of its pads. */
  readonly isPlaced?: boolean
  readonly heightMm?: number
}

export interface Track {
  readonly net: string
  readonly layer: string
  readonly points: readonly Point[]
  readonly widthMm: number
}

export interface Via {
  readonly net: string
  readonly at: Point
  readonly sizeMm: number
  /** First and last layer that it joins. */
  readonly layers: readonly string[]
}

/** Copper of one zone on one layer: a piece that is filled, or what the zone's edge encloses where it is not. */
export interface Pour {
  readonly net: string | undefined
  readonly layer: string
  readonly isFilled: boolean
  readonly areaMm2: number
  /** x and y in turn, mm, y down. */
  readonly edge: Float64Array
}

/** A hole, slot or milled path that belongs to no part. */
export interface LooseDrill {
  /** One point for a round hole; else the middle line of what is milled. */
  readonly path: readonly Point[]
  readonly diameterMm: number
  /** Undefined where no file tells. */
  readonly isPlated: boolean | undefined
}

export interface Layout {
  readonly thicknessMm: number | undefined
  readonly layers: LayerTable
  /** Copper layers of the stack-up from the top down, where the file has one. */
  readonly stackup: readonly { readonly name: string; readonly thicknessMm: number | undefined }[]
  readonly footprints: readonly Footprint[]
  readonly edges: readonly Stroke[]
  readonly tracks: readonly Track[]
  readonly vias: readonly Via[]
  readonly pours: readonly Pour[]
  readonly drills?: readonly LooseDrill[]
  /** Nets whose names were too long and were cut. */
  readonly shortenedNets: number
}
