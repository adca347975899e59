/** The lift order on the canvas: the dotted line from badge to badge, then the badges. */
import type { BoardModel } from '../../../board/index.ts'
import { type Badge, badgeLines, badgeShapes } from '../../../case/index.ts'
import type { Frame } from './frame.ts'
import { paint, viewOf, write } from './paint.ts'

/** @param badges at places that were found for them, in the order of the lift list */
export function drawBadges(frame: Frame, model: BoardModel, badges: readonly Badge[]): void {
  const view = viewOf(frame)
  paint(frame, badgeLines(view, model, badges))
  for (const badge of badges) {
    const { shapes, number } = badgeShapes(view, badge)
    paint(frame, shapes)
    write(frame, number)
  }
}
