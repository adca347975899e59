/** Files that the shelf refused: they last as long as the page, and are put there as soon as they are taken. */
import type { Fault } from '../../base/index.ts'
import type { Desk } from '../stores/desk.ts'
import { owe } from './ledger.ts'

export function keepTrying(desk: Desk, name: string, bytes: Blob, trouble: Fault | undefined): void {
  const { id } = desk.cases.getState()
  desk.saving.setState(({ unheld }) => ({ trouble, unheld: new Map([...unheld, [name, bytes]]) }))
  if (id !== undefined) owe(desk, id, trouble)
}

/** @returns why one of the files is still not kept */
export async function putUnheld(desk: Desk): Promise<Fault | undefined> {
  for (const [name, bytes] of desk.saving.getState().unheld) {
    const put = await desk.files.put(name, bytes)
    if (!put.ok) return put.faults[0]
    desk.saving.setState(({ unheld }) => ({ unheld: new Map([...unheld].filter(([other]) => other !== name)) }))
  }
  return undefined
}
