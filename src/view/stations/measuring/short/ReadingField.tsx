/** The millivolts of one reading of a hunt, to be put right where they were typed wrong; Escape takes the change back. */
import { decimals, say } from '../../../../base/index.ts'
import { useId, useState } from 'react'
import { parseMillivolt } from '../../../../measure/index.ts'
import { changeReading } from './short.ts'
import controls from '../../../controls/controls.module.css'
import { useDesk } from '../../../stores/hooks.ts'
import own from './short.module.css'

interface ReadingFieldProps {
  readonly hunt: string
  readonly index: number
  readonly millivolt: number
}

export function ReadingField({ hunt, index, millivolt }: ReadingFieldProps) {
  const desk = useDesk()
  const id = useId()
  const [draft, setDraft] = useState<string>()
  const typed = draft === undefined ? millivolt : parseMillivolt(draft)
  const wrong = typed === undefined
  const commit = (): void => {
    if (typed === undefined) return
    setDraft(undefined)
    if (typed !== millivolt) changeReading(desk, hunt, index, typed)
  }
  return (
    <>
      <input
        className={`${controls.input} ${own.millivolt}`}
        aria-label={say('Millivolts of reading {index}', { index: index + 1 })}
        aria-invalid={wrong}
        aria-describedby={wrong ? id : undefined}
        inputMode="decimal"
        autoComplete="off"
        value={draft ?? decimals(millivolt, 3)}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit()
          if (event.key !== 'Escape' || draft === undefined) return
          event.stopPropagation()
          setDraft(undefined)
        }}
      />
      {wrong && (
        <p className={own.wrong} id={id} role="alert">
          {say('Not a voltage.')}
        </p>
      )}
    </>
  )
}
