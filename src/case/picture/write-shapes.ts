/** Shapes and words by meaning, written as SVG in the colours of paper. */
import type { Box } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import { themes } from '../drawing/palette.ts'
import type { DrawnText, DrawnView, MeasureText, Shape, Step } from '../drawing/shape.ts'
import { element, escapeText, type Paper, short } from './svg.ts'

/** Paper shows what the screen shows at five pixels a millimetre. */
const PX_MM = 0.2

/** Paper as the drawing sees it: its unit is the millimetre, and the board stands on it at its own size; `unit` is a pixel in mm. */
export const viewOn = (paper: Paper, side: Side, unit = PX_MM): DrawnView => ({
  side,
  at: paper.at,
  scale: 1,
  unit,
  bounds: { minX: 0, minY: 0, maxX: paper.widthMm, maxY: paper.heightMm } satisfies Box,
})

/** Mean advance of a letter as a share of its size, of a sans serif; from memory. */
const ADVANCE = { plain: 0.54, bold: 0.58 } as const

/** Nothing is there to measure letters with: their mean width counts. */
export const estimateText: MeasureText = (text, { size, weight }) =>
  text.length * size * (weight === 700 ? ADVANCE.bold : ADVANCE.plain)

/** SVG text of shapes, one after the other as they lie on each other. */
export const writeShapes = (shapes: readonly Shape[]): string => shapes.map(writeShape).join('')

function writeShape({ steps, fill, stroke }: Shape): string {
  const [only] = steps
  if (only === undefined) return ''
  const look = {
    fill: fill === undefined ? 'none' : themes.paper[fill.colour],
    'fill-opacity': fill?.alpha,
    'fill-rule': fill === undefined ? undefined : 'evenodd',
    stroke: stroke === undefined ? undefined : themes.paper[stroke.colour],
    'stroke-width': stroke?.width,
    'stroke-opacity': stroke?.alpha,
    'stroke-dasharray':
      stroke?.dash === undefined || stroke.dash.length === 0 ? undefined : stroke.dash.map(short).join(' '),
    'stroke-linecap': stroke?.round === true ? 'round' : undefined,
    'stroke-linejoin': stroke === undefined ? undefined : 'round',
  } as const
  if (steps.length === 1 && only[0] === 'O') return element('circle', { cx: only[1], cy: only[2], r: only[3], ...look })
  return element('path', { d: steps.map(written).join(''), ...look })
}

function written(step: Step): string {
  switch (step[0]) {
    case 'M':
    case 'L':
      return `${step[0]}${short(step[1])} ${short(step[2])}`
    case 'Q':
      return `Q${short(step[1])} ${short(step[2])} ${short(step[3])} ${short(step[4])}`
    case 'O':
      return circlePath(step[1], step[2], step[3])
    case 'Z':
      return 'Z'
  }
}

const circlePath = (x: number, y: number, radius: number): string => {
  const arc = `a${short(radius)} ${short(radius)} 0 1 0 `
  return `M${short(x - radius)} ${short(y)}${arc}${short(2 * radius)} 0${arc}${short(-2 * radius)} 0Z`
}

const HALO_PX = 3.5
const ANCHOR = { left: 'start', center: 'middle', right: 'end' } as const

/** One `text` element, centred on its height, with its text escaped; a halo is painted under the letters. */
export const writeText = ({ text, at, size, weight, colour, halo, align }: DrawnText): string =>
  element(
    'text',
    {
      x: at.x,
      y: at.y,
      'font-size': size,
      'font-weight': weight,
      fill: themes.paper[colour],
      'text-anchor': ANCHOR[align],
      'dominant-baseline': 'central',
      'paint-order': halo === undefined ? undefined : 'stroke',
      stroke: halo === undefined ? undefined : themes.paper[halo],
      'stroke-width': halo === undefined ? undefined : HALO_PX * PX_MM,
    },
    escapeText(text),
  )
