/** A small drawing of a board, for choosing among several; its words stand beside it. */
import { useMemo } from 'react'
import type { BoardModel } from '../../board/index.ts'
import { thumbnailOf } from '../../case/index.ts'
import styles from './thumb.module.css'

interface BoardThumbProps {
  /** Left out while the board is being read. */
  readonly model: BoardModel | undefined
  readonly large?: boolean
}

export function BoardThumb({ model, large = false }: BoardThumbProps) {
  const drawing = useMemo(() => (model === undefined ? undefined : thumbnailOf(model)), [model])
  if (drawing === undefined) return <span className={styles.thumb} data-large={large} aria-hidden="true" />
  return (
    <svg
      className={styles.thumb}
      data-large={large}
      viewBox={`0 0 ${drawing.widthMm} ${drawing.heightMm}`}
      aria-hidden="true"
    >
      <path className={styles.edge} d={drawing.edge} />
      {drawing.parts
        .filter(({ kind }) => kind === 'other')
        .map(({ path }) => (
          <path key={path} className={styles.other} d={path} />
        ))}
      <path className={styles.lanes} d={drawing.lanes} />
      {drawing.parts
        .filter(({ kind }) => kind !== 'other')
        .map(({ kind, path }) => (
          <path key={`${kind} ${path}`} className={styles[kind]} d={path} />
        ))}
    </svg>
  )
}
