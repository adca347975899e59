/** What lies on the desk at the start: the case that was open last, else the first demo. */
import type { Desk } from '../stores/desk.ts'
import { differsFromShelf } from '../stores/savingStore.ts'
import { lastOpen } from './lastOpen.ts'
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
  const there = listed.ok && listed.value.some(({ id }) => id === last)
  return last !== undefined && there && openFromShelf(desk, last, CORNER)
}

/** A shelf that could not be used at first gives its case once it can, unless something else was begun meanwhile. */
function openLastWhenOpened(desk: Desk): void {
  const end = desk.caseShelf.subscribe((change) => {
    if (change.kind !== 'opened') return
    end()
    const { shelved } = desk.saving.getState()
    const untouched = shelved?.rev === 0 && !differsFromShelf(shelved, desk.cases.getState().history)
    if (untouched) void openLast(desk)
  })
}
