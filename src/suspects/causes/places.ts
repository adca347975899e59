/** Words for places on the board: `under U1`, `north-east of U1`. North is up on the drawing, seen from the top. */
import { type Point, polygonContains, say } from '../../base/index.ts'
import type { BoardModel, PlacedPart, Side } from '../../board/index.ts'

const COMPASS = ['east', 'north-east', 'north', 'north-west', 'west', 'south-west', 'south', 'south-east'] as const

type Compass = (typeof COMPASS)[number]

/** Compass word for the way from one point to another; it stands in names, so that it is the same in each language. */
export function compassWord(from: Point, to: Point): Compass {
  const eighths = Math.round(Math.atan2(to.y - from.y, to.x - from.x) / (Math.PI / 4))
  return COMPASS[(eighths + 8) % 8] ?? 'east'
}

/** The same as it is said. */
export const compassSaid: Readonly<Record<Compass, string>> = {
  east: say('east'),
  'north-east': say('north-east'),
  north: say('north'),
  'north-west': say('north-west'),
  west: say('west'),
  'south-west': say('south-west'),
  south: say('south'),
  'south-east': say('south-east'),
}

/** Where a point lies: under a big part of that side, else which way from the core, else beside the nearest memory. */
export function placeWords(model: BoardModel, point: Point, side: Side): string {
  const suffix = side === 'bottom' ? say(', bottom side') : ''
  const anchors = model.core === undefined ? model.memories : [model.core, ...model.memories]
  const over = anchors.find((part) => part.side === side && polygonContains(part.outline, point))
  if (over !== undefined) return say('under {ref}{suffix}', { ref: over.ref, suffix })
  if (model.core !== undefined) {
    return say('{at} of {ref}{suffix}', {
      at: compassSaid[compassWord(model.core.placement.at, point)],
      ref: model.core.ref,
      suffix,
    })
  }
  const nearest = nearestPart(model.memories, point)
  return nearest === undefined
    ? say('on the board{suffix}', { suffix })
    : say('{at} of {ref}{suffix}', {
        at: compassSaid[compassWord(nearest.placement.at, point)],
        ref: nearest.ref,
        suffix,
      })
}

/** Where within a part's own field a point lies: `the north-east of U1`, `the middle of U1`. */
export function placeWithin(part: PlacedPart, point: Point): string {
  const middle = { x: (part.box.minX + part.box.maxX) / 2, y: (part.box.minY + part.box.maxY) / 2 }
  const half = Math.max(part.box.maxX - part.box.minX, part.box.maxY - part.box.minY) / 2
  if (Math.hypot(point.x - middle.x, point.y - middle.y) < half * 0.25)
    return say('the middle of {ref}', { ref: part.ref })
  return say('the {middle} of {ref}', { middle: compassSaid[compassWord(middle, point)], ref: part.ref })
}

/** Gap in mm between a point and a part's body on the board; 0 under it. */
export function gapMm(part: PlacedPart, point: Point): number {
  const dx = Math.max(part.box.minX - point.x, 0, point.x - part.box.maxX)
  const dy = Math.max(part.box.minY - point.y, 0, point.y - part.box.maxY)
  return Math.hypot(dx, dy)
}

function nearestPart(parts: readonly PlacedPart[], point: Point): PlacedPart | undefined {
  let best: PlacedPart | undefined
  for (const part of parts) if (best === undefined || gapMm(part, point) < gapMm(best, point)) best = part
  return best
}

const BRANCH = /^branch (.*) of (.*)$/

/** `rail VMEM` of that rail and of its branches; any other place as it is. */
export const railOf = (at: string): string => BRANCH.exec(at)?.[2] ?? at

/** `VMEM west` of the place `branch VMEM west of rail VMEM`. */
export const branchOf = (at: string): string | undefined => BRANCH.exec(at)?.[1]

const RAIL = /^rail (.*)$/
const TRACK = /^the track of (.*)$/

/** A place as it is said: rails, branches and tracks go by names that are the same in each language. */
export function placeSaid(at: string): string {
  const rail = RAIL.exec(railOf(at))?.[1]
  const branch = branchOf(at)
  if (rail !== undefined)
    return branch === undefined ? say('rail {rail}', { rail }) : say('branch {branch} of rail {rail}', { branch, rail })
  const lane = TRACK.exec(at)?.[1]
  return lane === undefined ? at : say('the track of {lane}', { lane })
}
