/** A nozzle's footprint and a preheater's patch to scale, and parts that are shielded. */
import { say } from '../../../base/index.ts'
import type { BoardModel } from '../../../board/index.ts'
import type { HeatSetting } from '../../../heat/index.ts'
import { toPane } from '../pure/camera.ts'
import { type Frame, traceRounded } from './frame.ts'
import { drawText } from './text.ts'

/** @param strong the pass that is looked at; others are thin */
export function drawNozzle(frame: Frame, setting: HeatSetting, strong: boolean): void {
  const { ctx, theme, transform, scale, pane } = frame
  const { nozzle, at } = setting
  const p = toPane(transform, at)
  const half = (nozzle.sizeMm / 2) * scale
  ctx.beginPath()
  if (nozzle.shape === 'round') ctx.arc(p.x, p.y, half, 0, 2 * Math.PI)
  else ctx.rect(p.x - half, p.y - half, 2 * half, 2 * half)
  ctx.setLineDash(setting.side === pane.side ? [] : [7, 5])
  if (strong) {
    ctx.lineWidth = 5
    ctx.strokeStyle = theme.sheet
    ctx.stroke()
  }
  ctx.lineWidth = strong ? 2.4 : 1.3
  ctx.strokeStyle = theme.ink
  ctx.globalAlpha = strong ? 1 : 0.55
  ctx.stroke()
  ctx.setLineDash([])
  if (strong) drawCross(frame, p.x, p.y)
  ctx.globalAlpha = 1
}

function drawCross(frame: Frame, x: number, y: number): void {
  const { ctx } = frame
  ctx.beginPath()
  ctx.moveTo(x - 6, y)
  ctx.lineTo(x + 6, y)
  ctx.moveTo(x, y - 6)
  ctx.lineTo(x, y + 6)
  ctx.lineWidth = 1.4
  ctx.stroke()
}

/** The patch that is warmed from below: a dotted frame, only where it is less than the board. */
export function drawPreheater(frame: Frame, setting: HeatSetting): void {
  const { preheater } = setting
  if (preheater === undefined) return
  const { ctx, theme, transform, scale } = frame
  const p = toPane(transform, preheater.at)
  const width = preheater.widthMm * scale
  const height = preheater.lengthMm * scale
  ctx.beginPath()
  ctx.roundRect(p.x - width / 2, p.y - height / 2, width, height, 6)
  ctx.setLineDash([1.5, 5])
  ctx.lineCap = 'round'
  ctx.lineWidth = 2
  ctx.strokeStyle = theme.muted
  ctx.stroke()
  ctx.setLineDash([])
  const label = { size: 12, weight: 500, colour: theme.muted, halo: theme.sheet } as const
  drawText(
    ctx,
    say('preheater below, {preheatC} °C', { preheatC: setting.preheatC }),
    p.x - width / 2 + 8,
    p.y + height / 2 - 10,
    label,
  )
}

/** A shielded part: crossed by lines, with what lies on it in words. */
export function drawShields(frame: Frame, model: BoardModel, setting: HeatSetting): void {
  const { ctx, theme } = frame
  for (const { ref, kind } of setting.shields) {
    const part = model.partByRef.get(ref)
    if (part === undefined) continue
    ctx.save()
    ctx.beginPath()
    traceRounded(frame, part.outline, 4)
    ctx.lineWidth = 2.4
    ctx.strokeStyle = theme.reachText
    ctx.stroke()
    ctx.clip()
    const p = toPane(frame.transform, part.placement.at)
    const reach = (Math.max(part.widthMm, part.lengthMm) * frame.scale) / 2
    ctx.beginPath()
    for (let shift = -2 * reach; shift <= 2 * reach; shift += 7) {
      ctx.moveTo(p.x + shift - reach, p.y - reach)
      ctx.lineTo(p.x + shift + reach, p.y + reach)
    }
    ctx.lineWidth = 1.2
    ctx.stroke()
    ctx.restore()
    drawText(ctx, kind === 'tape' ? say('tape') : say('heat sink'), p.x, p.y + reach * 0.5, {
      size: 12,
      weight: 700,
      colour: theme.reachText,
      halo: theme.sheet,
      align: 'center',
    })
  }
}
