/** Which point of the board lies under a point of the page. */
import type { Point } from '../../../base/index.ts'
import type { Side } from '../../../board/index.ts'
import { type Camera, paneAt, paneTransform, toBoard } from './camera.ts'

/** @param onSheet CSS pixels from the sheet's upper left; @returns undefined where that is beside the sheet */
export function pointOnBoard(camera: Camera, onSheet: Point): { readonly at: Point; readonly side: Side } | undefined {
  if (onSheet.x < 0 || onSheet.y < 0 || onSheet.x > camera.width || onSheet.y > camera.height) return undefined
  const pane = paneAt(camera, onSheet)
  const at = toBoard(paneTransform(camera, pane), { x: onSheet.x - pane.left, y: onSheet.y - pane.top })
  return { at, side: pane.side }
}
