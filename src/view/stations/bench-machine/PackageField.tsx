/** One package and its temperature, typed together: `U3 88`. Enter notes it. */
import { say } from '../../../base/index.ts'
import { useId, useState } from 'react'
import { Button } from '../../controls/Button.tsx'
import controls from '../../controls/controls.module.css'
import { numberIn } from '../../controls/fields.tsx'
import own from './benchMachine.module.css'

interface PackageFieldProps {
  readonly refs: readonly string[]
  readonly onNote: (ref: string, celsius: number) => void
}

export function PackageField({ refs, onNote }: PackageFieldProps) {
  const id = useId()
  const [typed, setTyped] = useState('')
  const [wrong, setWrong] = useState(false)
  const note = (): void => {
    const [name = '', figure = ''] = typed.trim().split(/\s+/)
    const ref = refs.find((each) => each.toLowerCase() === name.toLowerCase())
    const celsius = numberIn(figure)
    const isTold = ref !== undefined && celsius !== undefined && celsius > -60 && celsius < 300
    setWrong(!isTold)
    if (!isTold) return
    onNote(ref, celsius)
    setTyped('')
  }
  return (
    <form
      className={own.add}
      onSubmit={(event) => {
        event.preventDefault()
        note()
      }}
    >
      <label className="visually-hidden" htmlFor={id}>
        {say('Package and its temperature in °C')}
      </label>
      <input
        id={id}
        className={controls.input}
        placeholder={say('one package: {refs} 78', { refs: refs[0] ?? 'U1' })}
        value={typed}
        aria-invalid={wrong}
        aria-describedby={wrong ? `${id}-wrong` : undefined}
        onChange={(event) => {
          setTyped(event.target.value)
          setWrong(false)
        }}
      />
      <Button type="submit">{say('Note package')}</Button>
      {wrong && (
        <p className={controls.wrong} id={`${id}-wrong`} role="alert">
          {say('A memory of this board and °C, such as {refs} 78.', { refs: refs[0] ?? 'U1' })}
        </p>
      )}
    </form>
  )
}
