/** A field and a button that add one more of a list; Enter adds too. */
import { Plus } from 'lucide-react'
import { useId, useState } from 'react'
import { Button } from '../../controls/Button.tsx'
import controls from '../../controls/controls.module.css'
import own from './benchMachine.module.css'

interface AddRowProps {
  readonly label: string
  readonly placeholder: string
  readonly onAdd: (name: string) => void
}

export function AddRow({ label, placeholder, onAdd }: AddRowProps) {
  const id = useId()
  const [name, setName] = useState('')
  return (
    <form
      className={own.add}
      onSubmit={(event) => {
        event.preventDefault()
        if (name.trim() === '') return
        onAdd(name.trim())
        setName('')
      }}
    >
      <label className="visually-hidden" htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        className={controls.input}
        placeholder={placeholder}
        maxLength={80}
        value={name}
        onChange={(event) => setName(event.target.value)}
      />
      <Button type="submit">
        <Plus size={15} aria-hidden="true" /> {label}
      </Button>
    </form>
  )
}
