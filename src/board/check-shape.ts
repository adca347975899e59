/** Faults of the board's own shape: outline, holes, cut-outs, and corridors that leave it. */
import {
  boxOf,
  decimals,
  distanceToSegment,
  type Fault,
  jsonPath,
  type Point,
  polygonContains,
  say,
} from '../base/index.ts'
import { checkPolygon } from './check-parts.ts'
import type { BoardDraft } from './draft.ts'

/** How far a corner of a cut-out may lie beyond the edge: rounding. */
const EDGE_SLACK_MM = 0.05
/** How far a corridor may lie beyond the edge before it must be a slip. */
const CORRIDOR_SLACK_MM = 5

/** Empty where the outline did not parse. A wrong outline hides the other faults, since they are held against it. */
export function checkShape(draft: BoardDraft): Fault[] {
  const { outline } = draft
  if (outline === undefined) return []
  const faults = checkPolygon('$.outline', outline)
  return faults.length > 0 ? faults : [...checkHoles(draft, outline), ...checkCorridors(draft, outline)]
}

/** Distance from the board in mm: 0 on it. */
export function distanceOffBoard(outline: readonly Point[], point: Point): number {
  if (polygonContains(outline, point)) return 0
  let nearest = Infinity
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const a = outline[j]
    const b = outline[i]
    if (a && b) nearest = Math.min(nearest, distanceToSegment(point, a, b))
  }
  return nearest
}

function checkHoles(draft: BoardDraft, outline: readonly Point[]): Fault[] {
  return draft.holes.flatMap(({ index, value }) => {
    if ('polygon' in value) {
      const path = jsonPath(['holes', index, 'polygon'])
      const faults = checkPolygon(path, value.polygon)
      const off = farthestOff(outline, value.polygon)
      if (off <= EDGE_SLACK_MM) return faults
      const found = say('a cut-out that reaches {off} mm beyond the board’s edge', { off: decimals(off, 2) })
      return [...faults, { path, found, expected: say('a cut-out inside the outline') }]
    }
    const off = distanceOffBoard(outline, value.at)
    if (off <= value.diameterMm / 2) return []
    const found = say('a hole {off} mm off the board, at ({x}, {y})', {
      off: decimals(off, 2),
      x: value.at.x,
      y: value.at.y,
    })
    return [{ path: jsonPath(['holes', index, 'at']), found, expected: say('a hole within the outline') }]
  })
}

function checkCorridors(draft: BoardDraft, outline: readonly Point[]): Fault[] {
  return draft.channels.flatMap(({ index, value }) =>
    value.lanes.flatMap((lane, i) => {
      const off = farthestOff(outline, lane.corridor ?? [])
      if (off <= CORRIDOR_SLACK_MM) return []
      const path = jsonPath(['memory', 'channels', index, 'lanes', i, 'corridor'])
      const found = say('a corridor that leaves the board by {off} mm', { off: decimals(off, 1) })
      return [{ path, found, expected: say('a path on the board, in the board’s own mm') }]
    }),
  )
}

/** The farthest that any of the points lies off the board; points within the outline's box are looked at first. */
export function farthestOff(outline: readonly Point[], points: readonly Point[]): number {
  const box = boxOf(outline)
  let farthest = 0
  for (const point of points) {
    const beyondBox = Math.max(box.minX - point.x, point.x - box.maxX, box.minY - point.y, point.y - box.maxY)
    farthest = Math.max(farthest, beyondBox > farthest ? beyondBox : distanceOffBoard(outline, point))
  }
  return farthest
}
