/** What tells one invented card from another. */
import type { z } from 'zod'
import type { addressMapSchema, boardSchema, CoreEdge, FilePart, PatternPackage } from '../../../src/board/index.ts'

export type AddressMapFile = z.input<typeof addressMapSchema>

type SchemaInput = z.input<typeof boardSchema>
export interface BoardFile extends Omit<SchemaInput, 'holes' | 'parts'> {
  readonly holes: { at: { x: number; y: number }; diameterMm: number; plated?: boolean }[]
  readonly parts: FilePart[]
}

export interface CardPlan {
  readonly name: string
  readonly note: string
  readonly widthMm: number
  /** From the tip of the edge connector's tab to the upper edge. */
  readonly heightMm: number
  readonly core: { readonly package: string; readonly sizeMm: number; readonly at: { x: number; y: number } }
  readonly memory: {
    readonly package: PatternPackage
    readonly widthMm: number
    readonly lengthMm: number
    /** Between the core's body and the memory's. */
    readonly gapMm: number
    /** Along each side of the core, clockwise from the upper left: where the middles of the packages stand. */
    readonly offsetsMm: Readonly<Partial<Record<CoreEdge, readonly number[]>>>
    readonly clamshell: boolean
    readonly priceEach: number
  }
  readonly stagesRight: number
  readonly stagesLeft: number
  readonly memoryVolts: number
  /** A 1.8 V rail beside the memory's own; GDDR5 has none. */
  readonly hasVpp: boolean
  readonly corePrice: number
  readonly addressMap: (channelIds: readonly string[]) => AddressMapFile
}
