/** A thread that reads the later part of a long report: told by its starter what and where, it answers once. */
import { createReadStream } from 'node:fs'
import { parentPort, workerData } from 'node:worker_threads'
import { z } from 'zod'
import { loadBoard } from '../board/index.ts'
import { readSlice, recipeSchema } from '../report/index.ts'

export const sliceTaskSchema = z.strictObject({
  path: z.string(),
  description: z.unknown(),
  recipe: recipeSchema,
  fromByte: z.int().nonnegative(),
})
const CHUNK_BYTES = 2 ** 18

if (parentPort !== null) {
  const { path, description, recipe, fromByte } = sliceTaskSchema.parse(workerData)
  const board = loadBoard(description)
  const source = createReadStream(path, { start: fromByte, highWaterMark: CHUNK_BYTES })
  parentPort.postMessage(board.ok ? await readSlice(source, { model: board.value, recipe, mayCompile: true }) : board)
}
