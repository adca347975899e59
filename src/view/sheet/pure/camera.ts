/** The sheet's camera as plain numbers: which board point is in the middle, how large, from which side. */
import type { Box, Point } from '../../../base/index.ts'
import type { Side } from '../../../board/index.ts'

export type ShownSide = Side | 'both'

export interface Camera {
  /** Board point in the middle of each pane, mm. */
  readonly centre: Point
  /** Screen pixels (CSS) per mm. */
  readonly scale: number
  readonly side: ShownSide
  /** The sheet's size in CSS pixels. */
  readonly width: number
  readonly height: number
}

/** A part of the sheet that shows one side of the board; CSS pixels from the sheet's upper left. */
export interface Pane {
  readonly side: Side
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

export const MIN_SCALE = 0.4
export const MAX_SCALE = 240

/** One pane, or two beside each other; a tall sheet puts them above each other. */
export function panesOf(camera: Camera): Pane[] {
  const { side, width, height } = camera
  if (side !== 'both') return [{ side, left: 0, top: 0, width, height }]
  if (width >= height) {
    const half = Math.floor(width / 2)
    return [
      { side: 'top', left: 0, top: 0, width: half, height },
      { side: 'bottom', left: half, top: 0, width: width - half, height },
    ]
  }
  const half = Math.floor(height / 2)
  return [
    { side: 'top', left: 0, top: 0, width, height: half },
    { side: 'bottom', left: 0, top: half, width, height: height - half },
  ]
}

/** The pane under a point of the sheet; the nearest one where the point is outside. */
export function paneAt(camera: Camera, onSheet: Point): Pane {
  const panes = panesOf(camera)
  const hit = panes.find((pane) => onSheet.x < pane.left + pane.width && onSheet.y < pane.top + pane.height)
  return hit ?? panes.at(-1) ?? { side: 'top', left: 0, top: 0, width: camera.width, height: camera.height }
}

/** Board (mm, y up) to pane (CSS pixels from the pane's upper left, y down): x = a·X + e, y = d·Y + f. */
export interface PaneTransform {
  readonly a: number
  readonly d: number
  readonly e: number
  readonly f: number
}

/** The bottom side is shown as it looks once the board is turned over about its vertical axis: x runs to the left. */
export function paneTransform(camera: Camera, pane: Pane): PaneTransform {
  const a = pane.side === 'bottom' ? -camera.scale : camera.scale
  return {
    a,
    d: -camera.scale,
    e: pane.width / 2 - a * camera.centre.x,
    f: pane.height / 2 + camera.scale * camera.centre.y,
  }
}

export const toPane = (t: PaneTransform, onBoard: Point): Point => ({
  x: t.a * onBoard.x + t.e,
  y: t.d * onBoard.y + t.f,
})

export const toBoard = (t: PaneTransform, inPane: Point): Point => ({
  x: (inPane.x - t.e) / t.a,
  y: (inPane.y - t.f) / t.d,
})

/** The board box that a pane shows. */
export function shownBox(camera: Camera, pane: Pane): Box {
  const halfWidth = pane.width / 2 / camera.scale
  const halfHeight = pane.height / 2 / camera.scale
  const { x, y } = camera.centre
  return { minX: x - halfWidth, minY: y - halfHeight, maxX: x + halfWidth, maxY: y + halfHeight }
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value))

/** Scales by a factor so that the board point under `onSheet` stays under it. */
export function zoomedAt(camera: Camera, onSheet: Point, factor: number): Camera {
  const pane = paneAt(camera, onSheet)
  const inPane = { x: onSheet.x - pane.left, y: onSheet.y - pane.top }
  const held = toBoard(paneTransform(camera, pane), inPane)
  const scale = clamp(camera.scale * factor, MIN_SCALE, MAX_SCALE)
  const sign = pane.side === 'bottom' ? -1 : 1
  return {
    ...camera,
    scale,
    centre: {
      x: held.x - (sign * (inPane.x - pane.width / 2)) / scale,
      y: held.y + (inPane.y - pane.height / 2) / scale,
    },
  }
}

/** Moves the drawing by so many pixels, as seen in the pane of the given side. */
export function pannedBy(camera: Camera, dx: number, dy: number, side: Side): Camera {
  const sign = side === 'bottom' ? -1 : 1
  return {
    ...camera,
    centre: { x: camera.centre.x - (sign * dx) / camera.scale, y: camera.centre.y + dy / camera.scale },
  }
}

/** The largest view that holds a board box with `marginPx` around it. */
export function showingBox(camera: Camera, box: Box, marginPx: number): Camera {
  const pane = panesOf(camera)[0]
  const width = Math.max(1, (pane?.width ?? camera.width) - 2 * marginPx)
  const height = Math.max(1, (pane?.height ?? camera.height) - 2 * marginPx)
  const scale = Math.min(width / Math.max(1e-6, box.maxX - box.minX), height / Math.max(1e-6, box.maxY - box.minY))
  return {
    ...camera,
    scale: clamp(scale, MIN_SCALE, MAX_SCALE),
    centre: { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 },
  }
}

/** Keeps at least the middle of the sheet within the board's box, so that the board can't be lost. */
export function keptNear(camera: Camera, box: Box): Camera {
  const x = clamp(camera.centre.x, box.minX, box.maxX)
  const y = clamp(camera.centre.y, box.minY, box.maxY)
  return x === camera.centre.x && y === camera.centre.y ? camera : { ...camera, centre: { x, y } }
}

/** From top to bottom and back, keeping the same board point in the middle; `both` goes to the top. */
export function turnedOver(camera: Camera): Camera {
  return { ...camera, side: camera.side === 'top' ? 'bottom' : 'top' }
}
