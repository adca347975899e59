/** Puts parts elsewhere, turned or on the other side; probe points and drawn corridors that end on them come along. */
import { bad, type Fault, good, placePoint, type Point, type Result, unplacePoint, say } from '../../base/index.ts'
import { laneIdOf, lanePart } from '../lanes.ts'
import { placementOf } from '../place.ts'
import type { BoardDescription, LaneDescription, Part, Rail, Side } from '../schema.ts'
import type { EditOf } from './edits.ts'
import { partBox, partsNamed, roundMm } from './look-up.ts'

/** Where a part is to stand; what is left out stays. */
export interface NewPlace {
  readonly at?: Point
  readonly rotationDeg?: number
  readonly side?: Side
}

const FARTHEST_MM = 2000

/** Moves parts by mm. Refuses refs that no part has, and places that a board file can't say. */
export function move(board: BoardDescription, { refs, byMm }: EditOf<'move'>): Result<BoardDescription> {
  const parts = partsNamed(board, refs)
  if (!parts.ok) return parts
  return placed(board, new Map(parts.value.map(({ ref, at }) => [ref, { at: { x: at.x + byMm.x, y: at.y + byMm.y } }])))
}

/** Puts one part at a place in mm; the same refusals as `move`. */
export function place(board: BoardDescription, { ref, at }: EditOf<'place'>): Result<BoardDescription> {
  const parts = partsNamed(board, [ref])
  return parts.ok ? placed(board, new Map([[ref, { at }]])) : parts
}

/** Turns parts counter-clockwise seen from the top, in degrees, each about its place or all about their middle. */
export function rotate(board: BoardDescription, { refs, byDeg, about }: EditOf<'rotate'>): Result<BoardDescription> {
  const parts = partsNamed(board, refs)
  if (!parts.ok) return parts
  const middle = middleOf(parts.value)
  const turned = parts.value.map(({ ref, at, rotationDeg }): [string, NewPlace] => {
    const angle = roundMm((((rotationDeg + byDeg) % 360) + 360) % 360)
    if (about === 'each') return [ref, { rotationDeg: angle }]
    const away = { x: at.x - middle.x, y: at.y - middle.y }
    return [ref, { rotationDeg: angle, at: placePoint(away, { at: middle, rotationDeg: byDeg, mirrored: false }) }]
  })
  return placed(board, new Map(turned))
}

/** The middle of the box about all bodies; of one part its own place, so that turning never moves it. */
function middleOf(parts: readonly Part[]): Point {
  const [first, second] = parts
  if (first !== undefined && second === undefined) return first.at
  const boxes = parts.map(partBox)
  const low = { x: Math.min(...boxes.map(({ minX }) => minX)), y: Math.min(...boxes.map(({ minY }) => minY)) }
  const high = { x: Math.max(...boxes.map(({ maxX }) => maxX)), y: Math.max(...boxes.map(({ maxY }) => maxY)) }
  return { x: (low.x + high.x) / 2, y: (low.y + high.y) / 2 }
}

/** Puts parts on a side, at their places and turned as they are; their drawings are mirrored by it. */
export function changeSide(board: BoardDescription, { refs, to }: EditOf<'change-side'>): Result<BoardDescription> {
  const parts = partsNamed(board, refs)
  return parts.ok ? placed(board, new Map(parts.value.map(({ ref }) => [ref, { side: to }]))) : parts
}

/**
 * The board with parts at new places; points on them and ends of drawn corridors keep their spot on the part.
 * Refuses places beyond 2000 mm. The same board where nothing stands otherwise than before.
 */
export function placed(board: BoardDescription, places: ReadonlyMap<string, NewPlace>): Result<BoardDescription> {
  const before = new Map<string, Part>()
  const after = new Map<string, Part>()
  const note = (part: Part, there: Part): void => {
    if (there === part) return
    before.set(part.ref, part)
    after.set(part.ref, there)
  }
  for (const part of board.parts) {
    const next = places.get(part.ref)
    if (next !== undefined) note(part, standing(part, next))
  }
  for (const part of board.parts) {
    const from = before.get(part.carriedBy ?? '')
    const to = after.get(part.carriedBy ?? '')
    if (from !== undefined && to !== undefined && !places.has(part.ref)) note(part, carriedAlong(part, from, to))
  }
  if (after.size === 0) return good(board)
  const faults = [...after.values()].flatMap(farAway)
  if (faults.length > 0) return bad(...faults)
  const follow: Follow = (ref, point) => {
    const from = before.get(ref)
    const to = after.get(ref)
    return from === undefined || to === undefined ? point : roundedPoint(onPart(point, from, to))
  }
  const moved: Moved = { before, after, follow }
  return good({
    ...board,
    parts: board.parts.map((part) => after.get(part.ref) ?? part),
    rails: board.rails.map((rail) => withPoints(rail, moved)),
    memory: withCorridors(board, moved),
  })
}

