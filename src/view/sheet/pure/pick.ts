/** What lies under the pointer: exact polygons, small parts before large ones, all in board millimetres. */
import { distance, distanceToSegment, type Point, polygonContains } from '../../../base/index.ts'
import type { PlacedPart, Region, Side } from '../../../board/index.ts'
import { marksInOrder } from '../../../case/index.ts'
import { distanceToArea, type Mark, mannerOf } from '../../../spill/index.ts'
import type { Selection } from '../props.ts'
import type { Scene } from './scene.ts'

/**
 * @param toleranceMm how far beside a thing the pointer may be and still mean it (a few pixels, more for a finger)
 * @param selection a second press inside of the selected part goes down to its lane
 */
export function pickOnBoard(
  scene: Scene,
  side: Side,
  at: Point,
  toleranceMm: number,
  selection?: Selection,
): Selection | undefined {
  const part = pickPart(scene, side, at, toleranceMm)
  if (part === undefined) return pickCorridor(scene, side, at, toleranceMm)
  const alreadyIn =
    selection !== undefined &&
    (selection.kind === 'part' ? selection.id === part.ref : isInPart(scene, selection, part))
  if (alreadyIn) {
    const region = pickRegion(scene, part, at)
    if (region !== undefined) return selectionOfRegion(region)
  }
  return { kind: 'part', id: part.ref }
}

/** The smallest part that holds the point; failing that, the nearest small one within the tolerance. */
export function pickPart(scene: Scene, side: Side, at: Point, toleranceMm: number): PlacedPart | undefined {
  const { parts, partIndex } = scene.sides[side]
  const near = partIndex.within({
    minX: at.x - toleranceMm,
    minY: at.y - toleranceMm,
    maxX: at.x + toleranceMm,
    maxY: at.y + toleranceMm,
  })
  let smallest: PlacedPart | undefined
  let nearest: PlacedPart | undefined
  let nearestMm = toleranceMm
  for (const i of near) {
    const part = parts[i]
    if (part === undefined) continue
    if (polygonContains(part.outline, at)) smallest = part
    else if (Math.max(part.widthMm, part.lengthMm) < 6 * toleranceMm) {
      const away = distanceToPolygon(part.outline, at)
      if (away <= nearestMm) {
        nearest = part
        nearestMm = away
      }
    }
  }
  if (smallest === undefined) return nearest
  const nearestIsFarSmaller =
    nearest !== undefined && nearest.widthMm * nearest.lengthMm * 16 < smallest.widthMm * smallest.lengthMm
  return nearestIsFarSmaller && nearestMm < toleranceMm / 2 ? nearest : smallest
}

function pickRegion(scene: Scene, part: PlacedPart, at: Point): Region | undefined {
  const regions = scene.regionsByPart.get(part.ref) ?? []
  return regions
    .filter((region) => polygonContains(region.polygon, at))
    .reduce<Region | undefined>((best, r) => (best === undefined || r.areaMm2 < best.areaMm2 ? r : best), undefined)
}

function selectionOfRegion(region: Region): Selection {
  const lane = region.role === 'lane' && region.lanes.length === 1 ? region.lanes[0] : undefined
  return lane === undefined ? { kind: 'region', id: region.id } : { kind: 'lane', id: lane }
}

function isInPart(scene: Scene, selection: Selection, part: PlacedPart): boolean {
  if (selection.kind === 'region') return scene.model.regionById.get(selection.id)?.part === part.ref
  if (selection.kind !== 'lane') return false
  const lane = scene.model.laneById.get(selection.id)
  const coreRegion = lane?.coreRegion === undefined ? undefined : scene.model.regionById.get(lane.coreRegion)
  return lane?.part === part.ref || coreRegion?.part === part.ref
}

function pickCorridor(scene: Scene, side: Side, at: Point, toleranceMm: number): Selection | undefined {
  const { corridors, corridorIndex } = scene.sides[side]
  const reach = toleranceMm + 1
  let best: string | undefined
  let bestMm = Infinity
  for (const i of corridorIndex.within({
    minX: at.x - reach,
    minY: at.y - reach,
    maxX: at.x + reach,
    maxY: at.y + reach,
  })) {
    const corridor = corridors[i]
    if (corridor === undefined) continue
    const away = distanceToPath(corridor.path, at)
    if (away < bestMm && away <= Math.max(toleranceMm, Math.min(reach, corridor.widthMm / 2))) {
      best = corridor.lane
      bestMm = away
    }
  }
  return best === undefined ? undefined : { kind: 'lane', id: best }
}

/** Where the pointer is, how far beside a thing it may be and still mean it, and what is selected. */
export interface PointerOn {
  readonly side: Side
  readonly at: Point
  readonly toleranceMm: number
  /** Id of the selected mark, if a mark is selected. */
  readonly selectedId?: string | undefined
}

/** The one hit test of marks, for pressing, dragging and hovering: the selected one where it lies there, else the topmost. */
export function pickMark(marks: readonly Mark[], on: PointerOn): Mark | undefined {
  const under = marksUnder(marks, on)
  return under.find((mark) => mark.id === on.selectedId) ?? under[0]
}

/** The mark that another press on the selected one means: the next below it, and after the lowest the topmost again. */
export function nextMark(marks: readonly Mark[], on: PointerOn): Mark | undefined {
  const under = marksUnder(marks, on)
  const selected = under.findIndex((mark) => mark.id === on.selectedId)
  return under[selected + 1] ?? under[0]
}

/** Those under the pointer, the topmost first; of a clean place, which may be wide, its symbol and its edge. */
const marksUnder = (marks: readonly Mark[], { side, at, toleranceMm }: PointerOn): Mark[] =>
  marksInOrder(marks, side)
    .filter((mark) => distanceToMark(mark, at) <= toleranceMm)
    .toReversed()

function distanceToMark(mark: Mark, at: Point): number {
  if (mark.kind === 'dam') return distanceToPath(mark.path, at)
  const fromCentre = distance(mark.at, at)
  if (mark.kind === 'spill' || mark.kind === 'note') return fromCentre
  if (mark.kind === 'slip') return Math.max(0, fromCentre - mark.radiusMm)
  if (mark.kind !== 'clean') return Math.max(0, distanceToArea(mark, at))
  return mannerOf(mark) === 'circle' ? fromCentre : Math.min(fromCentre, Math.abs(distanceToArea(mark, at)))
}

function distanceToPath(path: readonly Point[], at: Point): number {
  let best = Infinity
  for (let i = 1; i < path.length; i++) {
    const a = path[i - 1]
    const b = path[i]
    if (a && b) best = Math.min(best, distanceToSegment(at, a, b))
  }
  return best
}

function distanceToPolygon(polygon: readonly Point[], at: Point): number {
  const first = polygon[0]
  return first === undefined ? Infinity : distanceToPath([...polygon, first], at)
}
