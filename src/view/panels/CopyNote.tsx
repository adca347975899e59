/** Says that copies of cases are not being written, and why, until somebody settles it. */
import { say } from '../../base/index.ts'
import { FolderX } from 'lucide-react'
import { useStore } from 'zustand'
import { allowCopies, chooseFolder, stopCopies } from '../actions/onDemand.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk } from '../stores/hooks.ts'
import { NoteBar } from './NoteBar.tsx'

export function CopyNote() {
  const desk = useDesk()
  const { stage, folder, fault } = useStore(desk.copies)
  if (folder === undefined || stage === 'off' || stage === 'on') return undefined
  const words =
    stage === 'asks'
      ? say('the browser wants to ask you again whether Liftmap may write to the folder “{name}”.', {
          name: folder.name,
        })
      : `${fault?.found ?? say('the folder refused one')}. ${fault?.todo ?? ''}`
  return (
    <NoteBar title={say('No copies are written:')} words={words} Icon={FolderX}>
      {stage === 'asks' && <Button onClick={() => void allowCopies(desk)}>{say('Allow…')}</Button>}
      {stage === 'failed' && <Button onClick={() => void allowCopies(desk)}>{say('Try again')}</Button>}
      {stage === 'failed' && <Button onClick={() => void chooseFolder(desk)}>{say('Another folder…')}</Button>}
      <Button onClick={() => void stopCopies(desk)}>{say('Stop copying')}</Button>
    </NoteBar>
  )
}
