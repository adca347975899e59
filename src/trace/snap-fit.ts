/** The exact part of snapping: an outline is moved, turned and grown by least squares until its edges lie where they are seen. */
import { distance, type Point } from '../base/index.ts'
import { strongestEdge } from './edge-search.ts'
import type { BoardPlane } from './image.ts'
import { type Miss, robustStep } from './least-squares.ts'
import { leanShareSeen } from './snap-lean.ts'
import {
  type BodySize,
  type ClearPlane,
  clearestOf,
  edgesFor,
  edgesIn,
  type EdgesOfSide,
  type Outline,
  type Pose,
  type Sign,
  spotsOf,
} from './snap-outline.ts'

export interface FittedPose extends Pose {
  /** Share of the outline, in its own size, that has an edge in its place, 0 to 1. */
  readonly fit: number
  /** How many times as far as the camera’s place tells its top is seen from its foot. */
  readonly leanShare: number
}

export interface FitWish {
  readonly body: BodySize
  /** Where it may stand, the likeliest first; at least one. */
  readonly starts: readonly [Pose, ...Pose[]]
  /** How far the top is seen from the foot, in mm. */
  readonly leanMm: Point
  /** How well the outline lies on edges there. */
  readonly worth: (pose: Pose) => number
}

/** How far edges are looked for, round by round, in mm. */
const ROUNDS_MM = [0.4, 0.3, 0.22, 0.22]
/** Further than this from where it was begun stands another body. */
const MOST_MOVE_MM = 1
/** Turning a body by more than this from where it was tried is another body. */
const MOST_TURN_DEG = 6
const LEAST_SIGMA_PX = 0.2
/** Parts stand straight: who turns one further than this from how it was tried must lie so much better. */
const STRAIGHT_DEG = 2
const TURNED_WORTH = 0.8
/** A side that is seen by its foot alone is rarer than one that shows its top. */
const FOOT_WORTH = 0.85
/** Closer to each other two poses are one. */
const SAME_MM = 0.01
const SAME_DEG = 0.1
/** A wall that is seen less wide than this is not told from the edge of the top. */
const LEAST_FOOT_MM = 0.08
/** Within so many mm an edge is where the outline has it. */
const THERE_MM = 0.12
/** Further off stands something else, such as the row of capacitors beside a package. */
const THERE_REACH_MM = 0.25
/** Edges of this slope are as clear as any, in grey per pixel: bright parts beside a body must not outweigh its own edges. */
const CLEAR_SLOPE = 4
/** Support counts edges that are clear, the outline’s score those that are whole: the latter counts for more. */
const WORTH_POWER = 3

/**
 * Where a wall is seen, the edge may be that of the top or that of the foot: each side’s both are tried, and what puts the most
 * and clearest edges in their place is taken.
 */
export function fittedPose(
  planes: readonly [BoardPlane, ...BoardPlane[]],
  { body, starts, leanMm, worth }: FitWish,
): FittedPose {
  const [frame] = planes
  const leanPx = { x: leanMm.x * frame.pxPerMm, y: -leanMm.y * frame.pxPerMm }
  const outline: Outline = { body, leanPx, atFoot: [false, false, false, false] }
  const [start] = starts
  const walls = edgesFor(frame, outline, start).map(({ footPx }) => footPx > LEAST_FOOT_MM * frame.pxPerMm)
  let best: FittedPose = { ...start, fit: 0, leanShare: 1 }
  let bestAtFoot = outline.atFoot
  let most = -1
  const tried: { readonly atFoot: readonly boolean[]; readonly pose: Pose }[] = []
  const froms = starts.flatMap((each) => startsFor(each, leanMm))
  const choices = choicesAmong(walls).flatMap((atFoot) => froms.map((from) => ({ atFoot, from })))
  const take = (atFoot: readonly boolean[], pose: Pose): void => {
    if (tried.some((other) => other.atFoot === atFoot && isSame(other.pose, pose))) return
    tried.push({ atFoot, pose })
    const turned = Math.abs(pose.rotationDeg - start.rotationDeg)
    const { clear, fit } = supportOf(planes, { ...outline, atFoot }, pose)
    const likely = FOOT_WORTH ** atFoot.filter(Boolean).length * (turned > STRAIGHT_DEG ? TURNED_WORTH : 1)
    const support = clear * worth(pose) ** WORTH_POWER * likely
    if (support <= most) return
    best = { ...pose, fit, leanShare: 1 }
    bestAtFoot = atFoot
    most = support
  }
  for (const { atFoot, from } of choices) {
    const pose = settled(planes, { ...outline, atFoot }, from)
    take(atFoot, pose)
    if (Math.abs(pose.rotationDeg - from.rotationDeg) > STRAIGHT_DEG)
      take(atFoot, settled(planes, { ...outline, atFoot }, from, STRAIGHT_RIDGE))
  }
  return withOwnLean(planes, { ...outline, atFoot: bestAtFoot }, best)
}

