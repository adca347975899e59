/** What is in the way of keeping cases, or was, in words, with what can be done; work goes on meanwhile. */
import { ArchiveX, Download, Files } from 'lucide-react'
import { useStore } from 'zustand'
import { someOf, say } from '../../base/index.ts'
import { downloadCase } from '../actions/onDemand.ts'
import { keepAsCopy, takeFromShelf } from '../actions/follow.ts'
import { forgetLost } from '../actions/ledger.ts'
import { MESSAGE_CORNER } from '../actions/messages.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk } from '../stores/hooks.ts'
import { type Conflict, isUnkept } from '../stores/savingStore.ts'
import { CopyNote } from './CopyNote.tsx'
import { NoteBar } from './NoteBar.tsx'
import styles from './noteBar.module.css'

export function ShelfNotice() {
  return (
    // always there, so that what comes into it is read out
    <div role="status" aria-label={say('Keeping the case')} className={styles.ground}>
      <LostNote />
      <CaseNote />
      <CopyNote />
    </div>
  )
}

const MOST_NAMES = 12

/** What lay on a shelf that the browser dropped, by name, until somebody has read it. */
function LostNote() {
  const desk = useDesk()
  const lost = useStore(desk.saving, (saving) => saving.lost)
  if (lost.length === 0) return undefined
  const names = someOf(
    lost.map(({ title }) => `“${title}”`),
    MOST_NAMES,
  )
  return (
    <NoteBar
      title={say('The browser dropped {length, plural, one {# case} other {# cases}}:', { length: lost.length })}
      words={`${names}. ${wayBack(lost.length, desk.ledger.read().folder)}`}
      Icon={ArchiveX}
    >
      <Button onClick={() => forgetLost(desk)}>{say('Dismiss')}</Button>
    </NoteBar>
  )
}

const wayBack = (count: number, folder: string | undefined): string =>
  folder === undefined
    ? say('Open an exported file of {count, plural, one {it} other {each}} to go on with it.', { count })
    : say('Copies lie in the folder “{folder}”: open {count, plural, one {it} other {each}} from there.', {
        folder,
        count,
      })

function CaseNote() {
  const desk = useDesk()
  const { conflict, trouble, owed, ...saving } = useStore(desk.saving)
  const id = useStore(desk.cases, (cases) => cases.id)
  const unkept = useStore(desk.cases, ({ history }) => isUnkept(saving, history))
  const open = useStore(desk.cases, ({ history }) => history !== undefined)
  const { notice } = desk.caseShelf
  if (conflict !== undefined) return <ConflictNote conflict={conflict} />
  if (trouble !== undefined) {
    return (
      <NoteBar
        title={unkept ? say('Not kept yet:') : say('Your cases can’t be reached:')}
        words={`${trouble.found}. ${trouble.todo ?? ''}`}
        Icon={ArchiveX}
      >
        <ExportNow />
        <Button onClick={() => void desk.saving.getState().saveNow()}>{say('Try again')}</Button>
      </NoteBar>
    )
  }
  const owing = owed.find((other) => other.id === id)
  if (owing !== undefined) {
    return (
      <NoteBar
        title={say('The storage failed once:')}
        words={say('{why}. The case is kept again; export it all the same: it may fail again.', { why: owing.why })}
        Icon={Download}
      >
        <ExportNow />
      </NoteBar>
    )
  }
  if (notice === undefined || !open) return undefined
  return (
    <NoteBar
      title={say('Nothing is kept here.')}
      words={say('This is {found}. {todo}', { found: notice.found, todo: notice.todo ?? '' })}
      Icon={ArchiveX}
    >
      <ExportNow />
    </NoteBar>
  )
}

function ExportNow() {
  const desk = useDesk()
  return <Button onClick={() => void downloadCase(desk, MESSAGE_CORNER)}>{say('Export now')}</Button>
}

function ConflictNote({ conflict }: { readonly conflict: Conflict }) {
  const desk = useDesk()
  if (conflict === 'deleted') {
    return (
      <NoteBar
        title={say('This case was deleted.')}
        words={say('It is off the shelf, perhaps by another tab. What stands here is not kept any more.')}
        Icon={ArchiveX}
      >
        <Button onClick={() => keepAsCopy(desk)}>{say('Keep it as a new case')}</Button>
      </NoteBar>
    )
  }
  return (
    <NoteBar
      title={say('Another tab changed this case.')}
      words={say('Your last changes here are not kept yet, and theirs are not overwritten. Choose which go on.')}
      Icon={Files}
    >
      <Button onClick={() => keepAsCopy(desk)}>{say('Keep mine as a copy')}</Button>
      <Button onClick={() => void takeFromShelf(desk)}>{say('Take theirs, drop mine')}</Button>
    </NoteBar>
  )
}
