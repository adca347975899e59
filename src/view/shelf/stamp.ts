/** What a shelf is called by itself: made up once, so that one that the browser began anew can be told from the one before. */
import type { Database } from './database.ts'

const STAMP = 'stamp'

/** Two tabs that open a new shelf at once agree on one. @returns undefined where the shelf takes none, which the first save tells */
export async function stampOf(database: Database): Promise<string | undefined> {
  try {
    const known = await database.get('notes', STAMP)
    if (known !== undefined) return known
    const tx = database.transaction('notes', 'readwrite')
    const first = await tx.store.get(STAMP)
    const stamp = first ?? crypto.randomUUID()
    if (first === undefined) await tx.store.put(stamp, STAMP)
    await tx.done
    return stamp
  } catch {
    return undefined
  }
}
