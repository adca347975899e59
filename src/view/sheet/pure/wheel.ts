/** What a turn of the wheel or a stroke of two fingers means: zooming or panning. */

export interface WheelTurn {
  readonly deltaX: number
  readonly deltaY: number
  /** As in the DOM: 0 pixels, 1 lines, 2 pages. */
  readonly deltaMode: number
  /** Set by browsers for a pinch on a trackpad, too. */
  readonly ctrlKey: boolean
  readonly shiftKey: boolean
}

export type WheelMeaning =
  | { readonly kind: 'zoom'; readonly factor: number }
  | { readonly kind: 'pan'; readonly dx: number; readonly dy: number }

const LINE_PX = 24
const PAGE_PX = 400
/** Wheels with notches send 100 or more pixels at once, trackpads far less. */
const SMALLEST_NOTCH_PX = 50

/** @param panning that the turn before, a moment ago, was a pan: a stroke that speeds up stays a pan */
export function wheelMeaning(turn: WheelTurn, panning: boolean): WheelMeaning {
  const unit = turn.deltaMode === 1 ? LINE_PX : turn.deltaMode === 2 ? PAGE_PX : 1
  const dx = turn.deltaX * unit
  const dy = turn.deltaY * unit
  if (turn.ctrlKey) return { kind: 'zoom', factor: Math.exp(-Math.max(-60, Math.min(60, dy)) * 0.01) }
  if (turn.shiftKey && dx === 0) return { kind: 'pan', dx: -dy, dy: 0 }
  const stroke = turn.deltaMode === 0 && (dx !== 0 || Math.abs(dy) < SMALLEST_NOTCH_PX || panning)
  if (stroke) return { kind: 'pan', dx: -dx, dy: -dy }
  return { kind: 'zoom', factor: Math.exp(-Math.max(-240, Math.min(240, dy)) * 0.0018) }
}
