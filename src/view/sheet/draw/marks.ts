/** Marks in the order of their weight: areas below, dams and notes, the spill on top; handles on the selected one. */
import type { AreaMark, Mark } from '../../../spill/index.ts'
import { toPane } from '../pure/camera.ts'
import { handlesOf } from '../pure/handles.ts'
import { boxOfArea } from '../../../spill/index.ts'
import { discOf, drawAreaMark, drawSlip } from './areaMarks.ts'
import { boxInPane, type Frame } from './frame.ts'
import { drawDam, drawNote } from './lineMarks.ts'
import { drawSpill, SPILL_DOT_PX } from './spillMark.ts'
import type { Box } from '../../../base/index.ts'

const WEIGHT: Readonly<Record<Mark['kind'], number>> = {
  film: 0,
  residue: 0,
  corrosion: 0,
  clean: 1,
  dam: 2,
  slip: 2,
  note: 3,
  spill: 4,
}

export function drawMarks(frame: Frame, marks: readonly Mark[], selectedId: string | undefined): void {
  const here = marks.filter((mark) => mark.side === frame.pane.side)
  for (const mark of here.toSorted((p, q) => WEIGHT[p.kind] - WEIGHT[q.kind])) {
    if (mark.id === selectedId) drawSelected(frame, mark)
    drawMark(frame, mark)
  }
  const selected = here.find((mark) => mark.id === selectedId)
  if (selected !== undefined) drawHandles(frame, selected)
}

function drawMark(frame: Frame, mark: Mark): void {
  switch (mark.kind) {
    case 'spill':
      return drawSpill(frame, mark)
    case 'dam':
      return drawDam(frame, mark.path)
    case 'slip':
      return drawSlip(frame, mark)
    case 'note':
      return drawNote(frame, mark)
    default:
      return drawAreaMark(frame, mark)
  }
}

/** A ring of the focus colour around the mark's symbol. */
function drawSelected(frame: Frame, mark: Mark): void {
  const { ctx, theme } = frame
  const box = symbolBox(frame, mark)
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

/** What a mark's symbol covers, in pane pixels: what its label must stand clear of. */
export function symbolBox(frame: Frame, mark: Mark): Box {
  if (mark.kind === 'dam') {
    const points = mark.path.map((bend) => toPane(frame.transform, bend))
    return {
      minX: Math.min(...points.map((p) => p.x)),
      maxX: Math.max(...points.map((p) => p.x)),
      minY: Math.min(...points.map((p) => p.y)),
      maxY: Math.max(...points.map((p) => p.y)),
    }
  }
  if (isPainted(mark)) return boxInPane(frame, boxOfArea(mark))
  const { x, y } = toPane(frame.transform, mark.at)
  const radius = symbolRadiusPx(frame, mark)
  return { minX: x - radius, maxX: x + radius, minY: y - radius, maxY: y + radius }
}

const isPainted = (mark: Mark): mark is AreaMark =>
  ('outline' in mark && mark.outline !== undefined) ||
  (mark.kind !== 'dam' && 'path' in mark && mark.path !== undefined)

function symbolRadiusPx(frame: Frame, mark: Exclude<Mark, { kind: 'dam' }>): number {
  if (mark.kind === 'spill') return SPILL_DOT_PX + 3
  if (mark.kind === 'note' || mark.kind === 'clean') return 11
  return discOf(frame, mark).radius
}
