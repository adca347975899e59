/** How the board's millimetres come onto the editor's drawing. The bottom is drawn as it looks with the board turned over. */
import { type Box, boxOf, type Point } from '../../base/index.ts'
import { type BoardDescription, partCorners, type Side } from '../../board/index.ts'

export interface View {
  /** Of the board, in mm, in the middle of the drawing. */
  readonly centre: Point
  readonly pxPerMm: number
  readonly side: Side
  readonly widthPx: number
  readonly heightPx: number
}

const LEAST_PX = 0.5
const MOST_PX = 400
const MARGIN_PX = 24

const across = (side: Side): 1 | -1 => (side === 'top' ? 1 : -1)

export const toScreen = ({ centre, pxPerMm, side, widthPx, heightPx }: View, { x, y }: Point): Point => ({
  x: widthPx / 2 + (x - centre.x) * pxPerMm * across(side),
  y: heightPx / 2 - (y - centre.y) * pxPerMm,
})

export const toBoard = ({ centre, pxPerMm, side, widthPx, heightPx }: View, { x, y }: Point): Point => ({
  x: centre.x + ((x - widthPx / 2) / pxPerMm) * across(side),
  y: centre.y - (y - heightPx / 2) / pxPerMm,
})

/** A way on the screen, in px, as a way on the board, in mm. */
export const wayOnBoard = ({ pxPerMm, side }: Pick<View, 'pxPerMm' | 'side'>, { x, y }: Point): Point => ({
  x: (x / pxPerMm) * across(side),
  y: -y / pxPerMm,
})

/** The transform of a group whose children are drawn in the board's millimetres. */
export function groupTransform({ centre, pxPerMm, side, widthPx, heightPx }: View): string {
  const sx = pxPerMm * across(side)
  return `matrix(${sx} 0 0 ${-pxPerMm} ${widthPx / 2 - centre.x * sx} ${heightPx / 2 + centre.y * pxPerMm})`
}

/** The box about a board and what stands off it, in mm. */
export const wholeBox = (board: BoardDescription): Box => boxOf([...board.outline, ...board.parts.flatMap(partCorners)])

export function fitted(view: View, box: Box): View {
  const width = Math.max(1, view.widthPx - 2 * MARGIN_PX) / Math.max(1, box.maxX - box.minX)
  const height = Math.max(1, view.heightPx - 2 * MARGIN_PX) / Math.max(1, box.maxY - box.minY)
  return {
    ...view,
    centre: { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 },
    pxPerMm: held(Math.min(width, height)),
  }
}

/** The point of the board under `at`, in px of the drawing, stays under it. */
export function zoomed(view: View, factor: number, at: Point = { x: view.widthPx / 2, y: view.heightPx / 2 }): View {
  const under = toBoard(view, at)
  const next = { ...view, pxPerMm: held(view.pxPerMm * factor) }
  const over = toBoard(next, at)
  return { ...next, centre: { x: view.centre.x + under.x - over.x, y: view.centre.y + under.y - over.y } }
}

export function panned(view: View, byPx: Point): View {
  const by = wayOnBoard(view, byPx)
  return { ...view, centre: { x: view.centre.x - by.x, y: view.centre.y - by.y } }
}

const held = (pxPerMm: number): number => Math.min(MOST_PX, Math.max(LEAST_PX, pxPerMm))
