/**
 * The shop's own record and the case on the desk: where the record is used, its figures lie in the case as last known, so
 * that the case means the same elsewhere. Not a step of undo, and undo does not take it away: nobody entered it here.
 */
import { bad, good, type Result, say } from '../../base/index.ts'
import type { Case } from '../../case/index.ts'
import {
  assumptionsFrom,
  basisFor,
  countCards,
  doubtOf,
  readCounts,
  refusalOf,
  type ShopRecord,
} from '../../rehearsal/index.ts'
import type { CaseShelf } from '../shelf/caseShelf.ts'
import type { RecordChoice } from '../shelf/ownRecord.ts'
import type { Desk } from '../stores/desk.ts'

type OwnRecordDesk = Pick<Desk, 'cases' | 'caseShelf'>
type OwnRecord = Case['ownRecord']

const CALM_MS = 400

/** What stands for another case's cards must not come from its own. @param exceptId the case that it is for */
export async function ownRecordFor(
  shelf: Pick<CaseShelf, 'recordChoice' | 'closedCards'>,
  boardName: string,
  exceptId: string,
): Promise<Result<OwnRecord>> {
  const choice = await shelf.recordChoice()
  if (!choice.ok) return choice
  if (!choice.value.inUse) return good(undefined)
  const closed = await shelf.closedCards(exceptId)
  if (!closed.ok) return closed
  const record: ShopRecord = { own: countCards(closed.value.cards), pools: choice.value.pools }
  const { counts, board } = basisFor(record, boardName)
  return good({ cards: counts.cards, boardAlone: board !== undefined, figures: assumptionsFrom(record, boardName) })
}

/** A demo stays as it was made, and a closed case as it was judged. */
export const takesOwnRecord = ({ demo, handBack }: Case): boolean => !demo && handBack.outcome === undefined

export function withOwnRecord(present: Case, ownRecord: OwnRecord): Case {
  if (JSON.stringify(present.ownRecord) === JSON.stringify(ownRecord)) return present
  const { ownRecord: _, ...rest } = present
  return ownRecord === undefined ? rest : { ...rest, ownRecord }
}

/** @returns a function that ends the watch */
export function watchForOwnRecord(desk: OwnRecordDesk): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined
  let known: { readonly id: string; readonly ownRecord: OwnRecord } | undefined
  const lay = (): void => {
    const { id, history } = desk.cases.getState()
    if (history === undefined || known?.id !== id || !takesOwnRecord(history.present)) return
    const present = withOwnRecord(history.present, known?.ownRecord)
    if (present !== history.present) desk.cases.setState({ history: { ...history, present } })
  }
  const learn = async (): Promise<void> => {
    const { id, board, history } = desk.cases.getState()
    if (id === undefined || board === undefined || history === undefined || !takesOwnRecord(history.present)) return
    const learnt = await ownRecordFor(desk.caseShelf, board.model.name, id)
    if (!learnt.ok || desk.cases.getState().id !== id) return
    known = { id, ownRecord: learnt.value }
    lay()
  }
  const soon = (): void => {
    clearTimeout(timer)
    timer = setTimeout(() => void learn(), CALM_MS)
  }
  const ends = [
    desk.caseShelf.subscribe((change) => {
      if (!('id' in change) || change.id !== desk.cases.getState().id) soon()
    }),
    desk.cases.subscribe((now, before) => {
      if (now.id !== before.id) soon()
      else if (now.history !== before.history) lay()
    }),
  ]
  soon()
  return () => {
    clearTimeout(timer)
    for (const end of ends) end()
  }
}

async function changeChoice(desk: Pick<Desk, 'caseShelf'>, change: (choice: RecordChoice) => RecordChoice) {
  const choice = await desk.caseShelf.recordChoice()
  return choice.ok ? await desk.caseShelf.setRecordChoice(change(choice.value)) : choice
}

export const putInUse = (desk: Pick<Desk, 'caseShelf'>, inUse: boolean): Promise<Result<undefined>> =>
  changeChoice(desk, (choice) => ({ ...choice, inUse }))

export const removePool = (desk: Pick<Desk, 'caseShelf'>, name: string): Promise<Result<undefined>> =>
  changeChoice(desk, (choice) => ({ ...choice, pools: choice.pools.filter((pool) => pool.name !== name) }))

export interface TakenIn {
  readonly name: string
  readonly cards: number
  /** That one of the files may be an older one of the same shop. */
  readonly doubt: string | undefined
}

/** Counts of another shop, under the name of the file; two of one name are told apart. */
export async function takeInCounts(
  desk: Pick<Desk, 'caseShelf'>,
  file: Pick<File, 'name' | 'text'>,
): Promise<Result<TakenIn>> {
  const read = readCounts(await file.text(), file.name)
  if (!read.ok) return read
  const [choice, closed] = await Promise.all([desk.caseShelf.recordChoice(), desk.caseShelf.closedCards()])
  if (!choice.ok) return choice
  if (!closed.ok) return closed
  const { pools } = choice.value
  const record: ShopRecord = { own: countCards(closed.value.cards), pools }
  const refusal = refusalOf(read.value, record)
  if (refusal !== undefined)
    return bad({
      path: file.name,
      found: say('counts that are not taken in'),
      expected: say('counts of another shop'),
      todo: refusal,
    })
  const name = freeName(file.name.replace(/(\.counts)?\.json$/i, '').slice(0, 180) || say('a shop'), pools)
  const kept = await changeChoice(desk, (now) => ({
    ...now,
    pools: [...now.pools, { name, ...read.value, boards: { ...read.value.boards } }],
  }))
  if (!kept.ok) return kept
  return good({ name, cards: read.value.all.cards, doubt: doubtOf(read.value, record) })
}

function freeName(wanted: string, pools: RecordChoice['pools']): string {
  const taken = new Set(pools.map(({ name }) => name))
  let name = wanted
  for (let n = 2; taken.has(name); n++) name = `${wanted} ${n}`
  return name
}

/** A name that is empty or taken changes nothing. */
export async function renamePool(desk: Pick<Desk, 'caseShelf'>, from: string, to: string): Promise<Result<undefined>> {
  return await changeChoice(desk, (choice) => ({
    ...choice,
    pools: choice.pools.map((pool) =>
      pool.name === from && to.trim() !== '' && !choice.pools.some(({ name }) => name === to)
        ? { ...pool, name: to }
        : pool,
    ),
  }))
}
