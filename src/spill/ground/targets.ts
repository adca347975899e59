/** What a spill can reach: regions, corridors, parts without regions, and the places of area marks. */
import { type BoardModel, type PlacedPart, type Region, type Side, standsOnBoard } from '../../board/index.ts'
import type { AreaMark } from '../marks.ts'
import type { Seeds } from './march.ts'
import { areaSeeds, noSeeds, patchSeeds, stripSeeds } from './seeds.ts'
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

/** All targets of a board in one row of numbers: regions first, then corridors, then parts. */
export interface BoardTargets {
  readonly list: readonly Target[]
  /** Numbers 0 to regions − 1 are in the order of `BoardModel.regions`. */
  readonly regions: number
  /** The numbers that follow are in the order of `BoardModel.corridors`; from `regions + corridors` on they are parts. */
  readonly corridors: number
  /** The parts, by number less regions and corridors: those without regions, each by its body, then those with. */
  readonly parts: readonly { readonly ref: string; readonly side: Side; readonly hasRegions: boolean }[]
  /** For each region the number of its part: a part that has regions is reached when any of them is. */
  readonly partOfRegion: Uint16Array
  /** Refs of the parts with regions: their gaps are open or shut as a whole. */
  readonly bodies: readonly string[]
  /** For each region the number of its part among these. */
  readonly bodyOfRegion: Uint16Array
}

/**
 * All targets of a board with their numbers. A part that has regions is no target of its own in `list`: it is reached
 * when one of its regions is.
 */
export function targetsOf(model: BoardModel): BoardTargets {
  const withRegions = [...new Set(model.regions.map(({ part }) => part))]
  const without = model.parts.filter(({ ref }) => !withRegions.includes(ref))
  const others = withRegions.flatMap((ref) => model.partByRef.get(ref) ?? [])
  const corridors = model.corridors.map(
    (corridor): Target => ({
      key: `corridor ${corridor.lane}`,
      isMark: false,
      side: corridor.side,
      seeds: (terrain, layer) => stripSeeds(terrain, layer, corridor.path, corridor.widthMm),
    }),
  )
  const onSubstrate = new Set(model.parts.flatMap((part) => (standsOnBoard(part) ? [] : [part.ref])))
  const firstPart = model.regions.length + corridors.length
  return {
    list: [
      ...model.regions.map((region) => regionTarget(region, onSubstrate.has(region.part))),
      ...corridors,
      ...without.map(bodyTarget),
    ],
    regions: model.regions.length,
    corridors: corridors.length,
    parts: [
      ...without.map(({ ref, side }) => ({ ref, side, hasRegions: false })),
      ...others.map(({ ref, side }) => ({ ref, side, hasRegions: true })),
    ],
    partOfRegion: Uint16Array.from(model.regions, ({ part }) => firstPart + without.length + withRegions.indexOf(part)),
    bodies: withRegions,
    bodyOfRegion: Uint16Array.from(model.regions, ({ part }) => withRegions.indexOf(part)),
  }
}

/** @param isSealed on the core's substrate: nothing that lies on the board gets there */
const regionTarget = (region: Region, isSealed: boolean): Target => ({
  key: `region ${region.id}`,
  isMark: false,
  side: region.side,
  seeds: (terrain, layer) => (isSealed ? noSeeds : patchSeeds(terrain, layer, region.polygon, 'shut')),
})

const bodyTarget = (part: PlacedPart): Target => ({
  key: `part ${part.ref}`,
  isMark: false,
  side: part.side,
  seeds: (terrain, layer) => (standsOnBoard(part) ? patchSeeds(terrain, layer, part.outline, 'counts') : noSeeds),
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
