/** Repairs of pads and tracks: a ring with a cross at each hurt pad, the way of its wire as a line with its name at the end. */
import type { Point } from '../../../base/index.ts'
import type { PadRepair } from '../../../case/index.ts'
import { toPane } from '../pure/camera.ts'
import type { Scene } from '../pure/scene.ts'
import { type Frame, traceLine } from './frame.ts'
import { drawText } from './text.ts'

const RING_PX = 7
const NAME_PX = 12

export function drawPadRepairs(frame: Frame, { model }: Scene, repairs: readonly PadRepair[]): void {
  const { ctx, theme, pane } = frame
  ctx.save()
  ctx.lineJoin = 'round'
  ctx.lineCap = 'round'
  for (const { ref, pad, side, path, remedy } of repairs) {
    const part = model.partByRef.get(ref)
    const at = part?.side === pane.side ? part.pads.find(({ number }) => number === pad)?.at : undefined
    if (at !== undefined) drawHurt(frame, at)
    if (side !== pane.side || path.length < 2 || (remedy !== 'jumper' && remedy !== 'track')) continue
    drawWay(frame, path, remedy === 'jumper')
    const end = path.at(-1)
    if (end === undefined) continue
    const { x, y } = toPane(frame.transform, end)
    const name = [ref, pad].filter(Boolean).join(' ')
    drawText(ctx, name, x + 7, y, { size: NAME_PX, weight: 600, colour: theme.ink, halo: theme.sheet })
  }
  ctx.restore()
}

/** A jumper lies over the board: drawn full with a light rim; a mended track is dashed. */
function drawWay(frame: Frame, path: readonly Point[], isJumper: boolean): void {
  const { ctx, theme } = frame
  ctx.beginPath()
  traceLine(frame, path)
  ctx.setLineDash([])
  ctx.strokeStyle = theme.sheet
  ctx.lineWidth = 5
  ctx.stroke()
  ctx.setLineDash(isJumper ? [] : [6, 4])
  ctx.strokeStyle = theme.ink
  ctx.lineWidth = 2.2
  ctx.stroke()
  ctx.setLineDash([])
  ctx.fillStyle = theme.ink
  for (const end of [path[0], path.at(-1)]) {
    if (end === undefined) continue
    const { x, y } = toPane(frame.transform, end)
    ctx.beginPath()
    ctx.arc(x, y, 3.2, 0, 2 * Math.PI)
    ctx.fill()
  }
}

function drawHurt(frame: Frame, at: Point): void {
  const { ctx, theme } = frame
  const { x, y } = toPane(frame.transform, at)
  const arm = RING_PX * 0.55
  ctx.beginPath()
  ctx.arc(x, y, RING_PX, 0, 2 * Math.PI)
  ctx.fillStyle = theme.sheet
  ctx.fill()
  ctx.moveTo(x - arm, y - arm)
  ctx.lineTo(x + arm, y + arm)
  ctx.moveTo(x + arm, y - arm)
  ctx.lineTo(x - arm, y + arm)
  ctx.strokeStyle = theme.ink
  ctx.lineWidth = 1.8
  ctx.stroke()
}
