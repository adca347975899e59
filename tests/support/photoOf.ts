/** An invented photo of a board: its outline, its parts and one red patch, drawn as a camera askew would see them. */
import { applied, type Box, type Homography, homographyFrom, type Point } from '../../src/base/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import { cornersSeen } from '../../src/case/index.ts'

export const PHOTO_SIZE = { width: 1200, height: 900 } as const

/** Where the camera sees the board's lower left, lower right, upper right and upper left corner, in pixels. */
export const SEEN_CORNERS: readonly Point[] = [
  { x: 192, y: 768 },
  { x: 1032, y: 744 },
  { x: 984, y: 180 },
  { x: 264, y: 132 },
]

function viewFrom(box: Box): Homography {
  const pairs = cornersSeen('top', box).map((from, i) => ({ from, to: SEEN_CORNERS[i] ?? from }))
  const made = homographyFrom(pairs, 'turned over')
  if (!made.ok) throw new Error('no view')
  return made.value
}

/** @param patch on the board, painted red */
export async function photoOf(model: BoardModel, patch: Box, name = 'top.png'): Promise<File> {
  const canvas = new OffscreenCanvas(PHOTO_SIZE.width, PHOTO_SIZE.height)
  const ctx = canvas.getContext('2d')
  if (ctx === null) throw new Error('no canvas')
  const view = viewFrom(model.box)
  const fill = (polygon: readonly Point[], colour: string): void => {
    ctx.beginPath()
    for (const [i, point] of polygon.entries()) {
      const { x, y } = applied(view, point)
      if (i === 0) ctx.moveTo(x, y)
      else ctx.lineTo(x, y)
    }
    ctx.closePath()
    ctx.fillStyle = colour
    ctx.fill()
  }
  ctx.fillStyle = '#c8c2b4'
  ctx.fillRect(0, 0, PHOTO_SIZE.width, PHOTO_SIZE.height)
  fill(model.outline, '#1f4d3a')
  for (const part of model.parts) if (part.side === 'top') fill(part.outline, '#2d2f33')
  fill(cornersSeen('top', patch), '#e01020')
  return new File([await canvas.convertToBlob({ type: 'image/png' })], name, { type: 'image/png' })
}
