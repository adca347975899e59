/** The field of where the spill was, as an image that the canvas can stretch over the board. */
import type { Grid } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import type { SuspectsResult } from '../../suspects/index.ts'
import { washPixels } from './pure/wash.ts'

export interface WashImage {
  readonly side: Side
  readonly grid: Grid
  readonly image: HTMLCanvasElement
}

/** Undefined where there is no spill to show, or where the page gives no canvas. */
export function washImage(suspects: SuspectsResult | undefined, colour: string): WashImage | undefined {
  const spill = suspects?.spill
  if (spill === undefined) return undefined
  const { grid, side, density } = spill
  const image = document.createElement('canvas')
  image.width = grid.columns
  image.height = grid.rows
  const ctx = image.getContext('2d')
  if (ctx === null) return undefined
  ctx.putImageData(new ImageData(washPixels(density, grid.columns, grid.rows, colour), grid.columns, grid.rows), 0, 0)
  return { side, grid, image }
}
