/**
 * Saves the case as it is entered: soon after a change and one save at a time, so that continuous typing is saved too.
 * What the shelf refuses is told once, and tried again every RETRY_AFTER_MS, or when asked.
 */
import { type Fault, faultsFromZod, say } from '../../base/index.ts'
import { type Case, caseSchema } from '../../case/index.ts'
import type { SaveOutcome } from '../shelf/caseShelf.ts'
import type { Desk } from '../stores/desk.ts'
import { isUnkept, type Shelved } from '../stores/savingStore.ts'
import { followShelf } from './follow.ts'
import { rememberOpen } from './lastOpen.ts'
import { owe } from './ledger.ts'
import { putUnheld } from './unheld.ts'

const SAVE_AFTER_MS = 120
const RETRY_AFTER_MS = 5000

export interface Saver {
  /** Settles when what is unsaved now was saved or refused. */
  readonly saveNow: () => Promise<void>
  readonly end: () => void
}

/** @returns saves what changes on the desk until it is ended; what is unsaved then is saved */
export function startSaver(desk: Desk): Saver {
  let timer: ReturnType<typeof setTimeout> | undefined
  let busy = false
  let notBefore = 0
  let queue = Promise.resolve()
  const saveNow = (): Promise<void> => {
    queue = queue.then(run, run)
    return queue
  }
  const look = (): void => {
    if (timer !== undefined || busy || !isWaiting(desk)) return
    timer = setTimeout(() => void saveNow(), Math.max(SAVE_AFTER_MS, notBefore - Date.now()))
  }
  const run = async (): Promise<void> => {
    clearTimeout(timer)
    timer = undefined
    busy = true
    const kept = await (wantsSaving(desk) ? saveOnce(desk) : lookAgain(desk)).finally(() => {
      busy = false
    })
    notBefore = kept ? 0 : Date.now() + RETRY_AFTER_MS
    look()
  }
  desk.saving.setState({ saveNow })
  const ends = [
    desk.cases.subscribe(look),
    desk.saving.subscribe(look),
    desk.caseShelf.subscribe((change) => {
      if (change.kind === 'opened') void saveNow()
      else void followShelf(desk, change)
    }),
  ]
  look()
  return {
    saveNow,
    end: () => {
      for (const end of ends) end()
      void saveNow()
    },
  }
}

/** As `startSaver`, saves at once when the page is hidden or left, and asks before it is left with something unkept. */
export function watchForSaving(desk: Desk): () => void {
  const saver = startSaver(desk)
  const leaving = (): void => void saver.saveNow()
  const hidden = (): void => {
    if (document.visibilityState === 'hidden') leaving()
  }
  document.addEventListener('visibilitychange', hidden)
  const askFirst = (event: BeforeUnloadEvent): void => {
    if (!wouldLose(desk)) return
    leaving()
    event.preventDefault()
  }
  window.addEventListener('pagehide', leaving)
  window.addEventListener('beforeunload', askFirst)
  return () => {
    document.removeEventListener('visibilitychange', hidden)
    window.removeEventListener('pagehide', leaving)
    window.removeEventListener('beforeunload', askFirst)
    saver.end()
  }
}

/** With nothing to save, what was in the way is over once the shelf answers. @returns whether it does */
async function lookAgain(desk: Desk): Promise<boolean> {
  if (desk.saving.getState().trouble === undefined) return true
  const listed = await desk.caseShelf.list()
  desk.saving.setState({ trouble: listed.ok ? undefined : listed.faults[0] })
  return listed.ok
}

const isWaiting = (desk: Desk): boolean => wantsSaving(desk) || desk.saving.getState().trouble !== undefined

const wantsSaving = (desk: Desk): boolean => {
  const saving = desk.saving.getState()
  return saving.conflict === undefined && isUnkept(saving, desk.cases.getState().history)
}

/** With the page would go what lies neither on a shelf that lasts nor in an exported file. */
export function wouldLose(desk: Desk): boolean {
  const { history, saved } = desk.cases.getState()
  const saving = desk.saving.getState()
  if (saving.unexported.size > 0) return true
  if (history === undefined || history.present === saved) return false
  return saving.conflict !== undefined || isUnkept(saving, history)
}

/** @returns whether it was kept; what was refused stands in the saving store */
async function saveOnce(desk: Desk): Promise<boolean> {
  const { id, history, board } = desk.cases.getState()
  const { shelved } = desk.saving.getState()
  if (id === undefined || history === undefined || board === undefined || shelved?.id !== id) return true
  const unreadable = faultOfChange(history.present, shelved.history?.present)
  if (unreadable !== undefined) {
    desk.saving.setState({ saving: false, trouble: unreadable })
    return false
  }
  desk.saving.setState({ saving: true })
  const boardName = board.model.name
  const unheld = await putUnheld(desk)
  const result = await desk.caseShelf.save({ id, history, boardName, basedOnRev: shelved.rev })
  const refused = result.ok ? unheld : result.faults[0]
  if (refused !== undefined) owe(desk, id, refused)
  const another = desk.saving.getState().shelved?.id !== id
  if (another) desk.saving.setState({ saving: false })
  else if (result.ok) noteOutcome(desk, { id, rev: shelved.rev, history }, result.value, unheld)
  else desk.saving.setState({ saving: false, trouble: result.faults[0] })
  return result.ok && unheld === undefined
}

/**
 * What a case file can't hold is not kept, and said: kept, it could not be opened any more. Only what changed since the
 * shelf last had the case is looked at.
 */
function faultOfChange(present: Case, kept: Case | undefined): Fault | undefined {
  for (const [field, schema] of Object.entries(caseSchema.shape)) {
    const value: unknown = Reflect.get(present, field)
    if (field === 'board' || (kept !== undefined && Reflect.get(kept, field) === value)) continue
    const parsed = schema.safeParse(value)
    const fault = parsed.success ? undefined : faultsFromZod(parsed.error, value)[0]
    if (fault === undefined) continue
    const words = say('{path} is {found}; a case file takes {expected}', {
      path: fault.path.replace('$', field),
      found: fault.found,
      expected: fault.expected,
    })
    return { ...fault, found: words, todo: say('Correct or undo it; what follows is kept then.') }
  }
  return undefined
}

function noteOutcome(desk: Desk, tried: Shelved, outcome: SaveOutcome, trouble: Fault | undefined): void {
  if (outcome.kind !== 'saved') {
    const conflict = outcome.kind === 'changed-elsewhere' ? outcome.kind : 'deleted'
    return desk.saving.setState({ saving: false, trouble: undefined, conflict })
  }
  desk.saving.setState(({ unexported }) => ({
    saving: false,
    trouble,
    shelved: { ...tried, rev: outcome.rev },
    unexported:
      desk.caseShelf.lasting || tried.history?.present.demo === true ? unexported : new Set([...unexported, tried.id]),
  }))
  if (tried.rev === 0) void rememberOpen(desk, tried.id)
  void askForPromise(desk, tried.rev === 0 ? 'persist' : 'persisted')
}

/** Asks the browser not to clear the shelf by itself when a new case is kept; else only what it said before. */
async function askForPromise(desk: Desk, how: 'persist' | 'persisted'): Promise<void> {
  if (!desk.caseShelf.lasting || desk.saving.getState().promised !== undefined) return
  try {
    const promised = await navigator.storage[how]()
    desk.saving.setState({ promised })
  } catch {
    desk.saving.setState({ promised: false })
  }
}
