/** What every drawing function gets: a canvas context in a pane's CSS pixels, the camera as it stands, the colours. */
import type { Box, Point } from '../../../base/index.ts'
import type { Theme } from '../../look/tokens.ts'
import { type Camera, type Pane, type PaneTransform, paneTransform, shownBox } from '../pure/camera.ts'

export interface Frame {
  readonly ctx: CanvasRenderingContext2D
  readonly pane: Pane
  readonly scale: number
  readonly transform: PaneTransform
  /** The board box that the pane shows. */
  readonly shown: Box
  readonly theme: Theme
  /** How dense bodies are filled, where something under them is to be seen; 1 where left out. */
  readonly bodyAlpha?: number
}

export function frameOf(ctx: CanvasRenderingContext2D, camera: Camera, pane: Pane, theme: Theme): Frame {
  return {
    ctx,
    pane,
    scale: camera.scale,
    transform: paneTransform(camera, pane),
    shown: shownBox(camera, pane),
    theme,
  }
}

/** Fills the current path as part of a body. */
export function fillBody({ ctx, bodyAlpha = 1 }: Frame, colour: string): void {
  ctx.fillStyle = colour
  ctx.globalAlpha = bodyAlpha
  ctx.fill()
  ctx.globalAlpha = 1
}

/** Adds a closed polygon given in board mm to the current path. */
export function tracePolygon(frame: Frame, polygon: readonly Point[]): void {
  const { ctx, transform: t } = frame
  for (const [i, p] of polygon.entries()) {
    if (i === 0) ctx.moveTo(t.a * p.x + t.e, t.d * p.y + t.f)
    else ctx.lineTo(t.a * p.x + t.e, t.d * p.y + t.f)
  }
  ctx.closePath()
}

/** The same with its corners rounded by so many pixels, less where an edge is too short for that. */
export function traceRounded(frame: Frame, polygon: readonly Point[], radiusPx: number): void {
  const { ctx, transform: t } = frame
  const n = polygon.length
  const px = polygon.map((p) => ({ x: t.a * p.x + t.e, y: t.d * p.y + t.f }))
  const last = px[n - 1]
  const first = px[0]
  if (last === undefined || first === undefined) return
  let radius = radiusPx
  for (let i = 0, before = last; i < n; i++) {
    const here = px[i] ?? first
    radius = Math.min(radius, Math.hypot(here.x - before.x, here.y - before.y) * 0.45)
    before = here
  }
  ctx.moveTo((last.x + first.x) / 2, (last.y + first.y) / 2)
  for (let i = 0; i < n; i++) {
    const here = px[i] ?? first
    const next = px[(i + 1) % n] ?? first
    ctx.arcTo(here.x, here.y, (here.x + next.x) / 2, (here.y + next.y) / 2, radius)
  }
  ctx.closePath()
}

/** Adds an open line given in board mm to the current path. */
export function traceLine(frame: Frame, path: readonly Point[]): void {
  const { ctx, transform: t } = frame
  for (const [i, p] of path.entries()) {
    if (i === 0) ctx.moveTo(t.a * p.x + t.e, t.d * p.y + t.f)
    else ctx.lineTo(t.a * p.x + t.e, t.d * p.y + t.f)
  }
}

/** A board box in pane pixels. */
export function boxInPane(frame: Frame, box: Box): Box {
  const { transform: t } = frame
  const x1 = t.a * box.minX + t.e
  const x2 = t.a * box.maxX + t.e
  return {
    minX: Math.min(x1, x2),
    maxX: Math.max(x1, x2),
    minY: t.d * box.maxY + t.f,
    maxY: t.d * box.minY + t.f,
  }
}

export const touches = (a: Box, b: Box): boolean =>
  a.minX <= b.maxX && a.maxX >= b.minX && a.minY <= b.maxY && a.maxY >= b.minY

/** Adds a closed line of x, y pairs in board mm to the open path. */
export function traceLoop(frame: Frame, loop: Float32Array): void {
  const { ctx, transform: t } = frame
  for (let i = 0; i < loop.length; i += 2) {
    const x = t.a * (loop[i] ?? 0) + t.e
    const y = t.d * (loop[i + 1] ?? 0) + t.f
    if (i === 0) ctx.moveTo(x, y)
    else ctx.lineTo(x, y)
  }
  ctx.closePath()
}
