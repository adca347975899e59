/** What of a layout a description can't have, and a board can do without: left out or mended, and said. */
import { firstSelfCrossing, type Point, signedArea, someOf, say } from '../../base/index.ts'
import { distanceOffBoard, farthestOff } from '../check-shape.ts'
import { hullOf } from '../polygons.ts'
import type { BoardDescription } from '../schema.ts'
import { type JoinedLane, laneId } from './channels.ts'
import type { LaneCorridor } from './lane-corridors.ts'
import type { Footprint, Layout } from './model.ts'
import { type ImportedPart, onSheet } from './parts.ts'

type Hole = BoardDescription['holes'][number]

/** Coordinates that a description can have end at 2 m; nothing of a board lies near that. */
const FARTHEST_MM = 1900
const USUAL_THICKNESS_MM = 1.6
const THICKEST_MM = 20
/** As far as the checks of a board let a cut-out and a corridor reach beyond its edge. */
const CUTOUT_SLACK_MM = 0.05
const CORRIDOR_SLACK_MM = 5
const LEAST_AREA_MM2 = 1e-6

/** The layout without footprints that lie metres away. */
export function withinReach(layout: Layout, origin: Point, untold: string[]): Layout {
  const isNear = (point: Point): boolean =>
    Math.abs(point.x - origin.x) <= FARTHEST_MM && Math.abs(point.y - origin.y) <= FARTHEST_MM
  const reaches = (footprint: Footprint): boolean =>
    [{ x: 0, y: 0 }, ...footprint.pads.map((pad) => pad.at), ...footprint.strokes.flatMap((stroke) => stroke.points)]
      .map((point) => onSheet(point, footprint))
      .every(isNear)
  const far = layout.footprints.filter((footprint) => !reaches(footprint))
  if (far.length === 0) return layout
  untold.push(
    say('Parts that lie metres off the board are left out: {far}.', {
      far: someOf(far.map(({ reference }) => reference || say('one without a reference'))),
    }),
  )
  return { ...layout, footprints: layout.footprints.filter((footprint) => !far.includes(footprint)) }
}

/** Names the parts of which nothing lies on the board. */
export function sayPartsOffBoard(parts: readonly ImportedPart[], outline: readonly Point[], untold: string[]): void {
  const off = parts.filter(({ part, pads }) =>
    [part.at, ...pads.map(({ at }) => at)].every((point) => distanceOffBoard(outline, point) > 0),
  )
  if (off.length > 0)
    untold.push(
      say('These parts lie off the board: {off}.', {
        off: someOf(
          off.map(({ part }) => part.ref),
          12,
        ),
      }),
    )
}

/** Cut-outs inside the edge, each a simple polygon. */
export function mendedCutouts(cutouts: readonly Hole[], outline: readonly Point[], untold: string[]): Hole[] {
  let crossing = 0
  const kept = cutouts.flatMap((hole): Hole[] => {
    if (!('polygon' in hole)) return [hole]
    const polygon = firstSelfCrossing(hole.polygon) === undefined ? hole.polygon : hullOf(hole.polygon)
    if (polygon.length < 3 || Math.abs(signedArea(polygon)) < LEAST_AREA_MM2) return []
    if (farthestOff(outline, polygon) <= CUTOUT_SLACK_MM) return [{ polygon }]
    crossing++
    return []
  })
  if (crossing > 0) untold.push(say("Cut-outs that cross the board's edge are left out: {crossing}.", { crossing }))
  return kept
}

/** Corridors on the board; one that leaves it is left to be derived. */
export function corridorsOnBoard(
  corridors: ReadonlyMap<JoinedLane, LaneCorridor>,
  outline: readonly Point[],
  untold: string[],
): ReadonlyMap<JoinedLane, LaneCorridor> {
  const off = [...corridors].filter(([, { corridor }]) => farthestOff(outline, corridor ?? []) > CORRIDOR_SLACK_MM)
  if (off.length === 0) return corridors
  const lanes = off.map(([lane]) => lane)
  untold.push(
    say("The tracks of these lanes leave the board, so their corridors aren't told: {lanes}.", {
      lanes: someOf(lanes.map(laneId), 12),
    }),
  )
  return new Map([...corridors].filter(([lane]) => !lanes.includes(lane)))
}

/**
 * Board thickness in mm. One that the file does not give, or that no board has, is replaced by the usual one, and
 * `untold` gets a sentence.
 */
export function thicknessOf({ thicknessMm }: Layout, untold: string[]): number {
  if (thicknessMm !== undefined && thicknessMm > 0 && thicknessMm <= THICKEST_MM) return thicknessMm
  untold.push(
    say('The file gives no board thickness; {usualThicknessMm} mm is assumed.', {
      usualThicknessMm: USUAL_THICKNESS_MM,
    }),
  )
  return USUAL_THICKNESS_MM
}
