/** The board of a case that lies in the browser's database, read without the case. */
import { z } from 'zod'
import { bad, faultsFromZod, good, type Result } from '../../base/index.ts'
import { type BoardDescription, boardSchema } from '../../board/index.ts'
import type { Database } from './database.ts'
import { noSuchCase } from './memoryShelf.ts'
import { partName } from './unpacking.ts'

const contentSchema = z.object({ present: z.object({ board: z.unknown() }) })

export async function boardIn(database: Database, id: string): Promise<Result<BoardDescription>> {
  const content = contentSchema.safeParse(await database.get('contents', id))
  if (!content.success) return bad(noSuchCase(id))
  const raw = await rawBoard(database, id, content.data.present.board)
  const board = boardSchema.safeParse(raw)
  return board.success ? good(board.data) : bad(...faultsFromZod(board.error, raw))
}

/** @param board as the case's record holds it: inside, or the name of the part that it lies in */
export async function rawBoard(database: Database, id: string, board: unknown): Promise<unknown> {
  const key = partName(board)
  return key === undefined ? Reflect.get(Object(board), 'inline') : (await database.get('parts', [id, key]))?.value
}
