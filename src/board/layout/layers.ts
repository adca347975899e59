/** The copper layers of a board, and which side a layer's name belongs to. */
import type { Side } from '../schema.ts'

export interface CopperLayer {
  /** Name that the rest of the file uses. */
  readonly name: string
  /** Name that the user gave, or the same. */
  readonly shown: string
}

export interface LayerTable {
  /** From the top down. */
  readonly copper: readonly CopperLayer[]
  readonly topName: string
  readonly bottomName: string
}

/** Side of a copper or technical layer by its name, or undefined for one that belongs to neither. */
export function sideOfLayer(table: LayerTable, layer: string): Side | undefined {
  if (layer === table.topName) return 'top'
  if (layer === table.bottomName) return 'bottom'
  if (layer.startsWith('F.')) return 'top'
  if (layer.startsWith('B.')) return 'bottom'
  return undefined
}

/** Copper layers that a pad's or via's layer list means, wildcards (`*.Cu`, `F&B.Cu`) spelled out. */
export function copperLayersOf(table: LayerTable, names: readonly string[]): string[] {
  if (names.includes('*.Cu')) return table.copper.map((layer) => layer.name)
  if (names.includes('F&B.Cu')) return [table.topName, table.bottomName]
  return table.copper.flatMap((layer) => (names.includes(layer.name) ? [layer.name] : []))
}
