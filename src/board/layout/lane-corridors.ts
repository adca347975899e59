/** The corridor of each lane from the real tracks and vias of its nets. */
import { distance, distanceToSegment, type Point, someOf, say } from '../../base/index.ts'
import { groupedBy } from '../group.ts'
import type { LaneDescription } from '../schema.ts'
import { type JoinedBit, type JoinedLane, laneId } from './channels.ts'
import { CopperGraph } from './copper-graph.ts'
import type { Layout, Track, Via } from './model.ts'
import { type Netlist, type NetPin, pinsOn } from './netlist.ts'
import { tidyPoint, upright } from './parts.ts'

/** This share of the length of a lane's tracks lies within its corridor. */
const SHARE_WITHIN = 0.8
const SAMPLE_STEP_MM = 0.5
const MOST_SAMPLES = 80
const SIMPLIFY_MM = 0.1
/** Room for the track itself and its clearance on both sides of a lone path. Common practice, no source. */
const LONE_TRACK_WIDTH_MM = 0.5

export type LaneCorridor = Pick<LaneDescription, 'corridor' | 'corridorWidthMm'>

/** @param origin the outline's lower-left corner on the sheet (y up) */
export function laneCorridors(
  lanes: readonly JoinedLane[],
  netlist: Netlist,
  layout: Layout,
  origin: Point,
  untold: string[],
): ReadonlyMap<JoinedLane, LaneCorridor> {
  const pathByBit = tracedPaths(lanes, netlist, layout, origin)
  const corridors = new Map<JoinedLane, LaneCorridor>()
  const untraced: string[] = []
  const partly: string[] = []
  for (const lane of lanes) {
    const wanted = lane.bits.filter((bit) => bit.core !== undefined)
    const paths = wanted.map((bit) => pathByBit.get(bit)).filter((path) => path !== undefined)
    const corridor = corridorAlong(paths)
    if (corridor) corridors.set(lane, corridor)
    else untraced.push(laneId(lane))
    if (corridor && paths.length < wanted.length) partly.push(laneId(lane))
  }
  if (untraced.length > 0)
    untold.push(
      say("No tracks lead all the way along these lanes, so their corridors aren't told: {untraced}.", {
        untraced: someOf(untraced, 12),
      }),
    )
  if (partly.length > 0)
    untold.push(
      say("Some nets of these lanes aren't tracked all the way; their corridors follow the rest: {partly}.", {
        partly: someOf(partly),
      }),
    )
  return corridors
}

/** The shortest way along copper from the core's ball to the memory's, for each bit; the search of a net is shared. */
function tracedPaths(
  lanes: readonly JoinedLane[],
  netlist: Netlist,
  layout: Layout,
  origin: Point,
): ReadonlyMap<JoinedBit, Point[]> {
  const onBoard = (point: Point): Point => ({ x: point.x - origin.x, y: upright(point).y - origin.y })
  const tracks = groupedBy(layout.tracks, (track) => track.net)
  const vias = groupedBy(layout.vias, (via) => via.net)
  const bits = lanes.flatMap((lane) => lane.bits).filter((bit) => bit.core !== undefined)
  const paths = new Map<JoinedBit, Point[]>()
  for (const group of groupedBy(bits, netsKey).values()) {
    const nets = [...new Set(group.flatMap(netsAlong))]
    const start = group[0]?.core?.end
    if (start === undefined) continue
    const graph = new CopperGraph(
      {
        tracks: nets.flatMap((net) => (tracks.get(net) ?? []).map((track) => placedTrack(track, onBoard))),
        vias: nets.flatMap((net) => (vias.get(net) ?? []).map((via): Via => ({ ...via, at: onBoard(via.at) }))),
        pins: nets.flatMap((net) => pinsOn(netlist, net)),
        bridges: group.flatMap(bridgesOf),
      },
      layout.layers,
    )
    const found = graph.paths(
      start,
      group.map((bit) => bit.memory.pin),
    )
    for (const [i, bit] of group.entries()) {
      const path = found[i]
      if (path) paths.set(bit, path)
    }
  }
  return paths
}

const placedTrack = (track: Track, onBoard: (point: Point) => Point): Track => ({
  ...track,
  points: track.points.map(onBoard),
})

