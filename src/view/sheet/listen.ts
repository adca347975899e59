/** Brings the element's own events to the hand and the keys, and its size to the camera. */
import type { Point } from '../../base/index.ts'
import type { SheetContext } from './context.ts'
import type { Hand, PointerAt } from './hand.ts'
import { pressKey } from './keys.ts'
import { paneAt } from './pure/camera.ts'
import { wheelMeaning } from './pure/wheel.ts'

const STROKE_LASTS_MS = 250

/** @returns a function that takes everything away again */
export function listenToHand(element: HTMLElement, hand: Hand, context: SheetContext): () => void {
  const stop = new AbortController()
  const { signal } = stop
  const on = <K extends keyof HTMLElementEventMap>(
    name: K,
    handle: (event: HTMLElementEventMap[K]) => void,
    options: AddEventListenerOptions = {},
  ) => element.addEventListener(name, handle, { ...options, signal })
  const resized = new ResizeObserver(() => {
    context.props().camera.getState().resize(element.clientWidth, element.clientHeight)
  })
  resized.observe(element)
  listenToPointer(element, hand, on)
  listenToWheel(element, context, on)
  on('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.target !== element) return
    if (!pressKey(context, hand, event)) return
    event.preventDefault()
    event.stopPropagation()
  })
  return () => {
    stop.abort()
    resized.disconnect()
  }
}

type On = <K extends keyof HTMLElementEventMap>(
  name: K,
  handle: (event: HTMLElementEventMap[K]) => void,
  options?: AddEventListenerOptions,
) => void

const onSheet = (element: HTMLElement, event: MouseEvent): Point => {
  const frame = element.getBoundingClientRect()
  return { x: event.clientX - frame.left, y: event.clientY - frame.top }
}

function listenToPointer(element: HTMLElement, hand: Hand, on: On): void {
  const pointer = (event: PointerEvent): PointerAt => ({
    id: event.pointerId,
    onSheet: onSheet(element, event),
    coarse: event.pointerType === 'touch',
    pan: event.button === 1,
  })
  // Moves are gathered to one a frame; a press, a release or a key first works off what is waiting.
  let waiting: PointerAt | undefined
  let frame = 0
  const workOff = () => {
    cancelAnimationFrame(frame)
    frame = 0
    const moved = waiting
    waiting = undefined
    if (moved === undefined) return
    hand.move(moved)
    element.style.cursor = hand.cursor()
  }
  on('pointerdown', (event) => {
    if (event.button > 1 || fromOverview(event)) return
    workOff()
    element.focus({ preventScroll: true })
    if (event.isTrusted) element.setPointerCapture(event.pointerId)
    hand.down(pointer(event))
    element.style.cursor = hand.cursor()
  })
  on('pointermove', (event) => {
    if (fromOverview(event)) return
    if (waiting !== undefined && waiting.id !== event.pointerId) workOff()
    waiting = pointer(event)
    if (frame === 0) frame = requestAnimationFrame(workOff)
  })
  on('pointerup', (event) => {
    if (fromOverview(event)) return
    workOff()
    hand.up(pointer(event))
    element.style.cursor = hand.cursor()
  })
  on('pointercancel', (event) => {
    hand.cancel()
    hand.up(pointer(event))
  })
  on('pointerleave', () => hand.leave())
  on('dblclick', (event) => {
    if (!fromOverview(event)) hand.doubleClick(onSheet(element, event))
  })
}

const fromOverview = (event: Event): boolean =>
  event.target instanceof Element && event.target.closest('.sheet-overview') !== null

function listenToWheel(element: HTMLElement, context: SheetContext, on: On): void {
  let lastPanMs = -Infinity
  on(
    'wheel',
    (event) => {
      event.preventDefault()
      const at = onSheet(element, event)
      const camera = context.props().camera.getState()
      const meaning = wheelMeaning(event, event.timeStamp - lastPanMs < STROKE_LASTS_MS)
      if (meaning.kind === 'zoom') return camera.zoomAt(meaning.factor, at)
      lastPanMs = event.timeStamp
      camera.panBy(meaning.dx, meaning.dy, paneAt(camera, at).side)
    },
    { passive: false },
  )
}
