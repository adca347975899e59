/** Marks on the printed sheet: each a shape with its name beside it. */
import type { Side } from '../../board/index.ts'
import { type AreaMark, boxOfArea, type Mark } from '../../spill/index.ts'
import { type Attributes, closedPath, element, escapeText, openPath, type Paper, short } from './svg.ts'

const INK = '#2b2a27'
const BLUE = '#0072b2'
const GREEN = '#009e73'
const PURPLE = '#cc79a7'
const PURPLE_TEXT = '#9c4f79'
const NAME_BELOW_MM = 2.6

export function drawMarks(paper: Paper, side: Side, marks: readonly Mark[]): string {
  return marks
    .filter((mark) => mark.side === side)
    .map((mark) => drawMark(paper, mark))
    .join('\n')
}

function drawMark(paper: Paper, mark: Mark): string {
  if (mark.kind === 'dam')
    return element('path', { d: openPath(paper, mark.path), fill: 'none', stroke: INK, 'stroke-width': 1 })
  const { x, y } = paper.at(mark.at)
  switch (mark.kind) {
    case 'spill':
      return (
        element('circle', { cx: x, cy: y, r: 1.3, fill: BLUE, stroke: '#fffdf7', 'stroke-width': 0.4 }) +
        named('spill', x, y - 2.5, BLUE)
      )
    case 'clean':
      return drawClean(paper, mark)
    case 'slip':
      return (
        element('path', { d: `M${short(x - 1.5)} ${short(y - 1.5)}l3 3m0 -3l-3 3`, stroke: INK, 'stroke-width': 0.5 }) +
        named('slip', x, y + 4, INK)
      )
    case 'note':
      return named(mark.text.slice(0, 40), x, y, INK)
    default:
      return drawFound(paper, mark)
  }
}

/** A circle, what a lasso encloses, or the way of a brush as wide as the brush: in stipple, its name below its box. */
function drawFound(paper: Paper, mark: AreaMark): string {
  const box = boxOfArea(mark)
  const below = paper.at({ x: (box.minX + box.maxX) / 2, y: box.minY })
  return shape(paper, mark) + named(`${mark.kind} seen`, below.x, below.y + NAME_BELOW_MM, PURPLE_TEXT)
}

function shape(paper: Paper, mark: AreaMark): string {
  if (mark.path === undefined || mark.outline !== undefined)
    return edge(paper, mark, { fill: 'url(#stipple)', stroke: PURPLE, 'stroke-width': 0.25 })
  const way = {
    d: openPath(paper, mark.path),
    fill: 'none',
    'stroke-width': 2 * mark.radiusMm,
    'stroke-linecap': 'round',
    'stroke-linejoin': 'round',
  }
  return (
    element('path', { ...way, stroke: PURPLE, 'stroke-opacity': 0.2 }) +
    element('path', { ...way, stroke: 'url(#stipple)' })
  )
}

function edge(paper: Paper, { at, radiusMm, outline }: AreaMark, attributes: Attributes): string {
  if (outline !== undefined) return element('path', { d: closedPath(paper, [outline]), ...attributes })
  const { x, y } = paper.at(at)
  return element('circle', { cx: x, cy: y, r: radiusMm, ...attributes })
}

const CLEAN_MM = 2

function drawClean(paper: Paper, mark: AreaMark): string {
  const { x, y } = paper.at(mark.at)
  const r = CLEAN_MM
  const diamond = `M${short(x)} ${short(y - r)}L${short(x + r)} ${short(y)}L${short(x)} ${short(y + r)}L${short(x - r)} ${short(y)}Z`
  const tick = `M${short(x - 0.8)} ${short(y)}L${short(x - 0.2)} ${short(y + 0.7)}L${short(x + 0.9)} ${short(y - 0.7)}`
  const symbol = element('path', { d: diamond + tick, fill: 'none', stroke: GREEN, 'stroke-width': 0.4 })
  return cleanArea(paper, mark) + symbol + named('clean', x, y + 4.4, GREEN)
}

/** How far the clean place goes, where it is larger than its symbol. */
function cleanArea(paper: Paper, mark: AreaMark): string {
  if (mark.path !== undefined && mark.outline === undefined) {
    const way = { d: openPath(paper, mark.path), 'stroke-linecap': 'round', 'stroke-linejoin': 'round' }
    return element('path', {
      ...way,
      fill: 'none',
      stroke: GREEN,
      'stroke-opacity': 0.15,
      'stroke-width': 2 * mark.radiusMm,
    })
  }
  if (mark.outline === undefined && mark.radiusMm <= CLEAN_MM) return ''
  return edge(paper, mark, { fill: 'none', stroke: GREEN, 'stroke-width': 0.25, 'stroke-dasharray': '0.8 0.8' })
}

const named = (text: string, x: number, y: number, fill: string): string =>
  element(
    'text',
    {
      x,
      y,
      'font-size': 2.2,
      fill,
      'text-anchor': 'middle',
      'paint-order': 'stroke',
      stroke: '#fffdf7',
      'stroke-width': 0.6,
    },
    escapeText(text),
  )
