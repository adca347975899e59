/** One board to begin on: its drawing, what it is like, what it is called. */
import type { ReactNode } from 'react'
import type { BoardModel } from '../../board/index.ts'
import { BoardThumb } from './BoardThumb.tsx'
import styles from './start.module.css'

interface BoardChoiceProps {
  readonly model: BoardModel | undefined
  readonly title: string
  readonly about: string
  readonly disabled?: boolean
  readonly onChoose: () => void
  /** What else can be done with it. */
  readonly children?: ReactNode
}

export function BoardChoice({ model, title, about, disabled = false, onChoose, children }: BoardChoiceProps) {
  return (
    <li>
      <button type="button" className={styles.choice} disabled={disabled} onClick={onChoose}>
        <BoardThumb model={model} />
        <b>{title}</b>
        <span>{about}</span>
      </button>
      {children}
    </li>
  )
}
