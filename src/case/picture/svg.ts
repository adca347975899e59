/** Small helpers that write SVG text: numbers kept short, text escaped, points on paper. */
import { type Box, escapeMarkup, type Point } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import { themes } from '../drawing/palette.ts'

/** From board mm to paper mm: y turned down, and x mirrored when the board lies on its face. */
export interface Paper {
  readonly at: (point: Point) => Point
  readonly widthMm: number
  readonly heightMm: number
}

/**
 * Board to paper, both in mm: y turns to run down, and the bottom side is mirrored, as one sees it when the card is
 * turned over.
 */
export function paperFor(box: Box, side: Side, marginMm: number): Paper {
  return {
    at: (point) => ({
      x: marginMm + (side === 'top' ? point.x - box.minX : box.maxX - point.x),
      y: marginMm + box.maxY - point.y,
    }),
    widthMm: box.maxX - box.minX + 2 * marginMm,
    heightMm: box.maxY - box.minY + 2 * marginMm,
  }
}

/** A number with at most three decimals, for SVG text. */
export const short = (value: number): string => String(Math.round(value * 1000) / 1000)

export const escapeText = escapeMarkup

export type Attributes = Readonly<Record<string, string | number | undefined>>

/** One element; numbers are shortened, text escaped, undefined attributes left out. */
export function element(name: string, attributes: Attributes, inside = ''): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? short(value) : escapeMarkup(String(value))}"`)
    .join('')
  return inside === '' ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`
}

/** Path data of closed polygons on the board, in paper's mm; with several of them holes are told by the fill rule. */
export function closedPath(paper: Paper, rings: readonly (readonly Point[])[]): string {
  return rings.map((ring) => `M${ring.map((point) => coordinates(paper, point)).join('L')}Z`).join('')
}

/** Path data of a line of points on the board, in paper's mm. */
export const openPath = (paper: Paper, points: readonly Point[]): string =>
  `M${points.map((point) => coordinates(paper, point)).join('L')}`

function coordinates(paper: Paper, point: Point): string {
  const { x, y } = paper.at(point)
  return `${short(x)} ${short(y)}`
}

/** Text with a halo of paper, so that it reads on any ground. */
export function label(paper: Paper, at: Point, text: string, attributes: Attributes): string {
  const { x, y } = paper.at(at)
  return element(
    'text',
    {
      x,
      y,
      'text-anchor': 'middle',
      'dominant-baseline': 'central',
      'paint-order': 'stroke',
      stroke: themes.paper.sheet,
      'stroke-width': 0.6,
      ...attributes,
    },
    escapeMarkup(text),
  )
}
