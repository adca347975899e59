/** A board sorted for drawing and picking: per side its parts, corridors and pads, each in a spatial index. */
import Flatbush from 'flatbush'
import { type Box, boxOf } from '../../../base/index.ts'
import type { BoardModel, Corridor, PlacedPart, Region, Side } from '../../../board/index.ts'
import { type PadField, padField } from './padField.ts'

interface BoxIndex {
  /** Ascending numbers of the items whose boxes touch the given one. */
  readonly within: (box: Box) => number[]
}

export interface SideScene {
  readonly side: Side
  /** Largest first, so that drawing in this order leaves small parts on top. */
  readonly parts: readonly PlacedPart[]
  readonly partIndex: BoxIndex
  readonly corridors: readonly Corridor[]
  readonly corridorIndex: BoxIndex
  readonly pads: PadField
}

export interface Scene {
  readonly model: BoardModel
  readonly sides: Readonly<Record<Side, SideScene>>
  readonly regionsByPart: ReadonlyMap<string, readonly Region[]>
}

export function buildScene(model: BoardModel): Scene {
  const regionsByPart = new Map<string, Region[]>()
  for (const region of model.regions) {
    const list = regionsByPart.get(region.part)
    if (list) list.push(region)
    else regionsByPart.set(region.part, [region])
  }
  return { model, sides: { top: sideScene(model, 'top'), bottom: sideScene(model, 'bottom') }, regionsByPart }
}

function sideScene(model: BoardModel, side: Side): SideScene {
  const parts = model.parts
    .filter((part) => part.side === side)
    .toSorted((p, q) => q.widthMm * q.lengthMm - p.widthMm * p.lengthMm)
  const corridors = model.corridors.filter((corridor) => corridor.side === side)
  return {
    side,
    parts,
    partIndex: boxIndex(parts.map((part) => part.box)),
    corridors,
    corridorIndex: boxIndex(corridors.map((corridor) => boxOf(corridor.path))),
    pads: padField(parts.flatMap((part) => part.pads)),
  }
}

/** An index that also takes an empty list. */
function boxIndex(boxes: readonly Box[]): BoxIndex {
  if (boxes.length === 0) return { within: () => [] }
  const tree = new Flatbush(boxes.length)
  for (const box of boxes) tree.add(box.minX, box.minY, box.maxX, box.maxY)
  tree.finish()
  return { within: (box) => tree.search(box.minX, box.minY, box.maxX, box.maxY).toSorted((a, b) => a - b) }
}
