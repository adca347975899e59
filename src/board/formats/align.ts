/** How the places of one file lie to those of another: moved, and where tables do so, mirrored. By what both know. */
import { boxOf, type Point } from '../../base/index.ts'
import { middleOf } from './pads.ts'
import type { Piece, PiecePart, PieceStroke } from './pieces.ts'

/** Parts of two pieces that are one, as the reference says. */
export interface PartPair {
  readonly base: PiecePart
  readonly other: PiecePart
}

export interface Alignment {
  readonly move: (point: Point, part: PiecePart | undefined) => Point
  readonly offset: Point
  readonly mirror: Mirror
  /** What told it: places that both files know, the board's edge, or nothing. */
  readonly by: 'places' | 'edge' | 'nothing'
  readonly fitting: number
  readonly compared: number
}

export type Mirror = 'none' | 'bottom parts' | 'left and right' | 'up and down'

interface PlacePair {
  readonly base: Point
  readonly other: Point
  readonly isBottom: boolean
}

/** A middle of pads and the place of a part can differ so much where pads lie evenly; rounding of formats is far below. */
const FIT_MM = 0.5
/** So many places must fit, else two files are not of one board or not in one scale. */
const FEWEST_SHARE = 0.5
const MIRRORS: readonly Mirror[] = ['none', 'bottom parts', 'left and right', 'up and down']
/** Share of places that must lie on the board when only its edge is known. */
const ON_BOARD_SHARE = 0.95
const EDGE_SLACK_MM = 2

/** @returns how the other piece's places become those of the base */
export function alignmentOf(base: Piece, other: Piece, pairs: readonly PartPair[]): Alignment {
  const places = pairs.flatMap(placesOf)
  const fits = MIRRORS.map((mirror) => fitOf(places, mirror))
  const best = fits.reduce<Fit | undefined>((a, b) => (a === undefined || b.fitting > a.fitting ? b : a), undefined)
  if (best === undefined || places.length === 0 || best.fitting < FEWEST_SHARE * places.length) {
    const offset = pairs.length === 0 ? offsetOnBoard(base, other) : undefined
    const { x, y } = offset ?? { x: 0, y: 0 }
    return {
      move: (point) => ({ x: point.x + x, y: point.y + y }),
      offset: { x, y },
      mirror: 'none',
      by: offset === undefined ? 'nothing' : 'edge',
      fitting: best?.fitting ?? 0,
      compared: places.length,
    }
  }
  const { mirror, top, bottom } = best
  const isBottom = (part: PiecePart | undefined): boolean => part?.side === 'bottom'
  return {
    move: (point, part) => moved(mirrored(point, mirror, isBottom(part)), isBottom(part) ? bottom : top),
    offset: top,
    mirror,
    by: 'places',
    fitting: best.fitting,
    compared: places.length,
  }
}

/** Pins that both know, else the places of the parts. */
function placesOf({ base, other }: PartPair): PlacePair[] {
  const isBottom = (other.side ?? base.side) === 'bottom'
  const pins = onlyOnce(base)
  const pairs = [...onlyOnce(other)].flatMap(([number, at]): PlacePair[] => {
    const pin = pins.get(number)
    return pin === undefined ? [] : [{ base: pin, other: at, isBottom }]
  })
  if (pairs.length > 0) return pairs
  const [from, to] = [placeOf(other, base), placeOf(base, other)]
  return from === undefined || to === undefined ? [] : [{ base: to, other: from, isBottom }]
}

/** Pads whose number stands once on the part. */
function onlyOnce(part: PiecePart): ReadonlyMap<string, Point> {
  const places = new Map<string, Point>()
  const repeated = new Set<string>()
  for (const { number, at } of part.pads) {
    if (number === '' || places.has(number)) repeated.add(number)
    places.set(number, at)
  }
  for (const number of repeated) places.delete(number)
  return places
}

