/**
 * Places on the board: names that the program goes by (`the north edge of U1`) with how they are said, and words for a point
 * (`under U1`, `north-east of U1`). North is up on the drawing, seen from the top.
 */
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

/** Where within a part's own field a point lies: `the north-east of U1`, `the middle of U1`; said by `placeSaid`. */
export function placeWithin(part: PlacedPart, point: Point): string {
  const middle = { x: (part.box.minX + part.box.maxX) / 2, y: (part.box.minY + part.box.maxY) / 2 }
  const half = Math.max(part.box.maxX - part.box.minX, part.box.maxY - part.box.minY) / 2
  const isMiddle = Math.hypot(point.x - middle.x, point.y - middle.y) < half * 0.25
  return `the ${isMiddle ? 'middle' : compassWord(middle, point)} of ${part.ref}`
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

/** Whether a place is two controllers of the core. */
export const isTwoControllers = (at: string): boolean => at.startsWith('the controllers of ')

const way = (word: string): string => {
  const known = COMPASS.find((each) => each === word)
  return known === undefined ? word : compassSaid[known]
}

/** Places by the names that the program goes by, the same in each language, with how each is said. */
const NAMED: readonly (readonly [RegExp, (first: string, second: string) => string])[] = [
  [/^rail (.*)$/, (rail) => say('rail {rail}', { rail })],
  [/^branch (.*) of rail (.*)$/, (branch, rail) => say('branch {branch} of rail {rail}', { branch, rail })],
  [/^the track of (.*)$/, (lane) => say('the track of {lane}', { lane })],
  [/^channel (.*) in (.*)$/, (id, ref) => say('channel {id} in {ref}', { id, ref })],
  [
    /^the controller of channel (.*) in (.*)$/,
    (id, ref) => say('the controller of channel {id} in {ref}', { id, ref }),
  ],
  [
    /^the controllers of channels (.*) in (.*)$/,
    (ids, ref) => {
      const [id = '', next = ''] = ids.split(' and ')
      return say('the controllers of channels {id} and {next} in {ref}', { id, next, ref })
    },
  ],
  [/^the (\S+) edge of (.*)$/, (word, ref) => say('the {way} edge of {ref}', { way: way(word), ref })],
  [/^the (\S+) side of (.*)$/, (word, ref) => say('the {way} side of {ref}', { way: way(word), ref })],
  [/^the middle of (.*)$/, (ref) => say('the middle of {ref}', { ref })],
  [/^the (\S+) of (.*)$/, (word, ref) => say('the {way} of {ref}', { way: way(word), ref })],
  [/^(.*) as refitted$/, (ref) => say('{ref} as refitted', { ref })],
]

/** A place as it is said in the language that is spoken; what has no such name, such as a part's ref, as it is. */
export function placeSaid(at: string): string {
  for (const [form, said] of NAMED) {
    const match = form.exec(at)
    if (match !== null) return said(match[1] ?? '', match[2] ?? '')
  }
  return at
}
