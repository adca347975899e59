/**
 * A bar above the sheet takes room from it, and gives it back: each time all packages are brought into view again, unless
 * the hand has moved the view meanwhile.
 */
import { useEffect } from 'react'
import type { BoardModel } from '../../../../board/index.ts'
import type { CameraStore } from '../../../sheet/index.ts'
import { openingBox } from '../../../stores/derive.ts'
import { useBoard } from '../../../stores/hooks.ts'

const PACKAGES_MARGIN_PX = 12

export function useShownPackages(): void {
  const board = useBoard()
  useEffect(() => (board === undefined ? undefined : keepShown(board.camera, board.model)), [board])
}

/** @returns a function that ends it: the room that comes back then is used once more */
function keepShown(camera: CameraStore, model: BoardModel): () => void {
  let shown: Pick<ReturnType<CameraStore['getState']>, 'centre' | 'scale'> | undefined
  let isOver = false
  const stop = camera.subscribe((now, before) => {
    if (now.height === before.height) return
    if (isOver) stop()
    if (shown !== undefined && (before.centre !== shown.centre || before.scale !== shown.scale)) return
    if (isOver) return now.showBox(openingBox(model, []))
    now.showBox(openingBox(model, []), PACKAGES_MARGIN_PX)
    shown = camera.getState()
  })
  return () => {
    isOver = true
  }
}
