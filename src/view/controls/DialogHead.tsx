/** The head of a dialog that fills the window: its title, what it is about, and the button that closes it. */
import { Dialog } from '@base-ui/react/dialog'
import { X } from 'lucide-react'
import type { ReactNode } from 'react'
import controls from './controls.module.css'
import styles from './dialog.module.css'

interface DialogHeadProps {
  readonly title: ReactNode
  /** What the closing button says to those who can't see it. */
  readonly closeLabel: string
  /** A paragraph about it. */
  readonly children?: ReactNode
}

export function DialogHead({ title, closeLabel, children }: DialogHeadProps) {
  return (
    <div className={styles.head}>
      <Dialog.Title className={styles.title}>{title}</Dialog.Title>
      {children}
      <Dialog.Close className={controls.button} data-size="icon" data-tone="quiet" aria-label={closeLabel}>
        <X size={18} aria-hidden="true" />
      </Dialog.Close>
    </div>
  )
}
