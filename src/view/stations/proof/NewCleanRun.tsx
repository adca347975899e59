/** A run noted without a file: it went over the whole memory so many times, and no error was seen. */
import { say } from '../../../base/index.ts'
import { useId, useState } from 'react'
import { addCleanRun } from '../../actions/reports.ts'
import { Button } from '../../controls/Button.tsx'
import controls from '../../controls/controls.module.css'
import { useDesk } from '../../stores/hooks.ts'
import { passesIn } from './PassesField.tsx'
import own from './proof.module.css'

export function NewCleanRun() {
  const desk = useDesk()
  const id = useId()
  const [typed, setTyped] = useState('')
  const [wrong, setWrong] = useState(false)
  const add = (): void => {
    const passes = passesIn(typed)?.passes
    setWrong(passes === undefined || passes === 0)
    if (passes === undefined || passes === 0) return
    addCleanRun(desk, passes)
    setTyped('')
  }
  return (
    <form
      className={own.quick}
      aria-label={say('Note a run without an error')}
      onSubmit={(event) => {
        event.preventDefault()
        add()
      }}
    >
      <label htmlFor={id}>{say('No report? Over the whole memory it made')}</label>
      <input
        id={id}
        className={controls.input}
        inputMode="numeric"
        value={typed}
        aria-invalid={wrong}
        aria-describedby={wrong ? `${id}-wrong` : undefined}
        onChange={(event) => setTyped(event.target.value)}
      />
      <span>{say('runs without an error.')}</span>
      <Button type="submit">{say('Record it')}</Button>
      {wrong && (
        <p className={controls.wrong} id={`${id}-wrong`}>
          {say('A whole number of runs, from 1.')}
        </p>
      )}
    </form>
  )
}
