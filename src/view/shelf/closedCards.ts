/** Closed cards out of the browser's database, each read once for as long as its case stays as it is. */
import { z } from 'zod'
import type { BoardModel } from '../../board/index.ts'
import { CASE_VERSION, loadCase } from '../../case/index.ts'
import type { Database } from './database.ts'
import { type EntryRecord, readEntry } from './entryRecord.ts'
import { rawBoard } from './keptBoard.ts'
import {
  type ClosedCards,
  type Counted,
  countedOf,
  gathered,
  modelOf,
  noChoice,
  type RecordChoice,
  recordChoiceSchema,
} from './ownRecord.ts'

/** By the id of the case. */
export type CountedCards = Map<string, { readonly rev: number; readonly counted: Counted }>

/** The key of the note that holds the choice. */
export const OWN_RECORD = 'own record'

export async function choiceIn(database: Database): Promise<RecordChoice> {
  const note = await database.get('notes', OWN_RECORD)
  if (note === undefined) return noChoice
  try {
    return recordChoiceSchema.parse(JSON.parse(note))
  } catch {
    return noChoice
  }
}

export async function closedCardsIn(
  database: Database,
  known: CountedCards,
  exceptId: string | undefined,
): Promise<ClosedCards> {
  const entries = (await database.getAll('entries')).flatMap((raw) => readEntry(raw) ?? [])
  const closed = entries.filter(
    ({ outcome, demo, goodCard, deletedAt, id }) =>
      outcome !== undefined && !demo && !goodCard && deletedAt === undefined && id !== exceptId,
  )
  const models = new Map<string, BoardModel | undefined>()
  const all: Counted[] = []
  for (const entry of closed) {
    const before = known.get(entry.id)
    const counted = before?.rev === entry.rev ? before.counted : await countedIn(database, entry, models)
    known.set(entry.id, { rev: entry.rev, counted })
    all.push(counted)
  }
  return gathered(all)
}

const presentSchema = z.object({ present: z.record(z.string(), z.unknown()) })

/** Neither the reports nor the steps of undo are read: what failed stands with what was foretold. */
async function countedIn(
  database: Database,
  { id, version }: EntryRecord,
  models: Map<string, BoardModel | undefined>,
): Promise<Counted> {
  const content = presentSchema.safeParse(await database.get('contents', id))
  if (version > CASE_VERSION || !content.success) return { kind: 'unreadable' }
  const { board, ...present } = content.data.present
  const caseFile = loadCase({ ...present, board: { path: 'kept apart' }, reports: [] })
  if (!caseFile.ok) return { kind: 'unreadable' }
  const raw = await rawBoard(database, id, board)
  const text = JSON.stringify(raw) ?? ''
  if (!models.has(text)) models.set(text, modelOf(raw))
  return countedOf(caseFile.value, models.get(text))
}
