/** What the intake desk takes down beside the account: each part behind one line that says what it holds. */
import type { ReactNode } from 'react'
import { Opening } from '../../controls/pieces.tsx'
import styles from './arrival.module.css'

interface ParticularsProps {
  readonly name: string
  /** What is held, in few words; what is empty is left out. */
  readonly held: readonly (string | undefined)[]
  readonly children: ReactNode
}

export function Particulars({ name, held, children }: ParticularsProps) {
  const words = held.filter((each) => each !== undefined && each !== '').join(', ')
  return (
    <Opening
      summary={
        <>
          {name}
          <span className={styles.held}>{words}</span>
        </>
      }
    >
      <div className={styles.fields}>{children}</div>
    </Opening>
  )
}
