/** The board as every other room uses it: a checked description with everything derived that it leaves out. Types only. */
import type { Box, Placement, Point } from '../base/index.ts'
import type { AddressMapDescription, BoardDescription, Part, PartKind, Rail, Side } from './schema.ts'

export interface PlacedPart {
  readonly ref: string
  readonly kind: PartKind
  readonly side: Side
  readonly placement: Placement
  readonly widthMm: number
  readonly lengthMm: number
  readonly heightMm: number
  readonly standoffMm: number
  /** Corners of the body on the board, seen from the top. */
  readonly outline: readonly Point[]
  readonly box: Box
  readonly description: Part
  /** Pads or balls on the board, seen from the top; empty where neither package nor pads are given. */
  readonly pads: readonly PlacedPad[]
  readonly ballPitchMm: number | undefined
}

export interface PlacedPad {
  readonly number: string
  readonly at: Point
  readonly widthMm: number
  readonly lengthMm: number
  readonly rotationDeg: number
  readonly round: boolean
  readonly net: string | undefined
  readonly signal: string | undefined
}

/** A named patch of a part's ball field that serves some signals. */
export interface Region {
  /** Part ref, slash, region name: `U13/A0`. Unique on the board. */
  readonly id: string
  readonly part: string
  readonly name: string
  readonly side: Side
  readonly role: 'lane' | 'command' | 'power'
  readonly polygon: readonly Point[]
  readonly centre: Point
  readonly areaMm2: number
  /** Ids of the lanes that stop working when the region does. */
  readonly lanes: readonly string[]
  /** `drawn` in the board file, from the `package`'s ball map, or `derived` from where the lanes run. */
  readonly from: 'drawn' | 'package' | 'derived'
}

export interface Corridor {
  readonly lane: string
  readonly path: readonly Point[]
  readonly widthMm: number
  readonly side: Side
  readonly from: 'drawn' | 'derived'
}

export interface Lane {
  /** Part ref, dot, lane name: `U13.A0`. */
  readonly id: string
  readonly name: string
  readonly channel: string
  readonly part: string
  /** First data bit of the channel that this lane carries. */
  readonly firstBit: number
  readonly bitCount: number
  readonly memoryRegion: string
  /** Undefined where the board has no core, and where the lane never leaves the core's substrate. */
  readonly coreRegion: string | undefined
  /** Ball of the memory package for each bit; undefined where unknown. */
  readonly memoryBalls: readonly (string | undefined)[]
  readonly coreBalls: readonly (string | undefined)[]
}

export interface Channel {
  readonly id: string
  readonly lanes: readonly string[]
  /** Parts that carry its lanes, the channel's own part first. */
  readonly parts: readonly string[]
  readonly bitCount: number
}

export interface BoardModel {
  readonly name: string
  readonly description: BoardDescription
  readonly outline: readonly Point[]
  readonly cutouts: readonly (readonly Point[])[]
  readonly drills: readonly { readonly at: Point; readonly diameterMm: number }[]
  readonly box: Box
  readonly parts: readonly PlacedPart[]
  readonly partByRef: ReadonlyMap<string, PlacedPart>
  readonly core: PlacedPart | undefined
  readonly memories: readonly PlacedPart[]
  readonly regions: readonly Region[]
  readonly regionById: ReadonlyMap<string, Region>
  readonly corridors: readonly Corridor[]
  readonly corridorByLane: ReadonlyMap<string, Corridor>
  readonly channels: readonly Channel[]
  readonly channelById: ReadonlyMap<string, Channel>
  readonly lanes: readonly Lane[]
  readonly laneById: ReadonlyMap<string, Lane>
  readonly rails: readonly Rail[]
  readonly addressMap: AddressMapDescription | undefined
}
