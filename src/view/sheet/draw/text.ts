/** Text on the canvas: one font, a halo where it lies over lines, widths measured once. */
import { type } from '../../look/tokens.ts'

export interface TextStyle {
  readonly size: number
  readonly weight: 400 | 500 | 600 | 700
  readonly colour: string
  /** Colour of the rim that keeps the letters clear of lines behind them. */
  readonly halo?: string
  readonly align?: 'left' | 'center' | 'right'
}

const HALO_PX = 3.5
const MAX_KEPT = 20_000
const widths = new Map<string, number>()

const fontOf = (style: Pick<TextStyle, 'size' | 'weight'>): string => `${style.weight} ${style.size}px ${type.family}`

/** Width in pixels at a size; kept, so that a label is measured once and not in every frame. */
export function textWidth(
  ctx: CanvasRenderingContext2D,
  text: string,
  style: Pick<TextStyle, 'size' | 'weight'>,
): number {
  const key = `${style.weight} ${text}`
  let atHundred = widths.get(key)
  if (atHundred === undefined) {
    ctx.save()
    ctx.font = fontOf({ size: 100, weight: style.weight })
    atHundred = ctx.measureText(text).width
    ctx.restore()
    if (widths.size >= MAX_KEPT) widths.clear()
    widths.set(key, atHundred)
  }
  return (atHundred * style.size) / 100
}

/** To be called when the font arrives: what was measured with another one is wrong. */
export const forgetWidths = (): void => widths.clear()

/** Draws a line of text whose middle height is at y. */
export function drawText(ctx: CanvasRenderingContext2D, text: string, x: number, y: number, style: TextStyle): void {
  ctx.font = fontOf(style)
  ctx.textAlign = style.align ?? 'left'
  ctx.textBaseline = 'middle'
  const baseline = y + style.size * 0.06
  if (style.halo !== undefined) {
    ctx.strokeStyle = style.halo
    ctx.lineWidth = HALO_PX
    ctx.lineJoin = 'round'
    ctx.setLineDash([])
    ctx.strokeText(text, x, baseline)
  }
  ctx.fillStyle = style.colour
  ctx.fillText(text, x, baseline)
}
