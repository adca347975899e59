/** Takes away for good what was deleted long enough ago, and files that no case names any more. */
import { type Database, partsOf } from './database.ts'
import { readEntry } from './entryRecord.ts'

const HOUR_MS = 3_600_000
/** A file is put before the case that names it is saved: a young one is nobody's orphan. */
const FILE_GRACE_MS = 24 * HOUR_MS

export async function sweepOut(database: Database, now: number): Promise<void> {
  const tx = database.transaction(['entries', 'contents', 'parts', 'files'], 'readwrite')
  const entries = (await tx.objectStore('entries').getAll()).flatMap((raw) => readEntry(raw) ?? [])
  const gone = entries.filter(({ deletedAt }) => deletedAt !== undefined && deletedAt < now - HOUR_MS)
  const named = new Set(entries.filter((entry) => !gone.includes(entry)).flatMap(({ files }) => files))
  const old = await tx
    .objectStore('files')
    .index('putAt')
    .getAllKeys(IDBKeyRange.upperBound(now - FILE_GRACE_MS))
  await Promise.all([
    ...gone.flatMap(({ id }) => [
      tx.objectStore('entries').delete(id),
      tx.objectStore('contents').delete(id),
      tx.objectStore('parts').delete(partsOf(id)),
    ]),
    ...old.filter((id) => !named.has(id)).map((id) => tx.objectStore('files').delete(id)),
    tx.done,
  ])
}
