/** Swaps lanes and the regions that serve them, and cuts a region in two. */
import {
  bad,
  boxOf,
  type Fault,
  firstSelfCrossing,
  good,
  type Point,
  type Result,
  signedArea,
  unplacePoint,
  say,
} from '../../base/index.ts'
import { patchOf } from '../ball-field.ts'
import { laneIdOf, lanePart, regionNameOf } from '../lanes.ts'
import { loadBoard } from '../load.ts'
import { packageOutlines } from '../packages.ts'
import { placementOf } from '../place.ts'
import type { BoardDescription, LaneDescription, Part } from '../schema.ts'
import type { EditOf } from './edits.ts'
import { partsNamed, roundMm } from './look-up.ts'
import { withFields } from './parts.ts'

interface FoundLane {
  readonly lane: LaneDescription
  /** Of its memory. */
  readonly part: string
  readonly channel: number
  readonly index: number
}

/** The lane of an id with its memory part and its place in the board's channels; undefined where no lane has it. */
export function laneWithId(board: BoardDescription, id: string): FoundLane | undefined {
  for (const [channel, described] of board.memory.channels.entries())
    for (const [index, lane] of described.lanes.entries()) {
      const part = lanePart(described, lane)
      if (laneIdOf(part, lane) === id) return { lane, part, channel, index }
    }
  return undefined
}

/** Ids of the lanes that end on a part: those of its own, or of a core all. */
export const laneIdsOn = (board: BoardDescription, { ref, kind }: Part): string[] =>
  board.memory.channels.flatMap((channel) =>
    channel.lanes.flatMap((lane) => {
      const part = lanePart(channel, lane)
      return kind === 'core' || part === ref ? [laneIdOf(part, lane)] : []
    }),
  )

const noLane = (id: string): Fault => ({
  path: id,
  found: say('no lane of that id'),
  expected: say('a lane of the board'),
})

function bothLanes(board: BoardDescription, [a, b]: readonly [string, string]): Result<[FoundLane, FoundLane]> {
  const first = laneWithId(board, a)
  const second = laneWithId(board, b)
  if (first === undefined || second === undefined)
    return bad(...(first === undefined ? [noLane(a)] : []), ...(second === undefined ? [noLane(b)] : []))
  if (a === b) return bad({ path: a, found: say('the same lane twice'), expected: say('two lanes') })
  return good([first, second])
}

/** Each lane takes the other's place in its channel, and with it the other's data bits. Refuses ids that no lane has. */
export function swapLanes(board: BoardDescription, { lanes }: EditOf<'swap-lanes'>): Result<BoardDescription> {
  const found = bothLanes(board, lanes)
  if (!found.ok) return found
  const [a, b] = found.value
  const inPlaceOf = (old: FoundLane, { lane, part }: FoundLane): LaneDescription =>
    withFields(lane, { part: board.memory.channels[old.channel]?.part === part ? null : part })
  return good(
    withLanes(board, (lane) => (lane === a.lane ? inPlaceOf(a, b) : lane === b.lane ? inPlaceOf(b, a) : lane)),
  )
}

/**
 * Each lane takes the other's memory region with its balls and swaps; drawn corridors go, since they end elsewhere now.
 * Refuses lanes of two parts, and two of which only one names its balls.
 */
export function swapRegions(board: BoardDescription, { lanes }: EditOf<'swap-regions'>): Result<BoardDescription> {
  const found = bothLanes(board, lanes)
  if (!found.ok) return found
  const [a, b] = found.value
  if (a.part !== b.part)
    return bad({
      path: lanes.join(' and '),
      found: say('lanes of {one} and {other}', { one: a.part, other: b.part }),
      expected: say('two lanes of one part'),
    })
  if (a.lane.bits?.length !== b.lane.bits?.length) {
    const balls = [a, b].map(({ lane }) => lane.bits?.length ?? 'no')
    return bad({
      path: lanes.join(' and '),
      found: say('{balls} balls', { balls: balls.join(' and ') }),
      expected: say('two lanes that name as many balls'),
    })
  }
  return good(
    withLanes(board, (lane) =>
      lane === a.lane ? withRegionOf(a.lane, b.lane) : lane === b.lane ? withRegionOf(b.lane, a.lane) : lane,
    ),
  )
}

function withRegionOf(lane: LaneDescription, other: LaneDescription): LaneDescription {
  const region = regionNameOf(other)
  return withFields(lane, {
    corridor: null,
    memoryRegion: region === lane.name ? null : region,
    swaps: other.swaps ?? null,
    bits: lane.bits?.map((bit, i) => ({ ...bit, memoryBall: other.bits?.[i]?.memoryBall ?? bit.memoryBall })),
  })
}

