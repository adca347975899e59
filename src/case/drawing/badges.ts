/** The lift order: numbered badges in ink on the parts, joined by a dotted line; hollow where the part is on the other side. */
import { type Box, boxOf, type Point } from '../../base/index.ts'
import type { BoardModel, PlacedPart } from '../../board/index.ts'
import { BADGE_RADIUS_PX, badgeArcs, badgePlaces } from './badge-places.ts'
import {
  boxAround,
  boxOn,
  circle,
  closedSteps,
  type DrawnText,
  type DrawnView,
  middleOfBox,
  type Shape,
} from './shape.ts'

export interface Badge {
  readonly number: number
  readonly part: PlacedPart
  /** In units of the drawing, as `at`. */
  readonly partBox: Box
  readonly at: Point
}

/**
 * One badge a part of the list, numbered by it.
 * @param obstacles what badges keep off, in units of the drawing
 */
export function badgesOf(
  view: DrawnView,
  model: BoardModel,
  lift: readonly string[],
  obstacles: readonly Box[],
): Badge[] {
  const { unit, bounds } = view
  const parts = lift.map((ref) => model.partByRef.get(ref)).filter((part) => part !== undefined)
  const boxes = parts.map((part) => boxOn(view, part.box))
  const inPx = (box: Box): Box => scaled(box, 1 / unit)
  const centre = centreOf(view, model, boxes)
  const places = badgePlaces(boxes.map(inPx), obstacles.map(inPx), inPx(bounds), times(centre, 1 / unit))
  return parts.map((part, i) => ({
    number: i + 1,
    part,
    partBox: boxes[i] ?? bounds,
    at: times(places[i] ?? { x: 0, y: 0 }, unit),
  }))
}

const times = ({ x, y }: Point, factor: number): Point => ({ x: x * factor, y: y * factor })
const scaled = ({ minX, maxX, minY, maxY }: Box, factor: number): Box => ({
  minX: minX * factor,
  maxX: maxX * factor,
  minY: minY * factor,
  maxY: maxY * factor,
})

/** The square around a badge, in the drawing's unit: what labels have to leave free. */
export const badgeBox = ({ unit }: DrawnView, badge: Badge): Box => boxAround(badge.at, BADGE_RADIUS_PX * unit)

/** What badges and lines turn away from: the core, else the middle of what is lifted. */
function centreOf(view: DrawnView, model: BoardModel, boxes: readonly Box[]): Point {
  if (model.core !== undefined) return view.at(model.core.placement.at)
  return middleOfBox(
    boxOf(
      boxes.flatMap((one) => [
        { x: one.minX, y: one.minY },
        { x: one.maxX, y: one.maxY },
      ]),
    ),
  )
}

const LONG_LINE_PX = 420
const FAINT = 0.4

/** The dotted line from badge to badge; a long one is faint. */
export function badgeLines(view: DrawnView, model: BoardModel, badges: readonly Badge[]): Shape[] {
  const { unit } = view
  const centre = centreOf(
    view,
    model,
    badges.map(({ partBox }) => partBox),
  )
  const places = badges.map(({ at }) => times(at, 1 / unit))
  return badgeArcs(places, times(centre, 1 / unit)).map(({ from, control, to }) => {
    const alpha = Math.hypot(to.x - from.x, to.y - from.y) > LONG_LINE_PX ? FAINT : 1
    return {
      steps: [
        ['M', from.x * unit, from.y * unit],
        ['Q', control.x * unit, control.y * unit, to.x * unit, to.y * unit],
      ],
      stroke: { colour: 'ink', width: 2.4 * unit, dash: [0.1 * unit, 5.5 * unit], round: true, alpha },
    }
  })
}

/** One badge: its shapes and its number. */
export function badgeShapes(view: DrawnView, badge: Badge): { readonly shapes: Shape[]; readonly number: DrawnText } {
  const { unit } = view
  const hollow = badge.part.side !== view.side
  const behind: Shape = {
    steps: closedSteps(badge.part.outline.map(view.at)),
    stroke: { colour: 'ink', width: 1.6 * unit, dash: [5 * unit, 4 * unit], round: true },
  }
  const radius = (BADGE_RADIUS_PX - (hollow ? 1 : 0)) * unit
  return {
    shapes: [
      ...(hollow ? [behind] : []),
      { steps: [circle(badge.at, (BADGE_RADIUS_PX + 2) * unit)], fill: { colour: 'sheet' } },
      {
        steps: [circle(badge.at, radius)],
        fill: { colour: hollow ? 'sheet' : 'ink' },
        stroke: { colour: 'ink', width: 2 * unit },
      },
    ],
    number: {
      text: String(badge.number),
      at: badge.at,
      size: 16 * unit,
      weight: 700,
      colour: hollow ? 'ink' : 'onInk',
      align: 'center',
    },
  }
}
