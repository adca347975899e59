/** What lies on the desk at the start: the case that was open last, else the first demo. */
import { say } from '../../base/index.ts'
import type { Desk } from '../stores/desk.ts'
import { differsFromShelf } from '../stores/savingStore.ts'
import { isBroken } from './brokenCase.ts'
import { lastOpen } from './lastOpen.ts'
import { saySettled } from './messages.ts'
import { openDemo, openFromShelf } from './open.ts'

const CORNER = { x: 40, y: 80 }

export async function openFirst(desk: Desk): Promise<void> {
  const listed = await desk.caseShelf.list()
  if (listed.ok && (await openLast(desk))) return
  const { message } = desk.screen.getState()
  const first = desk.shelf.cases[0]
  if (first !== undefined) await openDemo(desk, first.name, CORNER)
  if (message !== undefined) desk.screen.setState({ message })
  if (listed.ok) return
  desk.saving.setState({ trouble: listed.faults[0] })
  openLastWhenOpened(desk)
}

/** @returns whether there was one and it could be opened */
async function openLast(desk: Desk): Promise<boolean> {
  const last = await lastOpen(desk)
  const listed = await desk.caseShelf.list()
  const entry = listed.ok ? listed.value.find(({ id }) => id === last) : undefined
  if (last === undefined || entry === undefined) return false
  if (!isBroken(last)) return openFromShelf(desk, last, CORNER)
  const why = say('It broke the page when it was open last. It is kept; open it from Cases when you want to try again.')
  saySettled(desk, CORNER, say('{title} was not opened by itself', { title: entry.title }), [why])
  return false
}

/** A shelf that could not be used at first gives its case once it can, unless something else was begun meanwhile. */
function openLastWhenOpened(desk: Desk): void {
  const first = desk.cases.getState().id
  const tryAgain = (): void => {
    for (const end of ends) end()
    const { shelved } = desk.saving.getState()
    const { id, history } = desk.cases.getState()
    const untouched = id === first && shelved?.rev === 0 && !differsFromShelf(shelved, history)
    if (untouched) void openLast(desk)
  }
  const ends = [
    desk.caseShelf.subscribe((change) => change.kind === 'opened' && tryAgain()),
    desk.saving.subscribe((now, before) => {
      if (now.trouble === undefined && before.trouble !== undefined) tryAgain()
    }),
  ]
}
