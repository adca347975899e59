/** What is drawn, before anything draws it: paths and words by meaning, which a canvas paints and SVG writes down. */
import type { Box, Point } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import type { Theme } from './palette.ts'

/** How board millimetres come onto a drawing: a screen's pixels, or the millimetres of paper; y runs down. */
export interface DrawnView {
  readonly side: Side
  readonly at: (point: Point) => Point
  /** Units of the drawing for a millimetre of the board. */
  readonly scale: number
  /** Units of the drawing for what is a pixel on the screen: widths of lines, symbols, letters. */
  readonly unit: number
  /** What of the drawing is to be seen. */
  readonly bounds: Box
}

export type Colour = keyof Theme

/** Move, line, quadratic curve by its control and end, whole circle by centre and radius, close. */
export type Step =
  | readonly ['M' | 'L', number, number]
  | readonly ['Q', number, number, number, number]
  | readonly ['O', number, number, number]
  | readonly ['Z']

export interface Fill {
  readonly colour: Colour
  readonly alpha?: number
}

export interface Stroke {
  readonly colour: Colour
  readonly width: number
  readonly alpha?: number
  readonly dash?: readonly number[]
  readonly round?: boolean
}

/** One path, filled by the even-odd rule, then stroked; all figures in units of the drawing. */
export interface Shape {
  readonly steps: readonly Step[]
  readonly fill?: Fill
  readonly stroke?: Stroke
}

export interface TextLook {
  readonly size: number
  readonly weight: 400 | 500 | 700
  readonly colour: Colour
  /** Colour of the rim that keeps the letters clear of what lies behind them. */
  readonly halo?: Colour
}

/** A line of words; its middle height is at y. */
export interface DrawnText extends TextLook {
  readonly text: string
  readonly at: Point
  readonly align: 'left' | 'center' | 'right'
}

/** How wide words become; a canvas measures, paper estimates. */
export type MeasureText = (text: string, look: Pick<TextLook, 'size' | 'weight'>) => number

/** A closed path through points; none for no points. */
export function closedSteps(points: readonly Point[]): Step[] {
  return points.length === 0 ? [] : [...openSteps(points), ['Z']]
}

/** A path through points that ends at the last one, in the unit of the points. */
export const openSteps = (points: readonly Point[]): Step[] => points.map(({ x, y }, i) => [i === 0 ? 'M' : 'L', x, y])

/** A full circle, centre and radius in the unit of the drawing. */
export const circle = ({ x, y }: Point, radius: number): Step => ['O', x, y, radius]

/** A board's box on the drawing. */
export function boxOn(view: DrawnView, box: Box): Box {
  const a = view.at({ x: box.minX, y: box.minY })
  const b = view.at({ x: box.maxX, y: box.maxY })
  return { minX: Math.min(a.x, b.x), maxX: Math.max(a.x, b.x), minY: Math.min(a.y, b.y), maxY: Math.max(a.y, b.y) }
}

/** The square of half-width `radius` around a point. */
export const boxAround = ({ x, y }: Point, radius: number): Box => ({
  minX: x - radius,
  maxX: x + radius,
  minY: y - radius,
  maxY: y + radius,
})

/** The middle of a box, in its own unit. */
export const middleOfBox = ({ minX, maxX, minY, maxY }: Box): Point => ({ x: (minX + maxX) / 2, y: (minY + maxY) / 2 })
