/** `liftmap tally BOARD REPORT`: adds up a report per part, channel, lane and bit. */
import type { z } from 'zod'
import { faultsFromZod, parseJson, bad, good, type Result } from '../../base/index.ts'
import { type Recipe, readReport, recipeSchema } from '../../report/index.ts'
import { EXIT, printAnswer, printFaults, whenGood } from '../answer.ts'
import { openBoardFile } from '../files.ts'
import { type Io, readAll } from '../io.ts'
import { tallyOutput } from '../output.ts'

export async function runTally(
  io: Io,
  boardFile: string,
  reportFile: string,
  options: { recipe?: string | undefined; text?: boolean | undefined },
): Promise<number> {
  const board = await openBoardFile(io, boardFile)
  if (!board.ok) return printFaults(io, board.faults)
  const recipe = options.recipe === undefined ? good(undefined) : await recipeFrom(io, options.recipe)
  if (!recipe.ok) return printFaults(io, recipe.faults)
  const bytes = await io.open(reportFile)
  if (!bytes.ok) return printFaults(io, bytes.faults)
  const forced = recipe.value === undefined ? {} : { recipe: recipe.value }
  return await whenGood(io, await readReport(bytes.value, { model: board.value.model, ...forced }), (read) => {
    const { tally } = read
    printAnswer(
      io,
      tallyOutput,
      {
        rows: { ...tally.rows },
        troubles: tally.troubles.map((trouble) => ({ ...trouble })),
        level: tally.level,
        recipe: read.recipe,
        parts: tally.parts.map((part) => ({
          ref: part.ref,
          errors: part.errors,
          signature: part.signature.kind,
          sentence: part.signature.sentence,
          channels: part.channels.map((channel) => ({
            id: channel.id,
            lanes: channel.lanes.map((lane) => ({
              id: lane.id,
              errors: lane.errors,
              state: lane.state,
              bits: [...lane.bits],
            })),
          })),
        })),
      },
      options.text === true ? sayTally : undefined,
    )
    return EXIT.fine
  })
}

async function recipeFrom(io: Io, path: string): Promise<Result<Recipe>> {
  const text = await readAll(io, path)
  if (!text.ok) return text
  const value = parseJson(text.value, path)
  if (!value.ok) return value
  const parsed = recipeSchema.safeParse(value.value)
  return parsed.success ? good(parsed.data) : bad(...faultsFromZod(parsed.error, value.value))
}

function sayTally(answer: z.infer<typeof tallyOutput>): string {
  const { rows } = answer
  const lines = [
    `${rows.read} rows read, ${rows.unreadable} unreadable, ${rows.unmapped} unmapped, ${rows.skipped} without data`,
  ]
  for (const trouble of answer.troubles) lines.push(`  line ${trouble.line}: ${trouble.why}: ${trouble.text}`)
  for (const part of answer.parts) lines.push(`${part.ref}  ${part.errors} errors  ${part.signature}  ${part.sentence}`)
  return lines.join('\n')
}
