/** What a spill can reach: regions, corridors, parts without regions, and the places of area marks. */
import type { BoardModel, PlacedPart, Region, Side } from '../board/index.ts'
import type { AreaMark } from './marks.ts'
import type { Seeds } from './march.ts'
import { areaSeeds, patchSeeds, stripSeeds } from './seeds.ts'
import type { Terrain } from './terrain.ts'

export interface Target {
  /** Tells it apart on its board. */
  readonly key: string
  readonly side: Side
  /** True for what the user put on the sheet; the rest belongs to the board. */
  readonly isMark: boolean
  /** On the terrain's layer that is the target's side. */
  seeds(terrain: Terrain, layer: number): Seeds
}

export interface BoardTargets {
  /** In the order of `BoardModel.regions`. */
  readonly regions: readonly Target[]
  /** In the order of `BoardModel.corridors`. */
  readonly corridors: readonly Target[]
  /** Parts that have no region, each by its body. */
  readonly bodies: readonly { readonly ref: string; readonly target: Target }[]
  /** Parts that have regions, with the indices of these: such a part is reached when any of them is. */
  readonly regionsOfPart: ReadonlyMap<string, readonly number[]>
}

export function targetsOf(model: BoardModel): BoardTargets {
  const regionsOfPart = new Map<string, number[]>()
  for (const [index, region] of model.regions.entries()) {
    const before = regionsOfPart.get(region.part)
    if (before) before.push(index)
    else regionsOfPart.set(region.part, [index])
  }
  return {
    regions: model.regions.map(regionTarget),
    corridors: model.corridors.map((corridor) => ({
      key: `corridor ${corridor.lane}`,
      isMark: false,
      side: corridor.side,
      seeds: (terrain, layer) => stripSeeds(terrain, layer, corridor.path, corridor.widthMm),
    })),
    bodies: model.parts
      .filter((part) => !regionsOfPart.has(part.ref))
      .map((part) => ({ ref: part.ref, target: bodyTarget(part) })),
    regionsOfPart,
  }
}

const regionTarget = (region: Region): Target => ({
  key: `region ${region.id}`,
  isMark: false,
  side: region.side,
  seeds: (terrain, layer) => patchSeeds(terrain, layer, region.polygon, 'shut'),
})

const bodyTarget = (part: PlacedPart): Target => ({
  key: `part ${part.ref}`,
  isMark: false,
  side: part.side,
  seeds: (terrain, layer) => patchSeeds(terrain, layer, part.outline, 'counts'),
})

/**
 * An area mark counts as reached as soon as any of it is: the effort to it is the least over its shape. For what was seen
 * dirty that reads "the spill got to somewhere in what was painted", for a clean one "nothing in it was got to".
 *
 * However long a stroke, it is one observation. Cut into pieces that count one by one, it would say the same thing over
 * and over: whoever takes old flux for residue does so along the whole of it, and whether the spill covered all of it
 * hangs on the amount, the least certain figure of all. One reading errs towards too little certainty; who sees separate
 * places paints separate marks, and each of them counts.
 */
export const areaTarget = (area: AreaMark): Target => ({
  key: `area ${area.side} ${JSON.stringify([area.at, area.radiusMm, area.path, area.outline])}`,
  isMark: true,
  side: area.side,
  seeds: (terrain, layer) => areaSeeds(terrain, layer, area),
})
