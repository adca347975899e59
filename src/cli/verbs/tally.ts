/** `liftmap tally BOARD REPORT`: adds up a report per part, channel, lane and bit. */
import type { z } from 'zod'
import { bad, type Fault, faultsFromZod, good, parseJson, type Result, sayFault } from '../../base/index.ts'
import { type PartTally, type Recipe, readReport, recipeSchema } from '../../report/index.ts'
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
    const { tally, guess } = read
    // A report of another board is no report of this one.
    if (tally.rows.read === 0 && read.remarks.length > 0) return printFaults(io, read.remarks)
    printAnswer(
      io,
      tallyOutput,
      {
        rows: { ...tally.rows },
        troubles: tally.troubles.map((trouble) => ({ ...trouble })),
        level: tally.level,
        sure: read.sure,
        why: [...read.why],
        receipts: (guess?.receipts ?? []).map((receipt) => ({ ...receipt })),
        others: (guess?.others ?? []).map(({ recipe: other, parts }) => ({ recipe: other, parts: [...parts] })),
        remarks: read.remarks.map((remark: Fault) => sayFault(remark)),
        isWhole: read.isWhole,
        recipe: read.recipe,
        parts: tally.parts.map((part) => ({
          ref: part.ref,
          errors: part.errors,
          signature: isUntested(part) ? 'untested' : part.signature.kind,
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

const isUntested = (part: PartTally): boolean =>
  part.channels.every((channel) => channel.lanes.every((lane) => lane.state === 'untested'))

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
    `${answer.sure === 'sure' ? 'surely read right' : answer.sure === 'unsure' ? 'NOT SURE that it is read right' : 'NOT KNOWN how it is to be read'}: ${answer.why.join(' ')}`,
    ...answer.receipts.map((receipt) => `  line ${receipt.line}: ${receipt.text}  ->  ${receipt.means}`),
    ...answer.others.map((other) => `  read another way it blames ${other.parts.join(', ') || 'nothing'}`),
    ...answer.remarks,
    `${rows.read} rows read, ${rows.unreadable} unreadable, ${rows.unmapped} unmapped, ${rows.skipped} without data`,
  ]
  for (const trouble of answer.troubles) lines.push(`  line ${trouble.line}: ${trouble.why}: ${trouble.text}`)
  for (const part of answer.parts) lines.push(`${part.ref}  ${part.errors} errors  ${part.signature}  ${part.sentence}`)
  return lines.join('\n')
}
