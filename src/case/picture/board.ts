/** The board itself as SVG: edge, holes, parts, lane regions, corridors, names. */
import { boxOf, placePoint, type Point, rectangleAround } from '../../base/index.ts'
import type { BoardModel, PlacedPart, Side } from '../../board/index.ts'
import { themes } from '../drawing/palette.ts'
import { inInk, laneLabel, partLabels, partTexts } from '../drawing/part-labels.ts'
import type { DrawnView } from '../drawing/shape.ts'
import { closedPath, element, label, openPath, type Paper, short } from './svg.ts'
import { estimateText, writeText } from './write-shapes.ts'

const { ink, muted, outlineSoft, sheet, partFill, bodyFill } = themes.paper

/** SVG text of one side, the lower layers first: edge, corridors, parts, regions, these with the names of their lanes if wanted. */
export function drawBoard(
  paper: Paper,
  model: BoardModel,
  side: Side,
  { laneNames }: { readonly laneNames: boolean },
): string {
  return [
    drawEdge(paper, model),
    drawCorridors(paper, model, side),
    drawParts(paper, model, side),
    drawRegions(paper, model, side, laneNames),
  ].join('\n')
}

/** Names go on last, above every overlay. */
export const drawNames = (view: DrawnView, parts: readonly PlacedPart[]): string =>
  partLabels(view, parts, estimateText)
    .flatMap((each) => partTexts(view, each).map(writeText))
    .join('\n')

/** The parts of a side, the largest first. */
export const partsOf = (model: BoardModel, side: Side): PlacedPart[] =>
  model.parts.filter((part) => part.side === side).toSorted((p, q) => q.widthMm * q.lengthMm - p.widthMm * p.lengthMm)

function drawEdge(paper: Paper, model: BoardModel): string {
  const drills = model.drills.map(({ at, diameterMm }) => {
    const centre = paper.at(at)
    return element('circle', {
      cx: centre.x,
      cy: centre.y,
      r: diameterMm / 2,
      fill: bodyFill,
      stroke: ink,
      'stroke-width': 0.25,
    })
  })
  return [
    element('path', {
      d: closedPath(paper, [model.outline, ...model.cutouts]),
      fill: sheet,
      'fill-rule': 'evenodd',
      stroke: ink,
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
  return paths === '' ? '' : element('path', { d: paths, fill: 'none', stroke: outlineSoft, 'stroke-width': 0.25 })
}

function drawParts(paper: Paper, model: BoardModel, side: Side): string {
  return model.parts
    .filter((part) => part.side === side)
    .map((part) => {
      const major = inInk(part)
      const body = element('path', {
        d: closedPath(paper, [part.outline]),
        fill: major ? partFill : bodyFill,
        stroke: major ? ink : outlineSoft,
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
  return element('circle', { cx: at.x, cy: at.y, r: 0.4, fill: ink })
}

function drawRegions(paper: Paper, model: BoardModel, side: Side, laneNames: boolean): string {
  return model.regions
    .filter((region) => region.side === side && region.role === 'lane')
    .map((region) => {
      const outline = element('path', {
        d: closedPath(paper, [region.polygon]),
        fill: 'none',
        stroke: outlineSoft,
        'stroke-width': 0.15,
      })
      const box = boxOf(region.polygon)
      const smaller = Math.min(box.maxX - box.minX, box.maxY - box.minY)
      const isMemory = model.partByRef.get(region.part)?.kind === 'memory'
      if (!laneNames || !isMemory || smaller < 2) return outline
      return (
        outline +
        label(paper, centreOf(region.polygon), laneLabel(region.name), {
          'font-size': Math.min(1.4, smaller / 2),
          fill: muted,
        })
      )
    })
    .join('\n')
}

const centreOf = (polygon: readonly Point[]): Point => {
  const box = boxOf(polygon)
  return { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }
}

/** A bar of a round length with its figure, in the lower left corner of the paper. */
export function drawScaleBar(paper: Paper, marginMm: number, letterMm: number): string {
  const lengthMm = [100, 50, 20, 10, 5].find((each) => each <= paper.widthMm / 6) ?? 5
  const y = paper.heightMm - marginMm / 2
  const end = marginMm + lengthMm
  const path = `M${short(marginMm)} ${short(y - 1)}V${short(y + 1)}M${short(marginMm)} ${short(y)}H${short(end)}M${short(end)} ${short(y - 1)}V${short(y + 1)}`
  return (
    element('path', { d: path, fill: 'none', stroke: ink, 'stroke-width': 0.3 }) +
    element(
      'text',
      { x: end + 1.5, y, 'font-size': letterMm, fill: ink, 'dominant-baseline': 'central' },
      `${lengthMm} mm`,
    )
  )
}
