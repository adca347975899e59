/** Lengths, places and shapes as IPC-2581 elements give them. */
import type { Point } from '../../../base/index.ts'
import { sweep } from '../../layout/arcs.ts'
import { MM_PER_INCH } from '../units.ts'
import type { XmlElement } from './xml.ts'

const LARGEST_MM = 100_000

const MM_PER_UNIT: Readonly<Record<string, number>> = {
  MILLIMETER: 1,
  MM: 1,
  MICRON: 1e-3,
  INCH: MM_PER_INCH,
  MIL: MM_PER_INCH / 1000,
}

/** @returns mm in one of the unit; undefined for a word that is none of the standard's */
export const mmPerUnit = (unit: string | undefined): number | undefined => MM_PER_UNIT[(unit ?? '').toUpperCase()]

/** An attribute that is no number, or one of no board: told with its line by whoever asked. */
export class BadNumber extends Error {
  readonly element: XmlElement
  readonly attribute: string
  constructor(element: XmlElement, attribute: string) {
    super(attribute)
    this.element = element
    this.attribute = attribute
  }
}

/** @returns a length in mm; undefined where it isn't given */
export function lengthOf(element: XmlElement | undefined, attribute: string, mm: number): number | undefined {
  const text = element?.attributes[attribute]
  if (element === undefined || text === undefined || text === '') return undefined
  const value = Number(text) * mm
  if (!Number.isFinite(value) || Math.abs(value) > LARGEST_MM) throw new BadNumber(element, attribute)
  return value
}

/** The point at two attributes, each 0 where left out. */
export const pointAt = (element: XmlElement | undefined, mm: number, x = 'x', y = 'y'): Point => ({
  x: lengthOf(element, x, mm) ?? 0,
  y: lengthOf(element, y, mm) ?? 0,
})

/** The first child of a name. */
export const childOf = (element: XmlElement | undefined, name: string): XmlElement | undefined =>
  element?.children.find((child) => child.name === name)
/** All children of a name, in their order. */
export const childrenOf = (element: XmlElement, name: string): XmlElement[] =>
  element.children.filter((child) => child.name === name)

/** Every element of a name within another, itself aside. */
export function within(element: XmlElement | undefined, names: ReadonlySet<string>): XmlElement[] {
  return (element?.children ?? []).flatMap((child) => [
    ...(names.has(child.name) ? [child] : []),
    ...within(child, names),
  ])
}

/** Corners of a polygon or polyline: steps are straight or curved about a centre. */
export function cornersOf(polygon: XmlElement, mm: number): Point[] {
  const corners: Point[] = []
  for (const step of polygon.children) {
    if (step.name === 'PolyBegin' || step.name === 'PolyStepSegment') corners.push(pointAt(step, mm))
    else if (step.name === 'PolyStepCurve') {
      const from = corners.at(-1)
      if (from !== undefined)
        corners.push(
          ...curve(
            { from, to: pointAt(step, mm), centre: pointAt(step, mm, 'centerX', 'centerY') },
            isClockwise(step),
          ).slice(1),
        )
    }
  }
  const [first, last] = [corners[0], corners.at(-1)]
  const isClosed =
    first !== undefined && last !== undefined && corners.length > 2 && first.x === last.x && first.y === last.y
  return isClosed && polygon.name !== 'Polyline' ? corners.slice(0, -1) : corners
}

interface Curve {
  readonly from: Point
  readonly to: Point
  readonly centre: Point
}

const isClockwise = (element: XmlElement): boolean => element.attributes['clockwise'] === 'true'

function curve({ from, to, centre }: Curve, clockwise: boolean): Point[] {
  const full = 2 * Math.PI
  const angle = (point: Point): number => Math.atan2(point.y - centre.y, point.x - centre.x)
  const ahead = (((angle(to) - angle(from)) % full) + full) % full
  const isSame = Math.hypot(from.x - to.x, from.y - to.y) < 1e-9
  const turn = isSame ? (clockwise ? -full : full) : clockwise ? ahead - full : ahead
  const points = sweep(centre, from, (turn * 180) / Math.PI)
  points[points.length - 1] = to
  return points
}

/** Points of a line, a polyline or an arc. */
export function lineOf(element: XmlElement, mm: number): Point[] {
  if (element.name === 'Polyline') return cornersOf(element, mm)
  const [from, to] = [pointAt(element, mm, 'startX', 'startY'), pointAt(element, mm, 'endX', 'endY')]
  if (element.name === 'Line') return [from, to]
  return curve({ from, to, centre: pointAt(element, mm, 'centerX', 'centerY') }, isClockwise(element))
}

export interface Shape {
  readonly widthMm: number
  readonly lengthMm: number
  readonly isRound: boolean
}

/** The box around the first shape within an entry of a dictionary, or within a pad. */
export function shapeIn(element: XmlElement, mm: number): Shape | undefined {
  for (const child of element.children) {
    const shape = shapeOf(child, mm) ?? shapeIn(child, mm)
    if (shape !== undefined) return shape
  }
  return undefined
}

function shapeOf(element: XmlElement, mm: number): Shape | undefined {
  const diameter = lengthOf(element, 'diameter', mm) ?? lengthOf(element, 'outerDiameter', mm)
  if (diameter !== undefined && element.name !== 'Hole')
    return { widthMm: diameter, lengthMm: diameter, isRound: element.name === 'Circle' }
  const [widthMm, lengthMm] = [lengthOf(element, 'width', mm), lengthOf(element, 'height', mm)]
  if (widthMm !== undefined && lengthMm !== undefined)
    return { widthMm, lengthMm, isRound: element.name === 'Oval' && widthMm === lengthMm }
  if (element.name === 'RectCorner') {
    const [low, high] = [
      pointAt(element, mm, 'lowerLeftX', 'lowerLeftY'),
      pointAt(element, mm, 'upperRightX', 'upperRightY'),
    ]
    return { widthMm: high.x - low.x, lengthMm: high.y - low.y, isRound: false }
  }
  if (element.name !== 'Polygon') return undefined
  const corners = cornersOf(element, mm)
  const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), -Infinity)
  const span = (values: readonly number[]): number => most(values) + most(values.map((value) => -value))
  if (corners.length === 0) return undefined
  return { widthMm: span(corners.map(({ x }) => x)), lengthMm: span(corners.map(({ y }) => y)), isRound: false }
}
