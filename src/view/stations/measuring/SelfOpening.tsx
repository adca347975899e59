/** A fold that opens by itself once something in it asks for a look, or a field in it is due; it shuts by hand alone. */
import { type ReactNode, useState } from 'react'
import controls from '../../controls/controls.module.css'

interface SelfOpeningProps {
  /** Says what it holds. */
  readonly summary: string
  /** Something in it is not as it should be. */
  readonly asks: boolean
  /** A line in it is still to be read: going from field to field opens it. */
  readonly due?: boolean
  readonly children: ReactNode
}

export function SelfOpening({ summary, asks, due = false, children }: SelfOpeningProps) {
  const [open, setOpen] = useState(asks)
  const [asked, setAsked] = useState(asks)
  if (asks !== asked) {
    setAsked(asks)
    if (asks) setOpen(true)
  }
  return (
    <details
      className={controls.details}
      open={open}
      data-due={due}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>{summary}</summary>
      {children}
    </details>
  )
}