/** The board with every lane of every channel changed. */
export const withLanes = (
  board: BoardDescription,
  change: (lane: LaneDescription) => LaneDescription,
): BoardDescription => ({
  ...board,
  memory: {
    channels: board.memory.channels.map((channel) => ({ ...channel, lanes: channel.lanes.map(change) })),
  },
})

/**
 * Cuts a region along a line of the part's own drawing. The first piece keeps the name; the second takes the new one, and
 * with it the lanes that are named. Refuses an unknown region, a name that is taken, lanes that end elsewhere, and a cut
 * that leaves no simple piece with an area.
 */
export function splitRegion(board: BoardDescription, edit: EditOf<'split-region'>): Result<BoardDescription> {
  const parts = partsNamed(board, [edit.ref])
  if (!parts.ok) return parts
  const [part] = parts.value
  if (part === undefined) return good(board)
  const known = regionsOf(board, part)
  const polygon = known.get(edit.region)
  const path = `${edit.ref}/${edit.region}`
  if (polygon === undefined)
    return bad({
      path,
      found: say('no region of that name'),
      expected: say('one of {names}', { names: [...known.keys()].join(', ') }),
    })
  if (known.has(edit.newName))
    return bad({
      path: `${edit.ref}/${edit.newName}`,
      found: say('a region of that name'),
      expected: say('a name that is free'),
    })
  const strangers = edit.lanes.filter((id) => !endsIn(board, id, part, edit.region))
  if (strangers.length > 0)
    return bad(
      ...strangers.map((id) => ({
        path: id,
        found: say('a lane that does not end in {path}', { path }),
        expected: say('a lane of the region'),
      })),
    )
  const pieces = cut(polygon, edit)
  if (!pieces.every(isSound))
    return bad({ path, found: say('a cut without two whole pieces'), expected: say('a cut through the region') })
  const [first, second] = pieces
  const regions = [
    ...(part.regions ?? []).filter(({ name }) => name !== edit.region),
    { name: edit.region, polygon: [...first] },
    { name: edit.newName, polygon: [...second] },
  ]
  const end = part.kind === 'core' ? 'coreRegion' : 'memoryRegion'
  const going = new Set(edit.lanes.map((id) => laneWithId(board, id)?.lane))
  const drawn = { ...board, parts: board.parts.map((each) => (each === part ? { ...part, regions } : each)) }
  return good(withLanes(drawn, (lane) => (going.has(lane) ? { ...lane, [end]: edit.newName } : lane)))
}

function endsIn(board: BoardDescription, id: string, part: Part, region: string): boolean {
  const found = laneWithId(board, id)
  if (found === undefined) return false
  if (part.kind === 'core') return (found.lane.coreRegion ?? id) === region
  return found.part === part.ref && regionNameOf(found.lane) === region
}

/**
 * Regions of a part by name, in its own drawing in mm: drawn, of its package, and, where the board has no fault, those that
 * are derived.
 */
export function regionsOf(board: BoardDescription, part: Part): ReadonlyMap<string, readonly Point[]> {
  const outline = packageOutlines.get(part.package ?? '')
  const regions = new Map<string, readonly Point[]>()
  for (const region of outline?.regions ?? []) if (outline) regions.set(region.name, patchOf(outline, region))
  for (const { name, polygon } of part.regions ?? []) regions.set(name, polygon)
  const loaded = loadBoard(board)
  if (!loaded.ok) return regions
  for (const region of loaded.value.regions)
    if (region.part === part.ref && !regions.has(region.name))
      regions.set(
        region.name,
        region.polygon.map((point) => unplacePoint(point, placementOf(part))),
      )
  return regions
}

function cut(polygon: readonly Point[], { along, share }: EditOf<'split-region'>): [Point[], Point[]] {
  const box = boxOf(polygon)
  const at = along === 'x' ? box.minX + (box.maxX - box.minX) * share : box.minY + (box.maxY - box.minY) * share
  const beyond = (point: Point): number => point[along] - at
  return [halfOf(polygon, (point) => -beyond(point)), halfOf(polygon, beyond)]
}

/** What of a polygon lies where `inside` is not negative (Sutherland and Hodgman, Reentrant polygon clipping, 1974). */
function halfOf(polygon: readonly Point[], inside: (point: Point) => number): Point[] {
  const half: Point[] = []
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const a = polygon[j]
    const b = polygon[i]
    if (!a || !b) continue
    const [from, to] = [inside(a), inside(b)]
    if (from * to < 0) {
      const t = from / (from - to)
      half.push({ x: roundMm(a.x + (b.x - a.x) * t), y: roundMm(a.y + (b.y - a.y) * t) })
    }
    if (to >= 0) half.push(b)
  }
  return half
}

const isSound = (polygon: readonly Point[]): boolean =>
  polygon.length >= 3 && Math.abs(signedArea(polygon)) > 1e-4 && firstSelfCrossing(polygon) === undefined
