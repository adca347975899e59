/** A number that says how it was worked out: the number itself is the control, and what it opens is loaded when first asked for. */
import { say } from '../../base/index.ts'
import { Fragment, type ReactNode, useRef, useState } from 'react'
import { later } from '../controls/later.tsx'
import { useCurrency } from '../stores/money.ts'
import type { Figure } from './figure.ts'
import styles from './figures.module.css'
import { numbersIn, type Wanted } from './numbersIn.ts'

const FigurePopover = later(async () => (await import('./FigurePopover.tsx')).FigurePopover)

interface FiguredProps {
  readonly of: Figure
  readonly children: ReactNode
}

export function Figured({ of, children }: FiguredProps) {
  const [open, setOpen] = useState(false)
  const button = useRef<HTMLButtonElement>(null)
  return (
    <>
      <button
        ref={button}
        type="button"
        className={styles.figured}
        data-figure={of.kind}
        aria-haspopup="dialog"
        aria-expanded={open}
        title={say('How this was worked out')}
        // a number may stand in a line that opens or lights something itself
        onClick={(event) => {
          event.preventDefault()
          event.stopPropagation()
          setOpen(!open)
        }}
      >
        {children}
      </button>
      {open && <FigurePopover of={of} anchor={button} onClose={() => setOpen(false)} />}
    </>
  )
}

interface FiguredTextProps extends Wanted {
  readonly words: string
  /** Of each number in the words, by what stands in it and before it; undefined leaves it plain. */
  readonly of: Figure | ((number: string, before: string) => Figure | undefined)
}

/** A sentence whose chances, amounts of money and temperatures are such numbers. */
export function FiguredText({ words, of, units = [], numbers = [] }: FiguredTextProps) {
  const currency = useCurrency()
  const pieces = numbersIn(words, { units: currency === '' ? units : [currency, ...units], numbers })
  return pieces.map(({ text, isNumber }, i) => {
    const before = pieces[i - 1]?.text ?? ''
    const figure = !isNumber ? undefined : typeof of === 'function' ? of(text, before) : of
    return (
      <Fragment key={`${i} ${text}`}>{figure === undefined ? text : <Figured of={figure}>{text}</Figured>}</Fragment>
    )
  })
}
