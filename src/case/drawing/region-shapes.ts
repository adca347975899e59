/** Regions of failing and of untested lanes: hatch that is denser the heavier the load, and dots. */
import { boxOf, dotsIn, hatchSegments, type Point } from '../../base/index.ts'
import type { Region } from '../../board/index.ts'
import { hatchSpacingPx } from './load.ts'
import { circle, closedSteps, type DrawnView, type Shape, type Step } from './shape.ts'

export const HATCH_DEG = -52
const LEAST_SPACING_PX = 3
const DOTS_PX = 6
const DOT_PX = 1.1

const polygonOn = (view: DrawnView, region: Region): Point[] => region.polygon.map(view.at)

/** Hatch lines of one direction over a region; they begin at its first corner, so that they move with the board. */
export function hatchShape(view: DrawnView, region: Region, load: number, angleDeg: number = HATCH_DEG): Shape {
  const polygon = polygonOn(view, region)
  const box = boxOf(polygon)
  const { unit } = view
  const narrow = Math.min(box.maxX - box.minX, box.maxY - box.minY) / 2
  const spacing = Math.min(hatchSpacingPx(load) * unit, Math.max(LEAST_SPACING_PX * unit, narrow))
  const anchor = polygon[0] ?? { x: 0, y: 0 }
  const radians = (angleDeg * Math.PI) / 180
  const phase = anchor.x * Math.sin(radians) - anchor.y * Math.cos(radians)
  const steps = segmentSteps(hatchSegments(polygon, spacing, angleDeg, phase))
  return { steps, stroke: { colour: 'load', width: 1.4 * unit } }
}

/** Segments as x1, y1, x2, y2 in turn. */
export function segmentSteps(segments: readonly number[]): Step[] {
  const steps: Step[] = []
  for (let i = 0; i < segments.length; i += 4)
    steps.push(['M', segments[i] ?? 0, segments[i + 1] ?? 0], ['L', segments[i + 2] ?? 0, segments[i + 3] ?? 0])
  return steps
}

/** A region with errors: its hatch and its edge. */
export const failingRegion = (view: DrawnView, region: Region, load: number): Shape[] => [
  hatchShape(view, region, load),
  { steps: closedSteps(polygonOn(view, region)), stroke: { colour: 'load', width: 1.3 * view.unit } },
]

/** A region of which no run tells anything: neither failing nor clean. */
export const untestedRegion = (view: DrawnView, region: Region): Shape => dotted(polygonOn(view, region), view.unit)

/** @param polygon in units of the drawing */
export function dotted(polygon: readonly Point[], unit: number): Shape {
  return { steps: dotsIn(polygon, DOTS_PX * unit).map((dot) => circle(dot, DOT_PX * unit)), fill: { colour: 'muted' } }
}
