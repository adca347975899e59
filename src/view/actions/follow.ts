/** Two tabs on one case: a tab without changes of its own follows the other; with changes, the user chooses. */
import { say } from '../../base/index.ts'
import { step } from '../../case/index.ts'
import { randomId } from '../shelf/memoryShelf.ts'
import type { ShelfChange } from '../shelf/caseShelf.ts'
import type { Desk } from '../stores/desk.ts'
import { differsFromShelf } from '../stores/savingStore.ts'
import { readReportsOfCase } from './reports.ts'

export async function followShelf(desk: Desk, change: ShelfChange): Promise<void> {
  const { shelved, conflict } = desk.saving.getState()
  if (!('id' in change) || shelved === undefined || shelved.rev === 0 || change.id !== shelved.id) return
  if (change.kind === 'deleted') return desk.saving.setState({ conflict: 'deleted' })
  if (change.kind === 'listed') {
    if (conflict === 'deleted' && (await desk.caseShelf.load(shelved.id)).ok)
      desk.saving.setState({ conflict: undefined })
    return
  }
  if (!change.elsewhere || change.rev <= shelved.rev) return
  if (differsFromShelf(shelved, desk.cases.getState().history)) desk.saving.setState({ conflict: 'changed-elsewhere' })
  else await takeFromShelf(desk)
}

/** The case becomes what the shelf has of it; what was unsaved in this tab is given up. */
export async function takeFromShelf(desk: Desk): Promise<void> {
  const id = desk.saving.getState().shelved?.id
  if (id === undefined) return
  const before = desk.cases.getState().history
  const stored = await desk.caseShelf.load(id)
  if (desk.saving.getState().shelved?.id !== id) return
  if (!stored.ok) return desk.saving.setState({ trouble: stored.faults[0] })
  const { history, entry } = stored.value
  const changedMeanwhile = desk.cases.getState().history !== before
  if (changedMeanwhile) return desk.saving.setState({ conflict: 'changed-elsewhere' })
  desk.saving.setState({ shelved: { id, rev: entry.rev, history }, conflict: undefined, trouble: undefined })
  desk.cases.setState({ history })
  if (JSON.stringify(before?.present.reports) !== JSON.stringify(history.present.reports)) await readReportsOfCase(desk)
}

/** What is in this tab becomes a case of its own; the other one stays as the shelf has it. */
export function keepAsCopy(desk: Desk): void {
  const { history } = desk.cases.getState()
  if (history === undefined) return
  const id = randomId()
  const title = say('{title} (mine)', { title: history.present.title.slice(0, 190) })
  desk.cases.setState({ id, history: step(history, { ...history.present, title }) })
  desk.saving.setState({ shelved: { id, rev: 0, history: undefined }, conflict: undefined, trouble: undefined })
  // at once, also where the shelf refused something just before
  void desk.saving.getState().saveNow()
}
