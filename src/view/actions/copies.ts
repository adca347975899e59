/** Writes each case into a folder of the user's own after it was saved; what stops that is said until it is settled. */
import { bad, type Fault, joined, type Result, say } from '../../base/index.ts'
import { type Case, namedFiles } from '../../case/index.ts'
import type { CopyFolder } from '../shelf/copyFolder.ts'
import { type CopyState, noCopies } from '../stores/copyStore.ts'
import type { Desk } from '../stores/desk.ts'
import { type CaseFile, fileOfCase, holding } from './caseFile.ts'
import { rememberFolder, settle } from './ledger.ts'

const AFTER_A_SAVE_MS = 1000
/** A case with photos is a large file: while somebody types, it is not written more often. */
const BETWEEN_MS = 5000

/** @returns a function that ends the watch */
export function watchForCopies(desk: Desk): () => void {
  const due = new Set<string>()
  let timer: ReturnType<typeof setTimeout> | undefined
  let notBefore = 0
  const write = async (): Promise<void> => {
    timer = undefined
    // what is saved meanwhile is due again, after the pause
    const now = [...due]
    due.clear()
    for (const id of now) await copyCase(desk, id)
    notBefore = Date.now() + BETWEEN_MS
  }
  const plan = (): void => {
    timer ??= setTimeout(() => void write(), Math.max(AFTER_A_SAVE_MS, notBefore - Date.now()))
  }
  const endShelf = desk.caseShelf.subscribe((change) => {
    if (change.kind !== 'saved' || change.elsewhere || !isWriting(desk.copies.getState())) return
    due.add(change.id)
    plan()
  })
  void takeUp(desk)
  return () => {
    endShelf()
    clearTimeout(timer)
  }
}

/** The folder of last time; a browser that wants to ask first is not asked without the user. */
async function takeUp(desk: Desk): Promise<void> {
  const folder = await desk.folders?.last()
  if (folder === undefined || desk.copies.getState().folder !== undefined) return
  const stage = (await folder.mayWrite()) === 'granted' ? 'on' : 'asks'
  desk.copies.setState({ stage, folder, fault: undefined })
}

/** Every case goes there at once. */
export async function chooseFolder(desk: Desk): Promise<void> {
  const folder = await desk.folders?.choose()
  if (folder === undefined) return
  rememberFolder(desk, folder.name)
  await begin(desk, folder, await folder.askToWrite())
}

export async function allowCopies(desk: Desk): Promise<void> {
  const { folder } = desk.copies.getState()
  if (folder !== undefined) await begin(desk, folder, await folder.askToWrite())
}

export async function stopCopies(desk: Desk): Promise<void> {
  desk.copies.setState(noCopies)
  rememberFolder(desk, undefined)
  await desk.folders?.forget()
}

async function begin(desk: Desk, folder: CopyFolder, mayWrite: PermissionState): Promise<void> {
  desk.copies.setState({ stage: mayWrite === 'granted' ? 'on' : 'asks', folder, fault: undefined })
  const listed = await desk.caseShelf.list()
  const own = listed.ok ? listed.value.filter(({ demo, newer }) => !demo && !newer) : []
  for (const { id } of own) await copyCase(desk, id)
}

/** A folder that refused a copy is tried again with the next: its disk may be there again. */
const isWriting = ({ stage }: CopyState): boolean => stage === 'on' || stage === 'failed'

const lines = new WeakMap<Desk, Promise<void>>()

/** One copy after the other: an older state of a case never closes over a newer one. */
function copyCase(desk: Desk, id: string): Promise<void> {
  const next = (lines.get(desk) ?? Promise.resolve())
    .then(() => copyNow(desk, id))
    .catch((reason: unknown) => {
      const found = reason instanceof Error ? reason.message : String(reason)
      const fault = { path: say('the copy'), found, expected: say('a copy of the case'), todo: say('Export the case.') }
      desk.copies.setState({ stage: 'failed', fault })
    })
  lines.set(desk, next)
  return next
}

async function copyNow(desk: Desk, id: string): Promise<void> {
  const before = desk.copies.getState()
  const { folder } = before
  if (!isWriting(before) || folder === undefined) return
  const file = await fileOnShelf(desk, id)
  const put = file.ok ? await folder.put({ id, ...file.value }) : file
  if (desk.copies.getState().folder !== folder) return
  if (!put.ok) return desk.copies.setState({ stage: 'failed', fault: put.faults[0] })
  if (put.value === 'not-allowed') return desk.copies.setState({ stage: 'asks' })
  desk.copies.setState({ stage: 'on', fault: undefined })
  settle(desk, id)
}

/** As the shelf has it: what is typed meanwhile comes with the next save. */
async function fileOnShelf(desk: Desk, id: string): Promise<Result<CaseFile>> {
  const kept = await desk.caseShelf.peek(id)
  if (!kept.ok) return kept
  const { unheld } = desk.saving.getState()
  const files = new Map<string, Blob>()
  for (const { key } of namedFiles(kept.value)) {
    const bytes = (await desk.files.get(key)) ?? unheld.get(key)
    if (bytes !== undefined) files.set(key, bytes)
  }
  const { caseFile, leftOut } = holding(kept.value, files)
  // an older copy may be the only place where they are
  return leftOut.length === 0 ? fileOfCase(caseFile, files) : bad(incomplete(caseFile, leftOut))
}

const incomplete = ({ title }: Case, leftOut: readonly string[]): Fault => ({
  path: title,
  found: say('{leftOut} of {title} not on the shelf', { leftOut: joined(leftOut), title }),
  expected: say('every photo and long report of the case'),
  todo: say('The last copy stays as it is. Drop them on the case again.'),
})
