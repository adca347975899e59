/** How alike two places of a board look, close up: in all colours, in every way round, with the place made exact. */
import type { Point } from '../base/index.ts'
import { type CorrelationMap, correlationMaps, type Template, templateOf } from './correlate.ts'
import { atScale, type BoardPlane, type BoardRaster, greyAt, type GreyImage, planesOf, toRaster } from './image.ts'
import type { BodySize, Pose } from './snap-outline.ts'

/** How much of the board about the body belongs to the patch, in mm: its edge tells it from others. */
export const MARGIN_MM = 0.6
/** Pixels per mm, and across the shorter side of a large body. */
const CLOSE = { pxPerMm: 4, sidePx: 60 }
/** The same in the look before, in all about so many pixels a patch. */
const FIRST = { pxPerMm: 2, patchPx: 200 }

export interface Alike extends Pose {
  /** Correlation with the first one, -1 to 1. */
  readonly value: number
  /** How many times as strong as on the first one its greys rise and fall. */
  readonly gain: number
}

/** The colours of the board at the two scales at which bodies of this size are compared. */
export function closeUps(
  raster: BoardRaster,
  { widthMm, lengthMm }: BodySize,
): { readonly first: BoardPlane[]; readonly close: BoardPlane[] } {
  const closePxPerMm = Math.min(CLOSE.pxPerMm, CLOSE.sidePx / Math.min(widthMm, lengthMm))
  const firstPxPerMm = Math.max(FIRST.pxPerMm, Math.sqrt(FIRST.patchPx / (widthMm * lengthMm)))
  const close = planesOf(raster).map((plane) => atScale(plane, closePxPerMm))
  return { close, first: close.map((plane) => atScale(plane, firstPxPerMm)) }
}

interface Model {
  /** How much further it is turned than the first one. */
  readonly turnDeg: number
  readonly template: Template
}

/** The first one as it would look in every way round: a square has four, other rectangles two. */
export function turnedModels(planes: readonly BoardPlane[], body: BodySize, first: Pose): Model[] {
  const upright = planes.map((plane) => withoutSlope(patchAt(plane, body, first), ringOf(plane)))
  const isSquare = Math.abs(body.widthMm - body.lengthMm) < 0.02 * body.widthMm
  const models: Model[] = []
  let colours = upright
  for (let quarter = 0; quarter < 4; quarter++) {
    if (isSquare || quarter % 2 === 0) models.push({ turnDeg: 90 * quarter, template: templateOf(colours) })
    colours = colours.map(quarterTurned)
  }
  return models
}

interface Compared {
  readonly body: BodySize
  readonly models: readonly Model[]
  readonly near: Pose
  /** How far its middle may be off, in mm. */
  readonly reachMm: number
}

/**
 * Where about a place, and which way round, the picture is most like the models: as it is, or with the slope of the board around
 * it taken off, as it was from the models. Glare lies over some and not over others.
 */
export function alikeNear(planes: readonly BoardPlane[], { body, models, near, reachMm }: Compared): Alike {
  const windows = planes.map((plane) => patchAt(plane, body, near, reachMm))
  const pxPerMm = planes[0]?.pxPerMm ?? 1
  let best: Alike = { ...near, value: -1, gain: 0 }
  const maps = correlationMaps(
    windows,
    models.map(({ template }) => template),
  )
  for (const [m, { template, turnDeg }] of models.entries()) {
    const map = maps[m]
    const peak = map && highestIn(map)
    if (map === undefined || peak === undefined) continue
    const u = (peak.x - (map.widthPx - 1) / 2) / pxPerMm
    const v = (peak.y - (map.heightPx - 1) / 2) / pxPerMm
    const angle = (near.rotationDeg * Math.PI) / 180
    const at = {
      x: near.at.x + u * Math.cos(angle) + v * Math.sin(angle),
      y: near.at.y + u * Math.sin(angle) - v * Math.cos(angle),
    }
    const level = planes.map((plane) =>
      withoutSlope(patchAt(plane, body, { at, rotationDeg: near.rotationDeg }), ringOf(plane)),
    )
    const value = Math.max(peak.value, correlationMaps(level, [template])[0]?.values[0] ?? -1)
    if (value > best.value) best = { at, rotationDeg: near.rotationDeg + turnDeg, value, gain: peak.gain }
  }
  return best
}

