/** Marks on the canvas, and handles on the selected one. */
import { isPainted, markShapes, marksInOrder, symbolBox } from '../../../case/index.ts'
import type { Mark } from '../../../spill/index.ts'
import { toPane } from '../pure/camera.ts'
import { handlesOf } from '../pure/handles.ts'
import type { Frame } from './frame.ts'
import { paint, viewOf } from './paint.ts'

export function drawMarks(frame: Frame, marks: readonly Mark[], selectedId: string | undefined): void {
  const here = marksInOrder(marks, frame.pane.side)
  const view = viewOf(frame)
  for (const mark of here) {
    if (mark.id === selectedId) drawSelected(frame, mark)
    paint(frame, markShapes(view, mark))
  }
  const selected = here.find((mark) => mark.id === selectedId)
  if (selected !== undefined) drawHandles(frame, selected)
}

/** A ring of the focus colour around the mark's symbol. */
function drawSelected(frame: Frame, mark: Mark): void {
  const { ctx, theme } = frame
  const box = symbolBox(viewOf(frame), mark)
  const radius = mark.kind === 'dam' || isPainted(mark) ? 8 : (box.maxX - box.minX) / 2
  ctx.beginPath()
  ctx.roundRect(box.minX - 4, box.minY - 4, box.maxX - box.minX + 8, box.maxY - box.minY + 8, radius + 4)
  ctx.lineWidth = 2
  ctx.strokeStyle = theme.focus
  ctx.stroke()
}

function drawHandles(frame: Frame, mark: Mark): void {
  const { ctx, theme, transform } = frame
  for (const handle of handlesOf(mark, frame.scale, frame.pane.side === 'bottom' ? -1 : 1)) {
    if (handle.kind === 'move') continue
    const { x, y } = toPane(transform, handle.at)
    ctx.beginPath()
    if (handle.kind === 'down') ctx.arc(x, y, 5.5, 0, 2 * Math.PI)
    else ctx.rect(x - 5, y - 5, 10, 10)
    ctx.fillStyle = theme.sheet
    ctx.fill()
    ctx.lineWidth = 2
    ctx.strokeStyle = theme.focus
    ctx.stroke()
  }
}
