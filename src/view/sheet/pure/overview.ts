/** The whole board small in a corner: how large, whether it is needed, and how its pixels map to the board. */
import type { Box } from '../../../base/index.ts'
import { type Camera, type Pane, type PaneTransform, panesOf, shownBox } from './camera.ts'

export interface OverviewPlace {
  readonly width: number
  readonly height: number
  /** From the sheet's upper left. */
  readonly left: number
  readonly top: number
}

const LARGEST_WIDTH_PX = 248
const LARGEST_HEIGHT_PX = 150
const OVERVIEW_INSET_PX = 14
const PADDING_PX = 12
export const CAPTION_PX = 18
const NEEDED_SHEET_PX = 420

/** Undefined while the whole board is in view anyway, or where the sheet is too small to spare the room. */
export function overviewPlace(camera: Camera, boardBox: Box): OverviewPlace | undefined {
  const pane = panesOf(camera)[0]
  if (pane === undefined || camera.side === 'both') return undefined
  if (pane.width < NEEDED_SHEET_PX || pane.height < NEEDED_SHEET_PX || holds(shownBox(camera, pane), boardBox)) {
    return undefined
  }
  const largest = Math.min(LARGEST_WIDTH_PX, pane.width * 0.32)
  const boardWidth = Math.max(1e-6, boardBox.maxX - boardBox.minX)
  const boardHeight = Math.max(1e-6, boardBox.maxY - boardBox.minY)
  const scale = Math.min((largest - 2 * PADDING_PX) / boardWidth, (LARGEST_HEIGHT_PX - 2 * PADDING_PX) / boardHeight)
  const width = Math.max(150, Math.round(boardWidth * scale + 2 * PADDING_PX))
  const height = Math.round(boardHeight * scale + 2 * PADDING_PX + CAPTION_PX)
  return {
    width,
    height,
    left: camera.width - width - OVERVIEW_INSET_PX,
    top: camera.height - height - OVERVIEW_INSET_PX,
  }
}

/** Board to overview pixels, mirrored as the pane is. */
export function overviewTransform(
  place: OverviewPlace,
  boardBox: Box,
  pane: Pane,
): PaneTransform & { readonly scale: number } {
  const scale = Math.min(
    (place.width - 2 * PADDING_PX) / Math.max(1e-6, boardBox.maxX - boardBox.minX),
    (place.height - CAPTION_PX - 2 * PADDING_PX) / Math.max(1e-6, boardBox.maxY - boardBox.minY),
  )
  const a = pane.side === 'bottom' ? -scale : scale
  return {
    scale,
    a,
    d: -scale,
    e: place.width / 2 - (a * (boardBox.minX + boardBox.maxX)) / 2,
    f: PADDING_PX + scale * boardBox.maxY,
  }
}

export const overviewBox = (place: OverviewPlace): Box => ({
  minX: place.left,
  minY: place.top,
  maxX: place.left + place.width,
  maxY: place.top + place.height,
})

const holds = (outer: Box, inner: Box): boolean =>
  outer.minX <= inner.minX && outer.minY <= inner.minY && outer.maxX >= inner.maxX && outer.maxY >= inner.maxY
