/** An entry of the shelf as it lies in the database, checked on the way out. */
import { z } from 'zod'
import { CASE_VERSION, outcomes, stations, visitStates } from '../../case/index.ts'
import type { ShelfEntry } from './caseShelf.ts'

/** Only id and rev must be right: whatever else can't be read is shown as empty, so that no case ever falls off the list. */
const entryRecordSchema = z.object({
  id: z.string(),
  rev: z.int().nonnegative(),
  /** Of the case's form. */
  version: z.int().catch(1),
  /** Milliseconds since 1970; there until it is taken away for good. */
  deletedAt: z.number().optional().catch(undefined),
  /** Photos and long reports that it or a step of it names. */
  files: z.array(z.string()).catch([]),
  title: z.string().catch('a case without a title'),
  card: z.string().optional().catch(undefined),
  owner: z.string().catch(''),
  boardName: z.string().catch(''),
  demo: z.boolean().catch(false),
  goodCard: z.boolean().catch(false),
  outcome: z.enum(outcomes).optional().catch(undefined),
  arrivedOn: z.string().optional().catch(undefined),
  dueOn: z.string().optional().catch(undefined),
  code: z.string().optional().catch(undefined),
  askAfter: z.string().optional().catch(undefined),
  createdAt: z.number().catch(0),
  changedAt: z.number().catch(0),
  archived: z.boolean().catch(false),
  furthest: z.enum(stations).catch('arrival'),
  visit: z.enum(visitStates).catch('arrived'),
  words: z.string().catch(''),
})
export type EntryRecord = z.infer<typeof entryRecordSchema>

export function readEntry(raw: unknown): EntryRecord | undefined {
  const parsed = entryRecordSchema.safeParse(raw)
  return parsed.success ? parsed.data : undefined
}

export function shownEntry(record: EntryRecord): ShelfEntry {
  const {
    version,
    deletedAt: _deleted,
    files: _files,
    card,
    outcome,
    arrivedOn,
    dueOn,
    code,
    askAfter,
    ...rest
  } = record
  return {
    ...rest,
    ...(card === undefined ? {} : { card }),
    ...(outcome === undefined ? {} : { outcome }),
    ...(arrivedOn === undefined ? {} : { arrivedOn }),
    ...(dueOn === undefined ? {} : { dueOn }),
    ...(code === undefined ? {} : { code }),
    ...(askAfter === undefined ? {} : { askAfter }),
    newer: version > CASE_VERSION,
  }
}
