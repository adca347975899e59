/** One note over the whole width, below the header: what it is about, and what can be done. */
import type { ArchiveX } from 'lucide-react'
import type { ReactNode } from 'react'
import styles from './noteBar.module.css'

interface NoteBarProps {
  readonly title: string
  readonly words: ReactNode
  readonly Icon: typeof ArchiveX
  /** `news`: nothing is wrong. */
  readonly tone?: 'caution' | 'news'
  readonly children: ReactNode
}

export function NoteBar({ title, words, Icon, tone = 'caution', children }: NoteBarProps) {
  return (
    <div className={styles.note} data-tone={tone}>
      <Icon size={18} aria-hidden="true" />
      <p>
        <b>{title}</b> {words}
      </p>
      <div className={styles.choices}>{children}</div>
    </div>
  )
}
