/** Whether the drawing of a board is of a detail that can be checked in a few seconds. */
import { type Fault, say } from '../base/index.ts'
import type { BoardDraft } from './draft.ts'

/** Pairs of edges, and of points and edges, that the checks may have to look at. */
const MAX_PAIRS = 1e9

/** One fault when the polygons and corridors have so many corners that checking them would not end soon. */
export function checkDetail(draft: BoardDraft): Fault | undefined {
  const edges = draft.outline?.length ?? 0
  const cutouts = draft.holes.map(({ value }) => ('polygon' in value ? value.polygon.length : 1))
  const regions = draft.parts.flatMap(({ value }) => (value.regions ?? []).map((region) => region.polygon.length))
  const corridors = draft.channels.flatMap(({ value }) => value.lanes.map((lane) => lane.corridor?.length ?? 0))
  const copper = draft.rails.flatMap(({ value }) => (value.copper ?? []).map((piece) => piece.polygon.length))
  const crossings = sum([edges, ...cutouts, ...regions, ...copper].map((corners) => corners * corners))
  const pairs = crossings + edges * (sum(cutouts) + sum(corridors) + sum(copper))
  if (pairs <= MAX_PAIRS) return undefined
  return {
    path: '$',
    found: say('polygons and corridors whose corners make {count} pairs', { count: pairs.toExponential(1) }),
    expected: say('at most {count} pairs', { count: MAX_PAIRS.toExponential(0) }),
    todo: say('Draw outline, cut-outs, regions and corridors with fewer corners.'),
  }
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, next) => total + next, 0)
