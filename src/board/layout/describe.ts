/** From a layout of any format to a board description, with a list of what the files don't tell. */
import { bad, boxOf, faultsFromZod, good, type Point, type Result, signedArea, say } from '../../base/index.ts'
import { type BoardDescription, boardSchema } from '../schema.ts'
import { channelsOf, joinLanes, type JoinedLane } from './channels.ts'
import { copperOf } from './copper.ts'
import { holesOf, milledBy } from './holes.ts'
import { heightRemark, kindOf, withKind } from './kinds.ts'
import { type LaneCorridor, laneCorridors } from './lane-corridors.ts'
import { corridorsOnBoard, mendedCutouts, sayPartsOffBoard, thicknessOf, withinReach } from './mend.ts'
import { findCore, findMemories, guessCore, type MemoryPart } from './memory.ts'
import type { Footprint, Layout, Stroke } from './model.ts'
import { type Netlist, netlistOf } from './netlist.ts'
import { type BoardEdge, boardEdge } from './outline.ts'
import { type ImportedPart, importParts, onSheet, tidy, tidyPoint, upright } from './parts.ts'
import { findPowerParts, type PowerParts } from './power.ts'
import { PowerNets } from './power-nets.ts'
import { withCopper } from './rail-copper.ts'
import { railsOf } from './rails.ts'

/** What every import gives. */
export interface BoardImport {
  readonly description: BoardDescription
  /** Sentences: what the files don't tell, and what was assumed in its place. */
  readonly untold: readonly string[]
}

/**
 * Describes the board: edge, parts, pads, nets, core, memory lanes with corridors, rails.
 * @param from where the layout begins, for faults: `line 1`
 * @returns faults for a layout without a part or an outline, or one that no description can hold
 */
export function describeLayout(
  layout: Layout,
  { name = 'board', from }: { readonly name?: string | undefined; readonly from: string },
): Result<BoardImport> {
  if (layout.footprints.length === 0)
    return bad({
      path: from,
      found: say('a layout without a footprint'),
      expected: say('at least one part on the board'),
      todo: say('Choose a layout with parts.'),
    })
  const untold: string[] = []
  const edge = edgeOf(layout, untold)
  if (edge === undefined)
    return bad({
      path: from,
      found: say('neither a board edge nor places that span one'),
      expected: say('a board with an outline'),
    })
  const described = describe(layout, edge, name, untold)
  const parsed = boardSchema.safeParse(described)
  if (!parsed.success) return bad(...faultsFromZod(parsed.error, described))
  return good({ description: parsed.data, untold })
}

/** The edge on the sheet (y up), drawings on Edge.Cuts inside footprints included. */
function edgeOf(layout: Layout, untold: string[]): BoardEdge | undefined {
  const drawn = layout.edges.map((stroke) => movedStroke(stroke, upright))
  const inFootprints = layout.footprints.flatMap((footprint) =>
    footprint.strokes
      .filter((stroke) => stroke.layer === 'Edge.Cuts')
      .map((stroke) => movedStroke(stroke, (point) => onSheet(point, footprint))),
  )
  const edge = boardEdge([...drawn, ...inFootprints], layout.footprints.flatMap(pointsOf))
  untold.push(...(edge?.untold ?? []))
  return edge
}

/** A part of which only the place is known reaches as far around it. */
const LEAST_REACH_MM = 0.5

/** Middles of its pads; of a part without pads its place and what is drawn of it. */
function pointsOf(footprint: Footprint): Point[] {
  const pads = footprint.pads.map(({ at }) => at)
  if (pads.length > 0 || footprint.isPlaced !== true) return pads.map((point) => onSheet(point, footprint))
  const drawn = footprint.strokes.flatMap(({ points }) => points)
  const around = [
    { x: -LEAST_REACH_MM, y: -LEAST_REACH_MM },
    { x: LEAST_REACH_MM, y: LEAST_REACH_MM },
  ]
  return [...around, ...drawn].map((point) => onSheet(point, footprint))
}

function movedStroke(stroke: Stroke, move: (point: Point) => Point): Stroke {
  const { circle, ...rest } = stroke
  return {
    ...rest,
    points: stroke.points.map(move),
    ...(circle === undefined ? {} : { circle: { at: move(circle.at), radiusMm: circle.radiusMm } }),
  }
}

