/** What a Gerber file draws, in mm, y up. Types only. */
import type { Point } from '../../../base/index.ts'
import type { Attributes } from './attributes.ts'
import type { FlashShape } from './macros.ts'

export interface Aperture {
  /** In mm. */
  readonly shape: FlashShape
  readonly attributes: Attributes
}

export interface Flash {
  readonly at: Point
  readonly aperture: Aperture
  readonly attributes: Attributes
}

/** Lines and arcs without a gap, drawn with one aperture. */
export interface Drawn {
  readonly points: readonly Point[]
  readonly aperture: Aperture
  readonly attributes: Attributes
}

export interface Region {
  readonly points: readonly Point[]
  readonly attributes: Attributes
  readonly apertureAttributes: Attributes
}

export interface Plot {
  readonly file: Attributes
  readonly flashes: readonly Flash[]
  readonly drawn: readonly Drawn[]
  readonly regions: readonly Region[]
  /** Copies of a block that were not made: only the first is here. */
  readonly repeats: boolean
}
