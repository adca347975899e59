/** Branches of a rail: parts that share a stretch of it, such as behind one fuse or coil. */
import { X } from 'lucide-react'
import { useState } from 'react'
import { someOf, say } from '../../base/index.ts'
import type { Rail } from '../../board/index.ts'
import { Button, LinkButton } from '../controls/Button.tsx'
import { TextField } from '../controls/fields.tsx'
import { Opening } from '../controls/pieces.tsx'
import { edit, showParts } from './editorStore.ts'
import styles from './own-board.module.css'
import { useEditor, useEditorStore } from './useEditor.ts'

export function Branches({ rail }: { readonly rail: Rail }) {
  const editor = useEditorStore()
  const selected = useEditor((state) => state.selected)
  const [typed, setTyped] = useState('')
  const name = typed.trim()
  const put = (branch: string, refs: readonly string[]): boolean =>
    edit(editor, { kind: 'branch', rail: rail.name, name: branch, refs: [...refs] })
  return (
    <Opening
      summary={
        rail.branches.length === 0 ? say('No branches') : say('Branches: {length}', { length: rail.branches.length })
      }
    >
      <ul className={styles.lanes}>
        {rail.branches.map((branch) => (
          <li key={branch.name}>
            <span>
              <b>{branch.name}</b> {someOf(branch.feeds, 4)}{' '}
              <LinkButton onClick={() => showParts(editor, branch.feeds)}>{say('Select')}</LinkButton>
            </span>
            <Button
              size="icon"
              tone="quiet"
              aria-label={say('Take away branch {name}', { name: branch.name })}
              onClick={() => put(branch.name, [])}
            >
              <X size={15} aria-hidden="true" />
            </Button>
          </li>
        ))}
      </ul>
      <div className={styles.withButton}>
        <TextField
          label={say('A branch of what is selected')}
          placeholder={say('its name, such as east')}
          maxLength={120}
          value={typed}
          onChange={setTyped}
        />
        <Button
          disabled={name === '' || selected.length === 0}
          onClick={() => {
            if (put(name, selected)) setTyped('')
          }}
        >
          {say('Set')}
        </Button>
      </div>
    </Opening>
  )
}