function describe(whole: Layout, edge: BoardEdge, name: string, untold: string[]): BoardDescription {
  const box = boxOf(edge.outline)
  const origin = { x: box.minX, y: box.minY }
  const toBoard = (point: Point): Point => tidyPoint({ x: point.x - origin.x, y: point.y - origin.y })
  const outline = edge.outline.map(toBoard)
  const layout = withinReach(whole, origin, untold)
  const plain = importParts(layout, origin, untold)
  sayPartsOffBoard(plain, outline, untold)
  const poured = new Set(layout.pours.flatMap(({ net }) => net ?? []))
  const found = tellKinds(netlistOf(plain), poured, untold)
  const lanes = found.core === undefined ? [] : joinLanes(found.memories, found.core, found.netlist, untold)
  const traced = laneCorridors(lanes, found.netlist, layout, origin, untold)
  const corridors = corridorsOnBoard(traced, outline, untold)
  const kinds = { core: found.core, memories: new Set(found.memories.map(({ part }) => part)), power: found.power }
  const parts = plain.map((part) => withKind(part, kindOf(part, kinds)))
  untold.push(...[heightRemark(plain)].flatMap((remark) => remark ?? []))
  const cutouts = edge.cutouts.map((hole) =>
    'polygon' in hole
      ? { polygon: hole.polygon.map(toBoard) }
      : { ...hole, at: toBoard(hole.at), diameterMm: tidy(hole.diameterMm) },
  )
  const netlist = netlistOf(parts)
  const loose = (layout.drills ?? []).map((drill) => ({
    ...drill,
    path: drill.path.map((point) => toBoard(upright(point))),
  }))
  const milled = milledBy(loose, outline, untold)
  const drilled = { loose: loose.filter(({ path }) => path.length === 1), cutouts: [...cutouts, ...milled] }
  const holes = holesOf(
    parts,
    { ...drilled, cutouts: mendedCutouts(drilled.cutouts, outline, untold) },
    outline,
    untold,
  )
  const ground = { origin, outline, cutouts: holes.flatMap((hole) => ('polygon' in hole ? [hole.polygon] : [])) }
  const bare = railsOf(netlist, found.nets, found.power, untold)
  const rails = withCopper(bare, { layout, netlist }, ground, untold)
  if (layout.shortenedNets > 0)
    untold.push(
      say('{shortenedNets} net names are longer than 120 characters; they are cut and numbered.', {
        shortenedNets: layout.shortenedNets,
      }),
    )
  return {
    format: 'liftmap-board',
    version: 1,
    name: name.slice(0, 120) || 'board',
    outline,
    holes,
    thicknessMm: thicknessOf(layout, untold),
    copper: copperOf(layout, Math.abs(signedArea(outline)), untold),
    parts: parts.map(({ part }) => part),
    rails,
    memory: { channels: channelsOf(lanes, (lane: JoinedLane): LaneCorridor => corridors.get(lane) ?? {}) },
  }
}

interface ToldKinds {
  readonly netlist: Netlist
  readonly memories: readonly MemoryPart[]
  readonly core: ImportedPart | undefined
  readonly nets: PowerNets
  readonly power: PowerParts
}

function tellKinds(netlist: Netlist, poured: ReadonlySet<string>, untold: string[]): ToldKinds {
  if (netlist.pinsByNet.size === 0) untold.push(say('No file gives nets, so neither lanes nor rails are known.'))
  const memories = findMemories(netlist, untold)
  const shared = findCore(memories, netlist)
  const core = shared ?? (memories.length === 0 ? guessCore(netlist) : undefined)
  if (memories.length === 0) untold.push(say('No part could be told to be memory, so the board has no lanes.'))
  if (core === undefined) untold.push(say('Which part is the core could not be told.'))
  else if (shared === undefined)
    untold.push(
      say(
        '{ref} was taken as the core only because it alone has many pins and those of a crystal; no memory tells it.',
        { ref: core.part.ref },
      ),
    )
  const consumers = new Set([...memories.map(({ part }) => part), ...(core === undefined ? [] : [core])])
  const nets = new PowerNets(netlist, poured)
  return { netlist, memories, core, nets, power: findPowerParts(nets, consumers) }
}
