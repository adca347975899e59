/** Which side of the board the map of a practice card shows, and the whole of it. */
import { say } from '../../base/index.ts'
import { useStore } from 'zustand'
import type { BoardModel } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import type { CameraStore } from '../sheet/index.ts'
import styles from './practice.module.css'

interface SideButtonsProps {
  readonly model: BoardModel
  readonly camera: CameraStore
}

export function SideButtons({ model, camera }: SideButtonsProps) {
  const side = useStore(camera, (state) => state.side)
  const other = side === 'bottom' ? 'top' : 'bottom'
  return (
    <div className={styles.sides}>
      {model.parts.some((part) => part.side === 'bottom') && (
        <Button onClick={() => camera.getState().show(other)}>{say('Show the {other} side', { other })}</Button>
      )}
      <Button onClick={() => camera.getState().fit()}>{say('Whole board')}</Button>
    </div>
  )
}
