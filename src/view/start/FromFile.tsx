/** A board, layout or case from a file, or a board from several of its data files, by the browser's own chooser. */
import { say } from '../../base/index.ts'
import { FolderOpen } from 'lucide-react'
import { acceptFor, beginsCase } from '../../case/index.ts'
import { takeFiles } from '../actions/drop.ts'
import { fromStart } from '../actions/open.ts'
import { FileButton } from '../controls/FileButton.tsx'
import { useDesk } from '../stores/hooks.ts'

export function FromFile() {
  const desk = useDesk()
  return (
    <FileButton
      label={say('Layout, board or case file to begin on')}
      accept={acceptFor(beginsCase)}
      onFiles={(files) => fromStart(desk, (at) => takeFiles(desk, files, at, beginsCase))}
    >
      <FolderOpen size={16} aria-hidden="true" /> {say('From a layout or board file…')}
    </FileButton>
  )
}
