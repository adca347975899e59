/** A bar above the sheet takes room from it: once it has, all packages are brought into view again. */
import { useEffect } from 'react'
import { openingBox } from '../../stores/derive.ts'
import { useBoard } from '../../stores/hooks.ts'

const PACKAGES_MARGIN_PX = 16

export function useShownPackages(): void {
  const board = useBoard()
  useEffect(() => {
    const stop = board?.camera.subscribe((now, before) => {
      if (now.height === before.height) return
      stop?.()
      now.showBox(openingBox(board.model, []), PACKAGES_MARGIN_PX)
    })
    return stop
  }, [board])
}
