/** Supplies of an input rail: those that the user named beside the fuses of the board, and a field for one more. */
import { say } from '../../../base/index.ts'
import { Plus, X } from 'lucide-react'
import { useState } from 'react'
import { addSupply, removeSupply } from './measure.ts'
import { Button } from '../../controls/Button.tsx'
import { TextField, Tick } from '../../controls/fields.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import sheet from './measuring.module.css'

export function Supplies({ rail }: { readonly rail: string }) {
  const desk = useDesk()
  const own = usePresent()?.supplies.filter((each) => each.rail === rail) ?? []
  const [name, setName] = useState('')
  const [joined, setJoined] = useState(true)
  const add = (): void => {
    if (name.trim() === '') return
    addSupply(desk, { name: name.trim(), rail, joined })
    setName('')
  }
  return (
    <div className={`${styles.section} ${sheet.another}`}>
      <TextField
        label={say('Another supply, such as slot 12 V or J5 pin 1')}
        maxLength={120}
        value={name}
        onChange={setName}
      />
      <Tick label={say('A fuse joins it to {rail}', { rail })} checked={joined} onChange={setJoined} />
      <div className={styles.row}>
        <Button onClick={add}>
          <Plus size={15} aria-hidden="true" /> {say('Add the supply')}
        </Button>
        {own.map((each) => (
          <Button key={each.name} tone="quiet" onClick={() => removeSupply(desk, each.name)}>
            <X size={15} aria-hidden="true" /> {say('Remove')} {each.name}
          </Button>
        ))}
      </div>
    </div>
  )
}
