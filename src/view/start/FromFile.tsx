/** A board or layout from a file, by the browser's own chooser. */
import { FolderOpen } from 'lucide-react'
import { useRef } from 'react'
import { takeFile } from '../actions/drop.ts'
import { leaveStart } from '../actions/open.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk } from '../stores/hooks.ts'

const CORNER = { x: 420, y: 64 }

export function FromFile() {
  const desk = useDesk()
  const chooser = useRef<HTMLInputElement>(null)
  return (
    <>
      <Button onClick={() => chooser.current?.click()}>
        <FolderOpen size={16} aria-hidden="true" /> From a layout or board file…
      </Button>
      <input
        ref={chooser}
        type="file"
        hidden
        aria-label="Layout or board file to begin a case on"
        onChange={(event) => {
          const file = event.target.files?.[0]
          event.target.value = ''
          if (file === undefined) return
          leaveStart(desk)
          void takeFile(desk, file, CORNER)
        }}
      />
    </>
  )
}
