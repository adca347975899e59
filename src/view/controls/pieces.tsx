/** Small pieces of panels: something that opens, a bar with its number elsewhere, a caution, progress. */
import { say } from '../../base/index.ts'
import { TriangleAlert } from 'lucide-react'
import type { ReactNode } from 'react'
import styles from './controls.module.css'

interface OpeningProps {
  readonly summary: ReactNode
  /** It stands open at first. */
  readonly open?: boolean
  readonly children: ReactNode
}

export function Opening({ summary, open = false, children }: OpeningProps) {
  return (
    <details className={styles.details} open={open}>
      <summary>{summary}</summary>
      {children}
    </details>
  )
}

/** The number stands beside it in words; the bar itself is for the eye only. */
export function Bar({ share }: { readonly share: number }) {
  return (
    <div className={styles.bar} aria-hidden="true">
      <span style={{ width: `${Math.min(1, Math.max(0, share)) * 100}%` }} />
    </div>
  )
}

interface CautionBoxProps {
  /** One line, always in sight: what is dangerous here. */
  readonly title: string
  /** What a screen reader calls it, where the line alone does not say. */
  readonly about?: string
  readonly reasons: readonly string[]
  /** The sentences are in sight too: they are news, not a reminder. */
  readonly open?: boolean
  readonly children?: ReactNode
}

/** It can't be closed away: the line stays, and its sentences are one press behind it. */
export function CautionBox({ title, about = title, reasons, open = false, children }: CautionBoxProps) {
  return (
    <section className={styles.caution} aria-label={say('Caution: {about}', { about })}>
      <details open={open}>
        <summary>
          <TriangleAlert size={15} aria-hidden="true" />
          <strong>{title}</strong>
        </summary>
        <ul>
          {reasons.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
        </ul>
        {children}
      </details>
    </section>
  )
}

export function ProgressBar({ share, words }: { readonly share: number | undefined; readonly words: string }) {
  const percent = share === undefined ? undefined : Math.round(share * 100)
  return (
    <div>
      <div
        className={styles.progress}
        role="progressbar"
        aria-label={words}
        aria-valuemin={0}
        aria-valuemax={100}
        {...(percent === undefined ? {} : { 'aria-valuenow': percent })}
      >
        <span style={{ width: `${percent ?? 15}%` }} />
      </div>
      <p className={styles.hint}>
        {words}
        {percent !== undefined && `, ${percent} %`}
      </p>
    </div>
  )
}
