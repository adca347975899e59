/** The board itself as SVG: edge, holes, parts, lane regions, corridors, names. */
import { boxOf, placePoint, type Point, rectangleAround } from '../../base/index.ts'
import type { BoardModel, PlacedPart, Side } from '../../board/index.ts'
import { closedPath, element, label, openPath, type Paper, short } from './svg.ts'

const INK = '#2b2a27'
const MUTED = '#6e685d'
const SOFT = '#9b917f'
const SHEET = '#fffdf7'
const BODY = '#f3ebdc'
const MIN_LABELLED_MM = 4

export function drawBoard(paper: Paper, model: BoardModel, side: Side): string {
  return [
    drawEdge(paper, model),
    drawCorridors(paper, model, side),
    drawParts(paper, model, side),
    drawRegions(paper, model, side),
  ].join('\n')
}

/** Names go on last, above every overlay. */
export function drawNames(paper: Paper, model: BoardModel, side: Side): string {
  return model.parts
    .filter((part) => part.side === side && Math.min(part.widthMm, part.lengthMm) >= MIN_LABELLED_MM)
    .map((part) => {
      const size = Math.min(5, Math.max(1.6, Math.min(part.widthMm, part.lengthMm) / 4))
      const major = part.kind === 'core' || part.kind === 'memory'
      return label(paper, centreOf(part.outline), part.ref, {
        'font-size': size,
        'font-weight': major ? 700 : 400,
        fill: major ? INK : MUTED,
      })
    })
    .join('\n')
}

function drawEdge(paper: Paper, model: BoardModel): string {
  const drills = model.drills.map(({ at, diameterMm }) => {
    const centre = paper.at(at)
    return element('circle', {
      cx: centre.x,
      cy: centre.y,
      r: diameterMm / 2,
      fill: BODY,
      stroke: INK,
      'stroke-width': 0.25,
    })
  })
  return [
    element('path', {
      d: closedPath(paper, [model.outline, ...model.cutouts]),
      fill: SHEET,
      'fill-rule': 'evenodd',
      stroke: INK,
      'stroke-width': 0.4,
    }),
    ...drills,
  ].join('\n')
}

function drawCorridors(paper: Paper, model: BoardModel, side: Side): string {
  const paths = model.corridors
    .filter((corridor) => corridor.side === side)
    .map((corridor) => openPath(paper, corridor.path))
    .join('')
  return paths === '' ? '' : element('path', { d: paths, fill: 'none', stroke: SOFT, 'stroke-width': 0.25 })
}

function drawParts(paper: Paper, model: BoardModel, side: Side): string {
  return model.parts
    .filter((part) => part.side === side)
    .map((part) => {
      const major = part.kind === 'core' || part.kind === 'memory'
      const body = element('path', {
        d: closedPath(paper, [part.outline]),
        fill: major ? SHEET : BODY,
        stroke: major ? INK : SOFT,
        'stroke-width': major ? 0.35 : 0.2,
        'stroke-linejoin': 'round',
      })
      return body + pinOneMark(paper, part, major)
    })
    .join('\n')
}

/** A dot in the corner of the first ball, as on the body of a real package. */
function pinOneMark(paper: Paper, part: PlacedPart, wanted: boolean): string {
  const corner = rectangleAround(part.widthMm - 2, part.lengthMm - 2)[3]
  if (!wanted || corner === undefined) return ''
  const at = paper.at(placePoint(corner, part.placement))
  return element('circle', { cx: at.x, cy: at.y, r: 0.4, fill: INK })
}

function drawRegions(paper: Paper, model: BoardModel, side: Side): string {
  return model.regions
    .filter((region) => region.side === side && region.role === 'lane')
    .map((region) => {
      const outline = element('path', {
        d: closedPath(paper, [region.polygon]),
        fill: 'none',
        stroke: SOFT,
        'stroke-width': 0.15,
      })
      const box = boxOf(region.polygon)
      const smaller = Math.min(box.maxX - box.minX, box.maxY - box.minY)
      const isMemory = model.partByRef.get(region.part)?.kind === 'memory'
      if (!isMemory || smaller < 2) return outline
      return (
        outline +
        label(paper, centreOf(region.polygon), region.name, { 'font-size': Math.min(1.4, smaller / 2), fill: MUTED })
      )
    })
    .join('\n')
}

const centreOf = (polygon: readonly Point[]): Point => {
  const box = boxOf(polygon)
  return { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }
}

/** A bar of a round length with its figure, in the lower left corner of the paper. */
export function drawScaleBar(paper: Paper, marginMm: number): string {
  const lengthMm = [100, 50, 20, 10, 5].find((each) => each <= paper.widthMm / 6) ?? 5
  const y = paper.heightMm - marginMm / 2
  const end = marginMm + lengthMm
  const path = `M${short(marginMm)} ${short(y - 1)}V${short(y + 1)}M${short(marginMm)} ${short(y)}H${short(end)}M${short(end)} ${short(y - 1)}V${short(y + 1)}`
  return (
    element('path', { d: path, fill: 'none', stroke: INK, 'stroke-width': 0.3 }) +
    element('text', { x: end + 1.5, y, 'font-size': 3, fill: INK, 'dominant-baseline': 'central' }, `${lengthMm} mm`)
  )
}
