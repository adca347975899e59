/** A board, layout or case from a file, by the browser's own chooser. */
import { FolderOpen } from 'lucide-react'
import { acceptFor, beginsCase } from '../../case/index.ts'
import { takeFile } from '../actions/drop.ts'
import { fromStart } from '../actions/open.ts'
import { FileButton } from '../controls/FileButton.tsx'
import { useDesk } from '../stores/hooks.ts'

export function FromFile() {
  const desk = useDesk()
  return (
    <FileButton
      label="Layout, board or case file to begin on"
      accept={acceptFor(beginsCase)}
      onFile={(file) => fromStart(desk, (at) => takeFile(desk, file, at, beginsCase))}
    >
      <FolderOpen size={16} aria-hidden="true" /> From a layout or board file…
    </FileButton>
  )
}
