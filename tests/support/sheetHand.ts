/** A hand for browser tests of the sheet: presses and drags at board points, and reads pixels where it looks. */
import type { Point } from '../../src/base/index.ts'
import type { Side } from '../../src/board/index.ts'
import type { CameraStore } from '../../src/view/sheet/index.ts'
import { waitUntil } from './waiting.ts'

const frame = (): Promise<void> =>
  new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done())))

/** Until what was changed before, by props, stores or the hand, is drawn in every pane. */
export async function drawn(within: ParentNode = document): Promise<void> {
  // moves of the hand are gathered to one a frame: what they change is asked for then
  await frame()
  await waitUntil(() => {
    const panes = [...within.querySelectorAll('[data-pane]')]
    return panes.length > 0 && panes.every((pane) => pane.getAttribute('data-drawn') === 'yes')
  })
}

export interface SheetHand {
  readonly element: HTMLElement
  readonly press: (at: Point, pointerId?: number) => void
  readonly moveTo: (at: Point, pointerId?: number) => Promise<void>
  readonly release: (at: Point, pointerId?: number) => void
  readonly click: (at: Point) => void
  readonly wheel: (at: Point, deltaY: number) => void
  readonly key: (key: string, shiftKey?: boolean) => boolean
  /** Colours of the composed picture in a square of CSS pixels around a board point. */
  readonly look: (at: Point, halfPx: number) => number[][]
}

/** All points are on the board, in mm; `side` says in which pane they are meant. */
export function handOn(
  container: HTMLElement,
  camera: CameraStore,
  side: Side = 'top',
  pointerType: 'mouse' | 'touch' = 'mouse',
): SheetHand {
  const element = container.querySelector<HTMLElement>('.sheet')
  if (element === null) throw new Error('no sheet')
  const paneElement = (): HTMLElement => {
    const found = element.querySelector<HTMLElement>(`[data-pane="${side}"]`)
    if (found === null) throw new Error(`no pane of the ${side}`)
    return found
  }
  const inPane = (at: Point): Point => {
    const { centre, scale } = camera.getState()
    const pane = paneElement()
    const sign = side === 'bottom' ? -1 : 1
    return {
      x: pane.clientWidth / 2 + sign * (at.x - centre.x) * scale,
      y: pane.clientHeight / 2 - (at.y - centre.y) * scale,
    }
  }
  const client = (at: Point) => {
    const rect = paneElement().getBoundingClientRect()
    const p = inPane(at)
    return { clientX: rect.left + p.x, clientY: rect.top + p.y, bubbles: true, cancelable: true }
  }
  const pointer = (name: string, at: Point, pointerId: number) =>
    element.dispatchEvent(new PointerEvent(name, { ...client(at), pointerId, button: 0, pointerType }))
  return {
    element,
    press: (at, pointerId = 1) => pointer('pointerdown', at, pointerId),
    moveTo: async (at, pointerId = 1) => {
      pointer('pointermove', at, pointerId)
      await drawn(container)
    },
    release: (at, pointerId = 1) => pointer('pointerup', at, pointerId),
    click: (at) => {
      pointer('pointerdown', at, 1)
      pointer('pointerup', at, 1)
    },
    wheel: (at, deltaY) => element.dispatchEvent(new WheelEvent('wheel', { ...client(at), deltaY })),
    key: (key, shiftKey = false) =>
      !element.dispatchEvent(new KeyboardEvent('keydown', { key, shiftKey, bubbles: true, cancelable: true })),
    look: (at, halfPx) => pixelsAround(paneElement(), inPane(at), halfPx),
  }
}

function pixelsAround(pane: HTMLElement, at: Point, halfPx: number): number[][] {
  const picture = document.createElement('canvas')
  picture.width = 2 * halfPx
  picture.height = 2 * halfPx
  const ctx = picture.getContext('2d')
  if (ctx === null) throw new Error('no canvas')
  for (const layer of pane.querySelectorAll('canvas')) {
    const ratio = layer.width / layer.clientWidth
    ctx.drawImage(
      layer,
      (at.x - halfPx) * ratio,
      (at.y - halfPx) * ratio,
      2 * halfPx * ratio,
      2 * halfPx * ratio,
      0,
      0,
      2 * halfPx,
      2 * halfPx,
    )
  }
  const { data } = ctx.getImageData(0, 0, 2 * halfPx, 2 * halfPx)
  return Array.from({ length: data.length / 4 }, (_, i) => Array.from(data.subarray(4 * i, 4 * i + 3)))
}

/** How many of the pixels are near a colour, `#rrggbb`. */
export function countNear(pixels: readonly (readonly number[])[], colour: string, within = 40): number {
  const wanted = [1, 3, 5].map((i) => Number.parseInt(colour.slice(i, i + 2), 16))
  return pixels.filter((pixel) => pixel.every((value, i) => Math.abs(value - (wanted[i] ?? 0)) <= within)).length
}
