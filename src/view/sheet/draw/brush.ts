/** The brush itself, while it paints nothing yet. */
import type { Point } from '../../../base/index.ts'
import type { Frame } from './frame.ts'

/** How wide the brush is, where it stands. */
export function drawBrush(frame: Frame, { at, radiusMm }: { readonly at: Point; readonly radiusMm: number }): void {
  const { ctx, transform: t, theme, scale } = frame
  for (const [lineWidth, colour] of [
    [3.2, theme.sheet],
    [1.4, theme.residue],
  ] as const) {
    ctx.beginPath()
    ctx.arc(t.a * at.x + t.e, t.d * at.y + t.f, Math.max(1.5, radiusMm * scale), 0, 2 * Math.PI)
    ctx.lineWidth = lineWidth
    ctx.strokeStyle = colour
    ctx.stroke()
  }
}
