/** What stands in front of the steps of an IPC-2581 file or beside them, and they refer to. */
import type { Side } from '../../schema.ts'
import { childOf, lengthOf, mmPerUnit, type Shape, shapeIn } from './shapes.ts'
import type { XmlElement } from './xml.ts'

export interface NamedLayer {
  readonly name: string
  readonly kind: string
  readonly side: Side | undefined
}

/** What stands in front of the steps and they refer to. */
export class Dictionary {
  /** Of the board data; dictionaries have units of their own. */
  mm = 1
  readonly shapes = new Map<string, Shape>()
  readonly lineWidths = new Map<string, number>()
  /** By part and pin, and by place: nets stand within a step or beside it. */
  readonly netOfPin = new Map<string, string>()
  readonly netAt = new Map<string, string>()
  /** In the order of the file. */
  readonly layers = new Map<string, NamedLayer>()

  addEntry(entry: XmlElement, units: string | undefined): void {
    const mm = mmPerUnit(units) ?? this.mm
    const id = entry.attributes['id'] ?? ''
    const width = lengthOf(childOf(entry, 'LineDesc'), 'lineWidth', mm)
    if (entry.name === 'EntryLineDesc' && width !== undefined) this.lineWidths.set(id, width)
    const shape = entry.name === 'EntryLineDesc' ? undefined : shapeIn(entry, mm)
    if (shape !== undefined) this.shapes.set(id, shape)
  }

  addLayer({ attributes }: XmlElement): void {
    const { name = '', side = '', layerFunction: kind = '' } = attributes
    this.layers.set(name, { name, kind: kind.toUpperCase(), side: sideOf(side) })
  }

  sideOf(layerRef: string): Side | undefined {
    return this.layers.get(layerRef)?.side ?? sideOf(layerRef)
  }
}

function sideOf(word: string): Side | undefined {
  if (/^top$/i.test(word)) return 'top'
  return /^bottom$/i.test(word) ? 'bottom' : undefined
}

/** Functions of layers that are copper, of all revisions. */
const COPPER = /^(CONDUCTOR|SIGNAL|PLANE|MIXED|POWER_GROUND|CONDFILM|CONDFOIL)$/
/** By the function that the file gives the layer; none for one that it doesn't list. */
export const isCopper = (layer: NamedLayer | undefined): boolean => COPPER.test(layer?.kind ?? '')
