/** What can be opened: a file, a fresh case on this board or on another, a demo case, a page. Its lines are loaded when asked for. */
import { say } from '../../base/index.ts'
import { ChevronDown, FolderOpen } from 'lucide-react'
import { useRef, useState } from 'react'
import { takeFile } from '../actions/onDemand.ts'
import { MESSAGE_CORNER } from '../actions/messages.ts'
import controls from '../controls/controls.module.css'
import { later, OnceOpen } from '../controls/later.tsx'
import { useDesk } from '../stores/hooks.ts'

const OpenItems = later(async () => (await import('./OpenItems.tsx')).OpenItems)

export const loadOpenItems = OpenItems.load

export function OpenMenu() {
  const desk = useDesk()
  const [open, setOpen] = useState(false)
  const [byKeys, setByKeys] = useState(false)
  const openBy = (keys: boolean): void => {
    setByKeys(keys)
    setOpen(true)
  }
  const button = useRef<HTMLButtonElement>(null)
  const chooser = useRef<HTMLInputElement>(null)
  return (
    <>
      <button
        ref={button}
        type="button"
        className={controls.button}
        aria-haspopup="menu"
        aria-expanded={open}
        onClick={({ detail }) => openBy(detail === 0)}
        onKeyDown={(event) => {
          if (event.key !== 'ArrowDown') return
          event.preventDefault()
          openBy(true)
        }}
      >
        <FolderOpen size={16} aria-hidden="true" /> {say('Open')} <ChevronDown size={14} aria-hidden="true" />
      </button>
      <OnceOpen open={open}>
        <OpenItems
          byKeys={byKeys}
          open={open}
          onOpenChange={setOpen}
          button={button}
          chooseFile={() => chooser.current?.click()}
        />
      </OnceOpen>
      <input
        ref={chooser}
        type="file"
        hidden
        aria-label={say('File to open')}
        onChange={(event) => {
          const file = event.target.files?.[0]
          event.target.value = ''
          if (file !== undefined) void takeFile(desk, file, MESSAGE_CORNER)
        }}
      />
    </>
  )
}
