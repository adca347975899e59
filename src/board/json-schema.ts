/** The published JSON Schema of board files, generated from the zod schema. */
import { z } from 'zod'
import { boardSchema } from './schema.ts'

/** JSON Schema (draft 2020-12) of what a board file may say; fields with a default may be left out. */
export function boardJsonSchema(): object {
  return { title: 'Liftmap board', ...z.toJSONSchema(boardSchema, { io: 'input' }) }
}
