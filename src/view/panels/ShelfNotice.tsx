/** What is in the way of keeping the case, in words, with what can be done; work goes on meanwhile. */
import { ArchiveX, Files } from 'lucide-react'
import { useStore } from 'zustand'
import { downloadCase } from '../actions/exchange.ts'
import { keepAsCopy, takeFromShelf } from '../actions/follow.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk } from '../stores/hooks.ts'
import { type Conflict, differsFromShelf } from '../stores/savingStore.ts'
import { NoteBar } from './NoteBar.tsx'
import styles from './noteBar.module.css'

const CORNER = { x: 420, y: 64 }

export function ShelfNotice() {
  const desk = useDesk()
  const conflict = useStore(desk.saving, (saving) => saving.conflict)
  const trouble = useStore(desk.saving, (saving) => saving.trouble)
  const shelved = useStore(desk.saving, (saving) => saving.shelved)
  const open = useStore(desk.cases, ({ history }) => history !== undefined)
  const differs = useStore(desk.cases, ({ history }) => differsFromShelf(shelved, history))
  const { notice } = desk.caseShelf
  return (
    // always there, so that what comes into it is read out
    <div role="status" aria-label="Keeping the case" className={styles.ground}>
      {conflict !== undefined ? (
        <ConflictNote conflict={conflict} />
      ) : trouble !== undefined ? (
        <NoteBar
          title={differs ? 'Not kept yet:' : 'Your cases can’t be reached:'}
          words={`${trouble.found}. ${trouble.todo ?? ''}`}
          Icon={ArchiveX}
        >
          <Button onClick={() => void downloadCase(desk, CORNER)}>Export the case</Button>
          <Button onClick={() => void desk.saving.getState().saveNow()}>Try again</Button>
        </NoteBar>
      ) : (
        notice !== undefined &&
        open && (
          <NoteBar
            title="Nothing is kept here."
            words={`This is ${notice.found}. ${notice.todo ?? ''}`}
            Icon={ArchiveX}
          >
            <Button onClick={() => void downloadCase(desk, CORNER)}>Export the case</Button>
          </NoteBar>
        )
      )}
    </div>
  )
}

function ConflictNote({ conflict }: { readonly conflict: Conflict }) {
  const desk = useDesk()
  if (conflict === 'deleted') {
    return (
      <NoteBar
        title="This case was deleted."
        words="It is off the shelf, perhaps by another tab. What stands here is not kept any more."
        Icon={ArchiveX}
      >
        <Button onClick={() => keepAsCopy(desk)}>Keep it as a new case</Button>
      </NoteBar>
    )
  }
  return (
    <NoteBar
      title="Another tab changed this case."
      words="Your last changes here are not kept yet, and theirs are not overwritten. Choose which go on."
      Icon={Files}
    >
      <Button onClick={() => keepAsCopy(desk)}>Keep mine as a copy</Button>
      <Button onClick={() => void takeFromShelf(desk)}>Take theirs, drop mine</Button>
    </NoteBar>
  )
}