const netsAlong = (bit: JoinedBit): string[] =>
  [bit.memory.pin.pad.net, bit.core?.end.pad.net].flatMap((net) => net ?? [])

const netsKey = (bit: JoinedBit): string => [...netsAlong(bit), bit.core?.end.pad.number].join('\n')

const bridgesOf = (bit: JoinedBit): (readonly [NetPin, NetPin])[] => {
  const step = bit.core?.through
  return step === undefined ? [] : [[step.near, step.far]]
}

/**
 * The path that lies most amidst the others, made simpler, and the width around it that holds four fifths of them.
 * @param paths from core to memory, one for each traced bit
 */
export function corridorAlong(paths: readonly (readonly Point[])[]): LaneCorridor | undefined {
  const usable = paths.filter((path) => lengthOf(path) > 0).map(simplified)
  const samples = usable.map(samplesOf)
  const middle = mostAmidst(usable, samples)
  if (middle === undefined) return undefined
  const offsets = samples
    .flat()
    .map((point) => distanceToPath(point, middle))
    .toSorted((a, b) => a - b)
  const reach = offsets[Math.min(offsets.length - 1, Math.floor(offsets.length * SHARE_WITHIN))] ?? 0
  return {
    corridor: middle.map(tidyPoint),
    corridorWidthMm: Math.round((2 * reach + LONE_TRACK_WIDTH_MM) * 100) / 100,
  }
}

/** The path from which the samples of all others lie least far, summed up. */
function mostAmidst(
  paths: readonly (readonly Point[])[],
  samples: readonly (readonly Point[])[],
): readonly Point[] | undefined {
  let best: readonly Point[] | undefined
  let bestSpread = Infinity
  for (const path of paths) {
    const spread = samples.flat().reduce((sum, point) => sum + distanceToPath(point, path), 0)
    if (spread >= bestSpread) continue
    best = path
    bestSpread = spread
  }
  return best
}

function lengthOf(path: readonly Point[]): number {
  let length = 0
  for (let i = 1; i < path.length; i++) length += stepLength(path, i)
  return length
}

function stepLength(path: readonly Point[], i: number): number {
  const a = path[i - 1]
  const b = path[i]
  return a && b ? distance(a, b) : 0
}

/** Points along a path at even steps, both ends included. */
function samplesOf(path: readonly Point[]): Point[] {
  const count = Math.max(1, Math.min(MOST_SAMPLES, Math.round(lengthOf(path) / SAMPLE_STEP_MM)))
  const step = lengthOf(path) / count
  const samples: Point[] = []
  let walked = 0
  for (let i = 1; i < path.length; i++) {
    const a = path[i - 1]
    const b = path[i]
    const length = stepLength(path, i)
    if (!a || !b || length === 0) continue
    for (let at = samples.length * step; at <= walked + length + 1e-9; at = samples.length * step) {
      const t = (at - walked) / length
      samples.push({ x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t })
    }
    walked += length
  }
  return samples
}

function distanceToPath(point: Point, path: readonly Point[]): number {
  let nearest = Infinity
  for (let i = 1; i < path.length; i++) {
    const a = path[i - 1]
    const b = path[i]
    if (a && b) nearest = Math.min(nearest, distanceToSegment(point, a, b))
  }
  return nearest
}

/** Leaves out corners that stand off the line by less than a tenth of a millimetre (Douglas and Peucker, 1973). */
function simplified(path: readonly Point[]): Point[] {
  const keep = new Set([0, path.length - 1])
  const spans: [number, number][] = [[0, path.length - 1]]
  for (let span = spans.pop(); span !== undefined; span = spans.pop()) {
    const [from, to] = span
    const a = path[from]
    const b = path[to]
    let farthest = -1
    let offset = SIMPLIFY_MM
    for (let i = from + 1; i < to; i++) {
      const point = path[i]
      const here = a && b && point ? distanceToSegment(point, a, b) : 0
      if (here <= offset) continue
      farthest = i
      offset = here
    }
    if (farthest < 0) continue
    keep.add(farthest)
    spans.push([from, farthest], [farthest, to])
  }
  return path.filter((_, i) => keep.has(i))
}