type Follow = (ref: string, point: Point) => Point
interface Moved {
  readonly before: ReadonlyMap<string, Part>
  readonly after: ReadonlyMap<string, Part>
  readonly follow: Follow
}

function standing(part: Part, { at = part.at, rotationDeg = part.rotationDeg, side = part.side }: NewPlace): Part {
  const there = roundedPoint(at)
  const same = there.x === part.at.x && there.y === part.at.y && rotationDeg === part.rotationDeg && side === part.side
  return same ? part : { ...part, at: there, rotationDeg, side }
}

/** What stands on a core goes where that goes, turned with it. */
function carriedAlong(part: Part, from: Part, to: Part): Part {
  const turn = from.side === to.side ? to.rotationDeg - from.rotationDeg : to.rotationDeg + from.rotationDeg
  const own = from.side === to.side ? part.rotationDeg : -part.rotationDeg
  const rotationDeg = roundMm((((own + turn) % 360) + 360) % 360)
  return standing(part, { at: onPart(part.at, from, to), rotationDeg, side: to.side })
}

const roundedPoint = ({ x, y }: Point): Point => ({ x: roundMm(x), y: roundMm(y) })

const onPart = (point: Point, from: Part, to: Part): Point =>
  placePoint(unplacePoint(point, placementOf(from)), placementOf(to))

const farAway = ({ ref, at }: Part): Fault[] =>
  Math.abs(at.x) <= FARTHEST_MM && Math.abs(at.y) <= FARTHEST_MM
    ? []
    : [
        {
          path: ref,
          found: say('a place at ({x}, {y})', { x: at.x, y: at.y }),
          expected: say('a place within {farthestMm} mm', { farthestMm: FARTHEST_MM }),
        },
      ]

function withPoints(rail: Rail, { before, after, follow }: Moved): Rail {
  if (!rail.points.some(({ part }) => part !== undefined && after.has(part))) return rail
  return {
    ...rail,
    points: rail.points.map((point) => {
      const { part } = point
      const to = part === undefined ? undefined : after.get(part)
      if (part === undefined || to === undefined) return point
      const turnedOver = before.get(part)?.side !== to.side
      const side = turnedOver ? (point.side === 'top' ? ('bottom' as const) : ('top' as const)) : point.side
      return { ...point, at: follow(part, point.at), side }
    }),
  }
}

/** A corridor is drawn from the core to the memory: its first point stays on the one, its last on the other. */
function withCorridors(board: BoardDescription, { after, follow }: Moved): BoardDescription['memory'] {
  const core = board.parts.find(({ kind }) => kind === 'core')?.ref
  const moves = (lane: LaneDescription, part: string): boolean =>
    lane.corridor !== undefined && (after.has(part) || (core !== undefined && after.has(core)))
  const { channels } = board.memory
  if (!channels.some((channel) => channel.lanes.some((lane) => moves(lane, lanePart(channel, lane)))))
    return board.memory
  return {
    channels: channels.map((channel) => ({
      ...channel,
      lanes: channel.lanes.map((lane) => {
        const part = lanePart(channel, lane)
        const { corridor } = lane
        if (corridor === undefined || !moves(lane, part)) return lane
        const last = corridor.length - 1
        return {
          ...lane,
          corridor: corridor.map((point, i) =>
            i === 0 && core !== undefined ? follow(core, point) : i === last ? follow(part, point) : point,
          ),
        }
      }),
    })),
  }
}

/** Ids of the lanes of a part, `U13.A0`, in the order of the channels. */
export const lanesOfPart = (board: BoardDescription, ref: string): string[] =>
  board.memory.channels.flatMap((channel) =>
    channel.lanes.flatMap((lane) => (lanePart(channel, lane) === ref ? laneIdOf(ref, lane) : [])),
  )
