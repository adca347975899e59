/**
 * The hunt for a short: the copper's dashed edge, areas that hold a half, 90 % and 99 % with double lines, numbered rings
 * at the readings, a wedge where the current goes in, a cross where it likely sinks, a target for the next reading.
 */
import { type Point, say } from '../../../base/index.ts'
import { toPane } from '../pure/camera.ts'
import { shortLinesOf } from '../pure/shortField.ts'
import type { ShortView } from '../shortView.ts'
import { type Frame, traceLoop } from './frame.ts'
import { drawText } from './text.ts'

export function drawShortField(frame: Frame, { field }: ShortView): void {
  if (field === undefined) return
  const { ctx, theme } = frame
  const lines = shortLinesOf(field.grid, field.density, field.copper, field.best !== undefined)
  ctx.save()
  ctx.lineJoin = 'round'
  ctx.beginPath()
  for (const loop of lines.copper) traceLoop(frame, loop)
  ctx.fillStyle = theme.need
  ctx.globalAlpha = 0.06
  ctx.fill('evenodd')
  ctx.globalAlpha = 0.9
  ctx.setLineDash([2, 4])
  ctx.lineWidth = 1.2
  ctx.strokeStyle = theme.needText
  ctx.stroke()
  ctx.setLineDash([])
  for (const { held, loops } of lines.held) {
    ctx.beginPath()
    for (const loop of loops) traceLoop(frame, loop)
    ctx.fillStyle = theme.need
    ctx.globalAlpha = 0.16
    ctx.fill('evenodd')
    ctx.globalAlpha = 1
    strokeHeld(frame, held)
  }
  ctx.restore()
}

/** 90 % is the one that is spoken of: a double line; the others are thin. */
function strokeHeld({ ctx, theme }: Frame, held: number): void {
  const main = held === 0.9
  ctx.strokeStyle = theme.needText
  ctx.lineWidth = main ? 4.4 : 1.1
  ctx.stroke()
  if (!main) return
  ctx.strokeStyle = theme.sheet
  ctx.lineWidth = 1.6
  ctx.stroke()
}

const RING_PX = 11
const TARGET_PX = 16

export function drawShortSymbols(frame: Frame, view: ShortView): void {
  const { pane } = frame
  if (pane.side !== view.side) return
  if (view.field?.best !== undefined) drawBest(frame, view.field.best)
  drawSource(frame, view.sourceAt)
  for (const [i, reading] of view.readings.entries()) drawReading(frame, reading.at, i + 1, reading.refused)
  if (view.next !== undefined) drawNext(frame, view.next.at, view.next.label)
}

function drawReading(frame: Frame, at: Point, number: number, refused: boolean): void {
  const { ctx, theme, transform } = frame
  const { x, y } = toPane(transform, at)
  ctx.beginPath()
  ctx.arc(x, y, RING_PX, 0, 2 * Math.PI)
  ctx.fillStyle = theme.sheet
  ctx.fill()
  ctx.lineWidth = 2
  ctx.strokeStyle = refused ? theme.muted : theme.ink
  ctx.setLineDash(refused ? [3, 3] : [])
  ctx.stroke()
  ctx.setLineDash([])
  drawText(ctx, String(number), x, y, { size: 13, weight: 700, colour: theme.ink, align: 'center' })
}

/** A wedge that points onto the place. */
function drawSource(frame: Frame, at: Point): void {
  const { ctx, theme, transform } = frame
  const { x, y } = toPane(transform, at)
  ctx.beginPath()
  ctx.moveTo(x, y)
  ctx.lineTo(x - 8, y - 17)
  ctx.lineTo(x + 8, y - 17)
  ctx.closePath()
  ctx.lineJoin = 'round'
  ctx.lineWidth = 4
  ctx.strokeStyle = theme.sheet
  ctx.stroke()
  ctx.fillStyle = theme.ink
  ctx.fill()
  drawText(ctx, say('current in'), x, y - 27, {
    size: 13,
    weight: 600,
    colour: theme.ink,
    halo: theme.sheet,
    align: 'center',
  })
}

function drawBest(frame: Frame, at: Point): void {
  const { ctx, theme, transform } = frame
  const { x, y } = toPane(transform, at)
  for (const [width, colour] of [
    [6.5, theme.sheet],
    [2.8, theme.ink],
  ] as const) {
    ctx.beginPath()
    ctx.moveTo(x - 8, y - 8)
    ctx.lineTo(x + 8, y + 8)
    ctx.moveTo(x + 8, y - 8)
    ctx.lineTo(x - 8, y + 8)
    ctx.lineCap = 'round'
    ctx.lineWidth = width
    ctx.strokeStyle = colour
    ctx.stroke()
  }
  drawText(ctx, say('most likely here'), x, y + 21, {
    size: 13,
    weight: 600,
    colour: theme.ink,
    halo: theme.sheet,
    align: 'center',
  })
}

function drawNext(frame: Frame, at: Point, label: string): void {
  const { ctx, theme, transform } = frame
  const { x, y } = toPane(transform, at)
  for (const [width, colour] of [
    [6, theme.sheet],
    [2.6, theme.focus],
  ] as const) {
    ctx.beginPath()
    ctx.arc(x, y, TARGET_PX, 0, 2 * Math.PI)
    for (const [dx, dy] of ARMS) {
      ctx.moveTo(x + dx * (TARGET_PX - 5), y + dy * (TARGET_PX - 5))
      ctx.lineTo(x + dx * (TARGET_PX + 7), y + dy * (TARGET_PX + 7))
    }
    ctx.lineWidth = width
    ctx.strokeStyle = colour
    ctx.stroke()
  }
  const below = y + TARGET_PX + 18
  drawText(ctx, say('probe next: {label}', { label }), x, below, {
    size: 13,
    weight: 700,
    colour: theme.reachText,
    halo: theme.sheet,
    align: 'center',
  })
}

const ARMS = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const
