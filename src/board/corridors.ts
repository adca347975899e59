/** The strip of board along which each lane runs: as drawn, else straight from the core's region to the memory's. */
import { type Point } from '../base/index.ts'
import type { Corridor, Lane, PlacedPart, Region } from './model.ts'
import { lastCrossing } from './polygons.ts'
import type { LaneDescription, Side } from './schema.ts'

/** Width of a derived corridor: trace and space per data bit, and the strobes beside them. Common practice, no source. */
const WIDTH_PER_BIT_MM = 0.35
const WIDTH_BESIDE_MM = 0.6

const corridorWidthMm = (bitCount: number): number => WIDTH_PER_BIT_MM * bitCount + WIDTH_BESIDE_MM

/** The lane's corridor, or undefined where nothing is drawn and one of its ends is unknown. */
export function corridorOf(
  lane: Lane,
  described: LaneDescription | undefined,
  part: PlacedPart,
  regionById: ReadonlyMap<string, Region>,
): Corridor | undefined {
  const widthMm = described?.corridorWidthMm ?? corridorWidthMm(lane.bitCount)
  if (described?.corridor !== undefined)
    return { lane: lane.id, path: described.corridor, widthMm, side: part.side, from: 'drawn' }
  const memory = regionById.get(lane.memoryRegion)
  const core = lane.coreRegion === undefined ? undefined : regionById.get(lane.coreRegion)
  if (!memory || !core) return undefined
  return straight(lane.id, core, memory, widthMm, part.side)
}

/** From where the line between the two centres leaves the core's region to where it enters the memory's. */
function straight(lane: string, core: Region, memory: Region, widthMm: number, side: Side): Corridor {
  const leaves = lastCrossing(core.polygon, core.centre, memory.centre) ?? 0
  const enters = 1 - (lastCrossing(memory.polygon, memory.centre, core.centre) ?? 0)
  const [from, to] = leaves < enters ? [leaves, enters] : [0, 1]
  const along = (share: number): Point => ({
    x: core.centre.x + (memory.centre.x - core.centre.x) * share,
    y: core.centre.y + (memory.centre.y - core.centre.y) * share,
  })
  return { lane, path: [along(from), along(to)], widthMm, side, from: 'derived' }
}
