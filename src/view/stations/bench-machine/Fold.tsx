/** A fold that says in its line what it holds. */
import type { ReactNode } from 'react'
import { Opening } from '../../controls/pieces.tsx'
import panel from '../../controls/panel.module.css'
import own from './benchMachine.module.css'

interface FoldProps {
  readonly name: string
  readonly holds: string
  readonly children: ReactNode
}

export function Fold({ name, holds, children }: FoldProps) {
  return (
    <Opening
      summary={
        <>
          {name}: <span className={own.holds}>{holds}</span>
        </>
      }
    >
      <div className={`${panel.section} ${own.inside}`}>{children}</div>
    </Opening>
  )
}