/** Two starts that came to the same place. */
const isSame = (one: Pose, other: Pose): boolean =>
  distance(one.at, other.at) < SAME_MM && Math.abs(one.rotationDeg - other.rotationDeg) < SAME_DEG

/** The same once more with the lean that its walls show, where they do. */
function withOwnLean(planes: readonly BoardPlane[], outline: Outline, first: FittedPose): FittedPose {
  const leanShare = leanShareSeen(planes, outline, first)
  if (leanShare === 1) return first
  const { leanPx } = outline
  const leaning = { ...outline, leanPx: { x: leanPx.x * leanShare, y: leanPx.y * leanShare } }
  return { ...first, ...settled(planes, leaning, first), leanShare }
}

/** Leans up to here may be mistaken for the body itself, where other parts stand in rows close to its foot. */
const CLOSE_LEAN_MM = { least: 0.15, most: 0.8 }

function startsFor(start: Pose, leanMm: Point): Pose[] {
  const lean = Math.hypot(leanMm.x, leanMm.y)
  if (lean < CLOSE_LEAN_MM.least || lean > CLOSE_LEAN_MM.most) return [start]
  return [0, 1, -1].map((by) => ({ ...start, at: { x: start.at.x + by * leanMm.x, y: start.at.y + by * leanMm.y } }))
}

/** Every way to choose top or foot for the sides with a wall. */
function choicesAmong(walls: readonly boolean[]): boolean[][] {
  return walls.reduce<boolean[][]>(
    (choices, wall) =>
      choices.flatMap((choice) =>
        wall
          ? [
              [...choice, false],
              [...choice, true],
            ]
          : [[...choice, false]],
      ),
    [[]],
  )
}

function settled(planes: readonly BoardPlane[], outline: Outline, start: Pose, ridge: readonly number[] = RIDGE): Pose {
  let pose = start
  let grownMm = 0
  const clear = clearEdges(planes, outline, start)
  for (const reachMm of ROUNDS_MM) {
    const change = moveOf(planes, outline, { pose, grownMm, reachMm, clear, ridge })
    if (change === undefined) break
    const [dx = 0, dy = 0, turnDeg = 0, growth = 0] = change
    const next = { at: { x: pose.at.x + dx, y: pose.at.y + dy }, rotationDeg: pose.rotationDeg + turnDeg }
    if (distance(next.at, start.at) > MOST_MOVE_MM || Math.abs(next.rotationDeg - start.rotationDeg) > MOST_TURN_DEG)
      break
    pose = next
    grownMm += growth
  }
  return pose
}

interface Round {
  readonly pose: Pose
  /** How much further out its edges are seen than its size says. */
  readonly grownMm: number
  readonly reachMm: number
  /** In which colour each side is clearest. */
  readonly clear: readonly ClearPlane[]
  /** How each unknown is held back. */
  readonly ridge: readonly number[]
}

/** Bodies differ from their size by less than a tenth of a millimetre: growing is held back. */
const RIDGE = [1e-4, 1e-4, 1e-5, 0.3]
/** The same without turning. */
const STRAIGHT_RIDGE = [1e-4, 1e-4, 1e3, 0.3]

