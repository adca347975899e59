/** The list of all cases on the shelf, as a dialog that fills the window: find one, open it, put it away, begin another. */
import { Dialog } from '@base-ui/react/dialog'
import { useDeferredValue, useMemo, useRef, useState } from 'react'
import { say } from '../../base/index.ts'
import { codeWords, readCode } from '../../case/index.ts'
import { hideCases, hideScanner, openListed } from '../actions/caseList.ts'
import { dayOf } from '../actions/clock.ts'
import { CodeScanner } from '../camera/index.ts'
import dialog from '../controls/dialog.module.css'
import { DialogHead } from '../controls/DialogHead.tsx'
import { FaultRow } from '../controls/FileMessages.tsx'
import files from '../controls/files.module.css'
import type { ShelfEntry } from '../shelf/caseShelf.ts'
import { useDesk, useScreen } from '../stores/hooks.ts'
import { CaseTable } from './CaseTable.tsx'
import styles from './caseList.module.css'
import { Choices } from './Choices.tsx'
import { type CaseChoice, chooseCases, everyCase } from './choose.ts'
import { KeptWhere } from './KeptWhere.tsx'
import { NewCase } from './NewCase.tsx'
import { Notices } from './Notices.tsx'
import { useEntries } from './useEntries.ts'

export function CaseList() {
  const desk = useDesk()
  const open = useScreen((screen) => screen.casesOpen)
  const search = useRef<HTMLInputElement>(null)
  return (
    <Dialog.Root open={open} onOpenChange={(next) => next || hideCases(desk)}>
      <Dialog.Portal>
        <Dialog.Backdrop className={dialog.backdrop} />
        <Dialog.Popup className={`${dialog.popup} ${styles.list}`} initialFocus={search}>
          <Content search={search} />
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  )
}

function Content({ search }: { readonly search: React.RefObject<HTMLInputElement | null> }) {
  const { entries, faults, readAt } = useEntries()
  const [choice, setChoice] = useState(everyCase)
  const deferred = useDeferredValue(choice)
  const today = dayOf(new Date(readAt))
  const shown = useMemo(() => chooseCases(entries ?? [], deferred, today), [entries, deferred, today])
  const desk = useDesk()
  const scanning = useScreen((screen) => screen.scanOpen)
  const openOnly = (of: readonly ShelfEntry[]): void => {
    const [only, ...others] = of.filter(({ newer }) => !newer)
    if (only !== undefined && others.length === 0) void openListed(desk, only)
  }
  const takeCode = (code: string): void => {
    hideScanner(desk)
    setChoice({ ...everyCase, where: 'all', typed: codeWords(code) })
    openOnly((entries ?? []).filter((entry) => entry.code === code))
  }
  return (
    <>
      <DialogHead title={say('Cases')} closeLabel={say('Close the list of cases')}>
        <p role="status">
          {entries === undefined ? lookingWords(faults.length > 0) : foundWords(shown.length, entries.length)}
        </p>
      </DialogHead>
      <Choices
        search={search}
        choice={choice}
        onChange={setChoice}
        onEnter={() => openOnly(chooseCases(entries ?? [], choice, today))}
      />
      {faults.length > 0 && (
        <ul className={files.faults} role="alert">
          {faults.map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
      <div className={styles.body}>
        {entries === undefined ? undefined : shown.length === 0 ? (
          <p className={styles.nothing}>{nothingWords(entries, deferred)}</p>
        ) : (
          <CaseTable entries={shown} now={readAt} today={today} />
        )}
      </div>
      <Notices />
      <NewCase />
      <KeptWhere />
      {scanning && entries !== undefined && <CodeScanner onCode={takeCode} onClose={() => hideScanner(desk)} />}
    </>
  )
}

function nothingWords(entries: readonly ShelfEntry[], { typed, visit, where }: CaseChoice): string {
  if (entries.length === 0) return say('No case is kept here yet. Begin one below, or open a case file.')
  const { kind } = readCode(typed)
  if (kind === 'misread')
    return say('No case is like that. If it is the code of a slip, a character is wrong: look at the slip again.')
  if (kind === 'code' && where === 'all') return say('No case has this code: the slip is of another shelf.')
  if (typed.trim() !== '' || visit !== 'any')
    return where === 'all'
      ? say('No case is like that.')
      : say('No case here is like that. Take a word away, or look in all.')
  return where === 'archive'
    ? say('The archive is empty.')
    : say('Nothing is on the bench. What was put away is in the archive.')
}

const lookingWords = (refused: boolean): string =>
  refused ? say('The shelf can’t be read') : say('Looking on the shelf')

const foundWords = (shown: number, all: number): string =>
  shown === all
    ? say('{all, plural, one {# case} other {# cases}}', { all })
    : say('{shown} of {all, plural, one {# case} other {# cases}}', { shown, all })
