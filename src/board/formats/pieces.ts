/** What one file, or several, tell of a board: places in mm and degrees, y up, about the files' own origin. Types only. */
import type { Point } from '../../base/index.ts'
import type { Side } from '../schema.ts'

export type PadAccess = Side | 'through'

/** Where a pad lies on the board, seen from the top. */
export interface PiecePad {
  readonly number: string
  readonly at: Point
  /** Zero where no size is told. */
  readonly widthMm: number
  readonly lengthMm: number
  /** On the board, counter-clockwise. */
  readonly rotationDeg: number
  readonly isRound: boolean
  readonly access: PadAccess
  readonly hole: { readonly diameterMm: number; readonly isPlated: boolean } | undefined
  /** Undefined for none, and where the file tells no nets. */
  readonly net: string | undefined
  /** What the pin does, where the file names it. */
  readonly signal: string | undefined
}

/** A line or a closed edge on the board. */
export interface PieceStroke {
  readonly points: readonly Point[]
  readonly isClosed: boolean
  /** Set for a full circle. */
  readonly circle?: { readonly at: Point; readonly radiusMm: number }
}

export interface PiecePart {
  /** Empty where the file gives none. */
  readonly ref: string
  /** Where the file puts the part; undefined where it gives only its pads. */
  readonly at: Point | undefined
  readonly rotationDeg: number | undefined
  readonly side: Side | undefined
  readonly value: string | undefined
  readonly packageName: string | undefined
  readonly heightMm: number | undefined
  readonly bodies: readonly PieceStroke[]
  readonly courtyards: readonly PieceStroke[]
  readonly pads: readonly PiecePad[]
}

export interface PieceCopper {
  readonly name: string
  /** Counted from the top down. */
  readonly order: number
  /** Undefined for inner layers. */
  readonly side: Side | undefined
  readonly thicknessMm: number | undefined
}

export interface PieceTrack {
  readonly net: string
  /** Name of a copper layer. */
  readonly layer: string
  readonly points: readonly Point[]
  readonly widthMm: number
}

export interface PieceVia {
  readonly net: string
  readonly at: Point
  readonly sizeMm: number
  /** Names of the copper layers that it joins. */
  readonly layers: readonly string[]
}

/** A filled area of one net on one layer. */
export interface PiecePour {
  readonly net: string
  readonly layer: string
  readonly points: readonly Point[]
}

/** Formats of files that tell of a board. */
export type BoardFormat = 'kicad' | 'ipc2581' | 'gerber' | 'drill' | 'netlist' | 'placements'

/** What is drilled or milled, without its part. */
export interface PieceDrill {
  /** One point for a round hole; else the middle line of a slot or of a milled path. */
  readonly path: readonly Point[]
  readonly diameterMm: number
  /** Undefined where the file does not tell. */
  readonly isPlated: boolean | undefined
}

export interface Piece {
  /** Names of the files. */
  readonly from: string
  /** Undefined where nothing was read. */
  readonly format: BoardFormat | undefined
  readonly outline: readonly PieceStroke[]
  /** From the top down. */
  readonly copper: readonly PieceCopper[]
  readonly thicknessMm: number | undefined
  readonly parts: readonly PiecePart[]
  readonly tracks: readonly PieceTrack[]
  readonly vias: readonly PieceVia[]
  readonly pours: readonly PiecePour[]
  readonly drills: readonly PieceDrill[]
  /** Letters of a reference that the file keeps; longer ones are cut. */
  readonly refLetters: number | undefined
  /** Letters of a net's name that the file keeps, its last ones and in capitals. */
  readonly netLetters: number | undefined
  readonly untold: readonly string[]
}

/** A piece that tells nothing yet. */
export const emptyPiece = (from: string, format: BoardFormat | undefined): Piece => ({
  from,
  format,
  outline: [],
  copper: [],
  thicknessMm: undefined,
  parts: [],
  tracks: [],
  vias: [],
  pours: [],
  drills: [],
  refLetters: undefined,
  netLetters: undefined,
  untold: [],
})

/** A part of which only the reference is known yet. */
export const emptyPart = (ref: string): PiecePart => ({
  ref,
  at: undefined,
  rotationDeg: undefined,
  side: undefined,
  value: undefined,
  packageName: undefined,
  heightMm: undefined,
  bodies: [],
  courtyards: [],
  pads: [],
})