/** Its own place where both have one or it has no pads, else the middle of its pads. */
function placeOf(part: PiecePart, facing: PiecePart): Point | undefined {
  if (part.at !== undefined && (facing.at !== undefined || part.pads.length === 0)) return part.at
  return part.pads.length === 0 ? undefined : middleOf(part.pads)
}

interface Fit {
  readonly mirror: Mirror
  readonly top: Point
  readonly bottom: Point
  readonly fitting: number
}

/** Parts of the bottom get a way of their own only where they are mirrored. */
function fitOf(places: readonly PlacePair[], mirror: Mirror): Fit {
  const differences = places.map((pair) => {
    const from = mirrored(pair.other, mirror, pair.isBottom)
    return { x: pair.base.x - from.x, y: pair.base.y - from.y, isBottom: pair.isBottom }
  })
  const isOwn = mirror === 'bottom parts'
  const top = middle(isOwn ? differences.filter(({ isBottom }) => !isBottom) : differences)
  const bottom = isOwn ? middle(differences.filter(({ isBottom }) => isBottom)) : top
  const fitting = differences.filter(({ x, y, isBottom }) => {
    const way = isBottom ? bottom : top
    return Math.hypot(x - way.x, y - way.y) <= FIT_MM
  }).length
  return { mirror, top, bottom, fitting }
}

function middle(points: readonly Point[]): Point {
  const of = (values: number[]): number => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0
  return settled({ x: of(points.map(({ x }) => x)), y: of(points.map(({ y }) => y)) })
}

/** The same origin, but for the rounding of a format. */
const settled = ({ x, y }: Point): Point => (Math.hypot(x, y) < 0.01 ? { x: 0, y: 0 } : { x, y })

function mirrored({ x, y }: Point, mirror: Mirror, isBottom: boolean): Point {
  if (mirror === 'left and right' || (mirror === 'bottom parts' && isBottom)) return { x: 0 - x, y }
  return mirror === 'up and down' ? { x, y: 0 - y } : { x, y }
}

const moved = (point: Point, way: Point): Point => ({ x: point.x + way.x, y: point.y + way.y })

/** Where only one of the two has an edge and the other places: as they are, else from the lower left corner of the board. */
export function offsetOnBoard(base: Piece, other: Pick<Piece, 'outline' | 'parts' | 'drills'>): Point | undefined {
  const [edge, points] = [cornersOf(base.outline), pointsOf(other)]
  if (edge.length > 0 && points.length > 0) return onto(edge, points)
  const [otherEdge, basePoints] = [cornersOf(other.outline), pointsOf(base)]
  if (otherEdge.length === 0 || basePoints.length === 0) return undefined
  const back = onto(otherEdge, basePoints)
  return back === undefined ? undefined : { x: 0 - back.x, y: 0 - back.y }
}

function onto(edge: readonly Point[], points: readonly Point[]): Point | undefined {
  const board = boxOf(edge)
  const ways = [
    { x: 0, y: 0 },
    { x: board.minX, y: board.minY },
  ]
  return ways.find((way) => {
    const on = points.filter(({ x, y }) => {
      const [here, there] = [x + way.x, y + way.y]
      return (
        here >= board.minX - EDGE_SLACK_MM &&
        here <= board.maxX + EDGE_SLACK_MM &&
        there >= board.minY - EDGE_SLACK_MM &&
        there <= board.maxY + EDGE_SLACK_MM
      )
    })
    return on.length >= ON_BOARD_SHARE * points.length
  })
}

const cornersOf = (outline: readonly PieceStroke[]): Point[] => outline.flatMap(({ points }) => points)

const pointsOf = ({ parts, drills }: Pick<Piece, 'parts' | 'drills'>): Point[] => {
  const places = parts.flatMap(({ at, pads }) => (pads.length > 0 ? pads.map((pad) => pad.at) : (at ?? [])))
  return places.length > 0 ? places : drills.flatMap(({ path }) => path)
}
