/** Moves the sheet so that the points of a line are seen; where they are seen already it stays as it is. */
import { boxOf } from '../../../base/index.ts'
import type { LinePoint } from '../../../measure/index.ts'
import type { Desk } from '../../stores/desk.ts'

/** Room for the markers, which stand above their points. */
const MARGIN_PX = 34

export function revealPoints(desk: Desk, points: readonly LinePoint[]): void {
  const camera = desk.cases.getState().board?.camera.getState()
  const [first] = points
  if (camera === undefined || first === undefined || camera.width === 0) return
  const both = camera.side === 'both'
  const side = both || points.some((point) => point.side === camera.side) ? camera.side : first.side
  if (side !== camera.side) camera.show(side)
  const shown = points.filter((point) => side === 'both' || point.side === side)
  const box = boxOf(shown.map(({ at }) => at))
  const halfWidthMm = (camera.width / (both ? 4 : 2) - MARGIN_PX) / camera.scale
  const halfHeightMm = (camera.height / 2 - MARGIN_PX) / camera.scale
  const { x, y } = camera.centre
  const seen =
    box.minX >= x - halfWidthMm &&
    box.maxX <= x + halfWidthMm &&
    box.minY >= y - halfHeightMm &&
    box.maxY <= y + halfHeightMm
  if (seen) return
  const fits = box.maxX - box.minX <= 2 * halfWidthMm && box.maxY - box.minY <= 2 * halfHeightMm
  if (fits) camera.moveTo({ x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 })
  else camera.showBox(box)
}
