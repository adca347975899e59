/** Holds what lies on the shelf against what lay there before, and remembers which cases are to be exported. */
import { type Fault, say } from '../../base/index.ts'
import { namedFiles } from '../../case/index.ts'
import type { Desk } from '../stores/desk.ts'
import { entered, isDropped, type LedgerPage } from '../stores/ledger.ts'
import { MESSAGE_CORNER, saySettled } from './messages.ts'

const AFTER_A_CHANGE_MS = 1500

/** @returns a function that ends the watch */
export function watchForLoss(desk: Desk): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined
  let queue = Promise.resolve()
  const look = (): void => {
    clearTimeout(timer)
    timer = undefined
    queue = queue.then(() => compare(desk))
  }
  const end = desk.caseShelf.subscribe((change) => {
    if (change.kind === 'opened') look()
    else timer ??= setTimeout(look, AFTER_A_CHANGE_MS)
  })
  desk.saving.setState({ owed: desk.ledger.read().owed })
  look()
  return () => {
    end()
    clearTimeout(timer)
  }
}

async function compare(desk: Desk): Promise<void> {
  if (!desk.caseShelf.lasting) return
  const stamp = await desk.caseShelf.stamp()
  const listed = await desk.caseShelf.list()
  if (!stamp.ok || !listed.ok) return
  const own = listed.value.filter(({ demo }) => !demo)
  const kept = own.map(({ id, card, title }) => ({ id, title: card === undefined ? title : `${card}: ${title}` }))
  const { stamp: before } = desk.ledger.read()
  write(desk, (page) => entered(page, { stamp: stamp.value, kept }))
  if (isDropped(before, stamp.value)) {
    // nothing of the case on the desk lies on the new shelf
    desk.saving.setState(({ shelved }) => ({ shelved: shelved && { ...shelved, rev: 0, history: undefined } }))
    await tellLostFiles(desk)
  }
}

/** The case on the desk is kept again as it is; its photos and long reports went with the shelf. */
async function tellLostFiles(desk: Desk): Promise<void> {
  const present = desk.cases.getState().history?.present
  if (present === undefined) return
  const gone: string[] = []
  for (const { key, photo } of namedFiles(present)) {
    if ((await desk.files.get(key)) !== undefined) continue
    gone.push(photo?.name ?? present.reports.find(({ path }) => path === key)?.name ?? key)
  }
  if (gone.length === 0) return
  saySettled(desk, MESSAGE_CORNER, say('The browser dropped these files of the case; drop them on it again:'), gone)
}

/** The storage refused something of the case: it is to be exported, whatever comes after. */
export function owe(desk: Desk, id: string, fault: Fault | undefined): void {
  const why = fault?.found ?? say('the storage refused it')
  write(desk, (page) => ({ ...page, owed: [...page.owed.filter((other) => other.id !== id), { id, why }] }))
}

/** The case lies in a file outside the browser. */
export function settle(desk: Desk, id: string): void {
  const { unexported } = desk.saving.getState()
  if (unexported.has(id)) desk.saving.setState({ unexported: new Set([...unexported].filter((other) => other !== id)) })
  if (desk.saving.getState().owed.some((other) => other.id === id))
    write(desk, (page) => ({ ...page, owed: page.owed.filter((other) => other.id !== id) }))
}

/** Told with a loss: the copies are still there. */
export const rememberFolder = (desk: Desk, folder: string | undefined): void =>
  write(desk, ({ folder: _last, ...page }) => (folder === undefined ? page : { ...page, folder }))

/** Somebody has read what was lost. */
export const forgetLost = (desk: Desk): void => write(desk, (page) => ({ ...page, lost: [] }))

function write(desk: Desk, change: (page: LedgerPage) => LedgerPage): void {
  const page = change(desk.ledger.read())
  desk.ledger.write(page)
  desk.saving.setState({ owed: page.owed, lost: page.lost })
}
