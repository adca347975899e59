/** The practice card that is played, as a note in the browser's database: never among the cases. */
import { type KeptPractice, keptPracticeSchema } from '../../rehearsal/index.ts'
import type { Database } from './database.ts'

/** The key of the note. */
export const PRACTICE = 'practice'

/** What can't be read any more is no game: a new one takes its place. */
export async function practiceIn(database: Database): Promise<KeptPractice | undefined> {
  const note = await database.get('notes', PRACTICE)
  if (note === undefined) return undefined
  try {
    return keptPracticeSchema.parse(JSON.parse(note))
  } catch {
    return undefined
  }
}
