/** What can be done with cases in their list: open, duplicate, archive, delete with a way back, begin a new one. */
import { type Result, say } from '../../base/index.ts'
import type { ShelfEntry } from '../shelf/caseShelf.ts'
import type { Desk } from '../stores/desk.ts'
import { MESSAGE_CORNER, sayFaults } from './messages.ts'
import { forgetBroken } from './brokenCase.ts'
import { openDemo, openFromShelf } from './open.ts'

export const showCases = (desk: Desk): void => desk.screen.setState({ casesOpen: true })

export const hideCases = (desk: Desk): void => desk.screen.setState({ casesOpen: false, scanOpen: false })

/** The code of a slip is looked for with a camera, in the list of all cases. */
export const showScanner = (desk: Desk): void => desk.screen.setState({ casesOpen: true, scanOpen: true })

export const hideScanner = (desk: Desk): void => desk.screen.setState({ scanOpen: false })

export async function openListed(desk: Desk, { id }: ShelfEntry): Promise<void> {
  hideCases(desk)
  forgetBroken()
  if (desk.cases.getState().id !== id) await openFromShelf(desk, id, MESSAGE_CORNER)
}

/** What was typed last is in the copy too. */
export async function duplicateListed(desk: Desk, { id, title }: ShelfEntry): Promise<void> {
  await desk.saving.getState().saveNow()
  const copy = await desk.caseShelf.duplicate(id, say('{title}, copy', { title: title.slice(0, 190) }))
  if (!settled(desk, copy, say('“{title}” was not duplicated', { title }))) return
  notice(desk, say('A copy of “{title}” is on the list.', { title }))
}

export async function archiveListed(desk: Desk, { id, title, archived }: ShelfEntry): Promise<void> {
  const done = await desk.caseShelf.archive(id, !archived)
  if (!settled(desk, done, say('“{title}” stays where it is', { title }))) return
  const back = async (): Promise<void> => {
    settled(desk, await desk.caseShelf.archive(id, archived), say('“{title}” stays where it is', { title }))
  }
  notice(
    desk,
    archived ? say('“{title}” is back on the bench.', { title }) : say('“{title}” is in the archive.', { title }),
    back,
  )
}

/** A case that is deleted while it is on the desk makes room for the next one; taken back, it lies on the desk again. */
export async function deleteListed(desk: Desk, { id, title }: ShelfEntry): Promise<void> {
  const onDesk = desk.cases.getState().id === id
  if (onDesk) await desk.saving.getState().saveNow()
  const token = await desk.caseShelf.remove(id)
  if (!settled(desk, token, say('“{title}” was not deleted', { title }))) return
  if (onDesk) await openNext(desk)
  const back = async (): Promise<void> => {
    const restored = await desk.caseShelf.restore(token.value)
    if (settled(desk, restored, say('“{title}” could not be brought back', { title })) && onDesk)
      await openFromShelf(desk, id, MESSAGE_CORNER)
  }
  notice(desk, say('“{title}” is deleted.', { title }), back)
}

/** The case that was changed last and is not in the archive; the first demo where there is none. */
async function openNext(desk: Desk): Promise<void> {
  const listed = await desk.caseShelf.list()
  const next = listed.ok ? listed.value.find((entry) => !entry.archived && !entry.newer) : undefined
  const demo = desk.shelf.cases[0]
  if (next !== undefined) await openFromShelf(desk, next.id, MESSAGE_CORNER)
  else if (demo !== undefined) await openDemo(desk, demo.name, MESSAGE_CORNER)
}

function settled<T>(desk: Desk, result: Result<T>, title: string): result is { readonly ok: true; readonly value: T } {
  if (!result.ok) sayFaults(desk, MESSAGE_CORNER, title, result.faults)
  return result.ok
}

/** Stays until it is closed or undone: nobody has to be quick. */
function notice(desk: Desk, words: string, undo?: () => Promise<void>): void {
  const id = desk.nextNumber()
  desk.screen.setState(({ notices }) => ({
    notices: [...notices, { id, words, ...(undo === undefined ? {} : { undo }) }].slice(-MAX_NOTICES),
  }))
}

const MAX_NOTICES = 4

export const closeNotice = (desk: Desk, id: number): void =>
  desk.screen.setState(({ notices }) => ({ notices: notices.filter((each) => each.id !== id) }))

export async function undoNotice(desk: Desk, id: number): Promise<void> {
  const undo = desk.screen.getState().notices.find((each) => each.id === id)?.undo
  closeNotice(desk, id)
  await undo?.()
}