function moveOf(planes: readonly BoardPlane[], outline: Outline, { pose, grownMm, reachMm, clear, ridge }: Round) {
  const [frame] = planes
  if (frame === undefined) return undefined
  const { pxPerMm } = frame
  const reachPx = Math.max(2, reachMm * pxPerMm)
  const misses: Miss[] = []
  for (const [e, edge] of edgesFor(frame, outline, pose, grownMm).entries()) {
    const spots = spotsOf(frame, { edge, pose, atFoot: outline.atFoot[e] ?? false })
    const { plane = 0, sign = 1 } = clear[e] ?? {}
    const seenIn = planes[plane] ?? frame
    for (const [i, spot] of spots.entries()) {
      const found = strongestEdge(seenIn, spot, { reachPx, alongPx: 2, sign })
      if (found === undefined) continue
      const armX = (edge.x[i] ?? 0) / pxPerMm
      const armY = -(edge.y[i] ?? 0) / pxPerMm
      const turning = ((-armY * edge.outX - armX * edge.outY) * Math.PI) / 180
      misses.push({
        miss: found.offsetPx / pxPerMm,
        slopes: [edge.outX, -edge.outY, turning, 1],
        weight: Math.min(1, Math.abs(found.slope) / 3) / spots.length,
      })
    }
  }
  const leastSigma = Math.max(LEAST_SIGMA_PX / pxPerMm, reachMm / 3)
  return misses.length < 12 ? undefined : robustStep(misses, ridge, leastSigma)
}

/** How far edges are looked for to tell in which colour each is clearest, in mm. */
const CLEAR_REACH_MM = 0.4

function clearEdges(planes: readonly BoardPlane[], outline: Outline, pose: Pose): ClearPlane[] {
  const [frame] = planes
  if (frame === undefined) return []
  const reachPx = Math.max(2, CLEAR_REACH_MM * frame.pxPerMm)
  return edgesFor(frame, outline, pose).map((edge, e) =>
    clearestOf(edgesIn(planes, spotsOf(frame, { edge, pose, atFoot: outline.atFoot[e] ?? false }), reachPx)),
  )
}

interface Support {
  /** The sum of the sides’ shares, faint edges counting less. */
  readonly clear: number
  /** The mean share of the sides, the one with least left out: there may be glare. */
  readonly fit: number
}

/**
 * How much of the outline has an edge in its place. A body is darker or brighter than the board about it on all sides, in each
 * colour: edges at odds with that are those of something beside it.
 */
function supportOf(planes: readonly BoardPlane[], outline: Outline, pose: Pose): Support {
  const [first] = planes
  if (first === undefined) return { clear: 0, fit: 0 }
  const farPx = Math.max(1.5, THERE_REACH_MM * first.pxPerMm)
  const alike = planes.flatMap((_, plane) => ([-1, 1] as const).map((sign) => ({ plane, sign, clear: 0 })))
  let clear = 0
  let ofTop = 0
  const shares = edgesFor(first, outline, pose).map((edge, e) => {
    const atFoot = outline.atFoot[e] ?? false
    const seen = edgesIn(planes, spotsOf(first, { edge, pose, atFoot }), farPx)
    const { plane, sign } = clearestOf(seen)
    const best = onEdge(seen[plane] ?? [], sign, first.pxPerMm)
    clear += best.clear
    if (!atFoot) {
      ofTop += best.clear
      for (const each of alike) each.clear += onEdge(seen[each.plane] ?? [], each.sign, first.pxPerMm).clear
    }
    return best.there
  })
  const agreed = alike.reduce((most, each) => Math.max(most, each.clear), 0)
  const share = ofTop > 0 ? Math.min(1, agreed / ofTop) : 1
  const sum = shares.reduce((total, each) => total + each, 0)
  return { clear: clear * share, fit: (sum - Math.min(...shares)) / 3 }
}

/** Share of a side that has an edge in its place, and the same with faint edges counting less. */
function onEdge(edges: EdgesOfSide, sign: Sign, pxPerMm: number): { readonly there: number; readonly clear: number } {
  let there = 0
  let clear = 0
  for (const { [sign]: found } of edges) {
    if (found === undefined) continue
    const near = Math.exp(-((found.offsetPx / pxPerMm / THERE_MM) ** 2))
    there += near
    clear += near * Math.min(1, Math.abs(found.slope) / CLEAR_SLOPE)
  }
  const count = Math.max(1, edges.length)
  return { there: there / count, clear: clear / count }
}
