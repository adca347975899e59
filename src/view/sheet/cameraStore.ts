/** The camera in a store outside of React: a pan or zoom redraws canvases and renders no component. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Box, Point } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import {
  type Camera,
  keptNear,
  pannedBy,
  panesOf,
  type ShownSide,
  showingBox,
  turnedOver,
  zoomedAt,
} from './pure/camera.ts'

interface CameraActions {
  /** The whole board. */
  readonly fit: () => void
  /** `onSheet` in CSS pixels from the sheet's upper left; the middle where left out. */
  readonly zoomAt: (factor: number, onSheet?: Point) => void
  readonly panBy: (dx: number, dy: number, side?: Side) => void
  readonly moveTo: (centre: Point) => void
  readonly turnOver: () => void
  readonly show: (side: ShownSide) => void
  /** As large as fits with a margin; before the sheet has a size it is kept until it has one. */
  readonly showBox: (box: Box, marginPx?: number) => void
  /** Called by the sheet when its element has a size. */
  readonly resize: (width: number, height: number) => void
  /** Another board: its box becomes what `fit` shows. */
  readonly setBoardBox: (box: Box) => void
}

export type CameraState = Camera & CameraActions & { readonly boardBox: Box }
export type CameraStore = StoreApi<CameraState>

const FIT_MARGIN_PX = 36
const BOX_MARGIN_PX = 56

/** @param boardBox what `fit` shows; the view opens fitted once the sheet has a size, or on `opening` if given */
export function createCameraStore(boardBox: Box, opening?: Box): CameraStore {
  let waiting: { box: Box; marginPx: number } | undefined =
    opening === undefined ? { box: boardBox, marginPx: FIT_MARGIN_PX } : { box: opening, marginPx: BOX_MARGIN_PX }
  return createStore<CameraState>((set, get) => {
    const sized = () => get().width > 0 && get().height > 0
    const move = (next: Camera) => set(keptNear(next, get().boardBox))
    const showBox = (box: Box, marginPx = BOX_MARGIN_PX) => {
      if (sized()) move(showingBox(get(), box, marginPx))
      else waiting = { box, marginPx }
    }
    return {
      centre: { x: (boardBox.minX + boardBox.maxX) / 2, y: (boardBox.minY + boardBox.maxY) / 2 },
      scale: 4,
      side: 'top',
      width: 0,
      height: 0,
      boardBox,
      showBox,
      fit: () => showBox(get().boardBox, FIT_MARGIN_PX),
      zoomAt: (factor, onSheet) =>
        move(zoomedAt(get(), onSheet ?? { x: middleOfFirstPane(get()).x, y: middleOfFirstPane(get()).y }, factor)),
      panBy: (dx, dy, side) => move(pannedBy(get(), dx, dy, side ?? panesOf(get())[0]?.side ?? 'top')),
      moveTo: (centre) => move({ ...get(), centre }),
      turnOver: () => set(turnedOver(get())),
      show: (side) => set({ side }),
      resize: (width, height) => {
        if (width === get().width && height === get().height) return
        set({ width, height })
        if (waiting === undefined || !sized()) return
        const { box, marginPx } = waiting
        waiting = undefined
        showBox(box, marginPx)
      },
      setBoardBox: (box) => {
        set({ boardBox: box })
        showBox(box, FIT_MARGIN_PX)
      },
    }
  })
}

function middleOfFirstPane(camera: Camera): Point {
  const pane = panesOf(camera)[0]
  return pane === undefined ? { x: 0, y: 0 } : { x: pane.left + pane.width / 2, y: pane.top + pane.height / 2 }
}
