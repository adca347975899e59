/** One canvas of a picture. It is drawn in the next frame after it was asked to, once however often it was asked. */
import { type Ref, useEffect, useImperativeHandle, useLayoutEffect, useRef, useState } from 'react'

export type Draw = (ctx: CanvasRenderingContext2D) => void

export interface CanvasHandle {
  /** Draws in the next frame. */
  readonly redraw: () => void
}

interface CanvasProps {
  readonly width: number
  readonly height: number
  /** Draws the whole picture in CSS pixels onto an empty canvas; another function draws it anew. */
  readonly draw: Draw
  readonly ref?: Ref<CanvasHandle>
}

export function Canvas({ width, height, draw, ref }: CanvasProps) {
  const element = useRef<HTMLCanvasElement>(null)
  const [frames] = useState(createFrames)
  useImperativeHandle(ref, () => ({ redraw: frames.ask }), [frames])
  useLayoutEffect(() => frames.drawOn(element.current), [frames])
  useLayoutEffect(() => frames.show({ width, height, draw }), [frames, width, height, draw])
  useEffect(() => frames.stop, [frames])
  return <canvas ref={element} style={{ position: 'absolute', inset: 0, width, height }} />
}

interface Shown {
  readonly width: number
  readonly height: number
  readonly draw: Draw
}

function createFrames() {
  let canvas: HTMLCanvasElement | null = null
  let shown: Shown | undefined
  let asked: number | undefined
  const draw = (): void => {
    asked = undefined
    if (canvas !== null && shown !== undefined) paint(canvas, shown)
  }
  const ask = (): void => {
    asked ??= requestAnimationFrame(draw)
  }
  return {
    ask,
    drawOn: (element: HTMLCanvasElement | null): void => {
      canvas = element
    },
    show: (next: Shown): void => {
      shown = next
      ask()
    },
    stop: (): void => {
      if (asked !== undefined) cancelAnimationFrame(asked)
      asked = undefined
    },
  }
}

/** With as many pixels as the screen has now: a window may be moved to another one. */
function paint(canvas: HTMLCanvasElement, { width, height, draw }: Shown): void {
  const ratio = window.devicePixelRatio
  const pixels = { width: Math.round(width * ratio), height: Math.round(height * ratio) }
  if (canvas.width !== pixels.width) canvas.width = pixels.width
  if (canvas.height !== pixels.height) canvas.height = pixels.height
  const ctx = canvas.getContext('2d')
  if (ctx === null) return
  ctx.setTransform(1, 0, 0, 1, 0, 0)
  ctx.clearRect(0, 0, canvas.width, canvas.height)
  ctx.setTransform(ratio, 0, 0, ratio, 0, 0)
  ctx.save()
  draw(ctx)
  ctx.restore()
}