interface MapPeak extends Point {
  readonly value: number
  readonly gain: number
}

/** The highest place of a map, between pixels by a parabola through its neighbours. */
function highestIn({ widthPx, heightPx, values, gains }: CorrelationMap): MapPeak | undefined {
  let at = -1
  for (let i = 0; i < values.length; i++) if (at < 0 || (values[i] ?? 0) > (values[at] ?? 0)) at = i
  if (at < 0) return undefined
  const [x, y] = [at % widthPx, Math.floor(at / widthPx)]
  const value = values[at] ?? 0
  const between = (before: number | undefined, after: number | undefined): number => {
    if (before === undefined || after === undefined) return 0
    const bend = before - 2 * value + after
    return bend < 0 ? Math.max(-0.5, Math.min(0.5, (before - after) / (2 * bend))) : 0
  }
  const dx = x === 0 || x === widthPx - 1 ? 0 : between(values[at - 1], values[at + 1])
  const dy = y === 0 || y === heightPx - 1 ? 0 : between(values[at - widthPx], values[at + widthPx])
  return { x: x + dx, y: y + dy, value, gain: gains[at] ?? 0 }
}

/** A body with its margin and `moreMm` around that, upright as in its own drawing. */
export function patchAt(
  plane: BoardPlane,
  { widthMm, lengthMm }: BodySize,
  { at, rotationDeg }: Pose,
  moreMm = 0,
): GreyImage {
  const { pxPerMm } = plane
  const morePx = 2 * Math.round(moreMm * pxPerMm)
  const widthPx = Math.max(3, Math.round((widthMm + 2 * MARGIN_MM) * pxPerMm)) + morePx
  const heightPx = Math.max(3, Math.round((lengthMm + 2 * MARGIN_MM) * pxPerMm)) + morePx
  const angle = (rotationDeg * Math.PI) / 180
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const middle = toRaster(plane, at)
  const grey = new Float32Array(widthPx * heightPx)
  for (let row = 0, to = 0; row < heightPx; row++) {
    const v = row + 0.5 - heightPx / 2
    for (let column = 0; column < widthPx; column++, to++) {
      const u = column + 0.5 - widthPx / 2
      grey[to] = greyAt(plane, middle.x + u * cos + v * sin, middle.y - u * sin + v * cos)
    }
  }
  return { widthPx, heightPx, grey }
}

/**
 * A patch less the slope, both ways, of the board around its body, by least squares over the outermost `ringPx` pixels: a spot of glare on the
 * first one would else be looked for on all others.
 */
export function withoutSlope({ widthPx, heightPx, grey }: GreyImage, ringPx: number): GreyImage {
  const [middleX, middleY] = [(widthPx - 1) / 2, (heightPx - 1) / 2]
  let [alongX, alongY, squareX, squareY] = [0, 0, 0, 0]
  for (let row = 0, at = 0; row < heightPx; row++)
    for (let column = 0; column < widthPx; column++, at++) {
      const out = Math.min(column, row, widthPx - 1 - column, heightPx - 1 - row)
      if (out >= ringPx) continue
      const [x, y] = [column - middleX, row - middleY]
      alongX += (grey[at] ?? 0) * x
      alongY += (grey[at] ?? 0) * y
      squareX += x * x
      squareY += y * y
    }
  const level = Float32Array.from(grey, (value, at) => {
    const x = (at % widthPx) - middleX
    const y = Math.floor(at / widthPx) - middleY
    return value - (alongX / squareX) * x - (alongY / squareY) * y
  })
  return { widthPx, heightPx, grey: level }
}

/** So many outermost pixels of a patch are board, the soft edge of the body aside. */
export const ringOf = ({ pxPerMm }: BoardPlane): number => Math.max(1, Math.round((MARGIN_MM - 0.2) * pxPerMm))

/** By a quarter counter-clockwise, as it is seen. */
export function quarterTurned({ widthPx, heightPx, grey }: GreyImage): GreyImage {
  const turned = new Float32Array(grey.length)
  for (let row = 0; row < heightPx; row++)
    for (let column = 0; column < widthPx; column++)
      turned[(widthPx - 1 - column) * heightPx + row] = grey[row * widthPx + column] ?? 0
  return { widthPx: heightPx, heightPx: widthPx, grey: turned }
}
