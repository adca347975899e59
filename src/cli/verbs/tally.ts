/** `liftmap tally BOARD REPORT`: adds up a report per part, channel, lane and bit. */
import type { z } from 'zod'
import type { BoardModel } from '../../board/index.ts'
import {
  bad,
  type Fault,
  faultsFromZod,
  good,
  joined,
  parseJson,
  type Result,
  sayFault,
  say,
} from '../../base/index.ts'
import {
  namePatterns,
  type PartTally,
  readingOf,
  type ReadOptions,
  type ReadReport,
  readReport,
  readWordsFile,
  type Recipe,
  recipeSchema,
  writeWordsFile,
} from '../../report/index.ts'
import { EXIT, printAnswer, printFaults, whenGood } from '../answer.ts'
import { openBoardFile } from '../files.ts'
import { type Io, readAll } from '../io.ts'
import { tallyOutput } from '../output.ts'
import { placedNames } from './placed-names.ts'

export interface TallyOptions {
  readonly recipe?: string | undefined
  readonly names?: string | undefined
  readonly place?: readonly string[] | undefined
  readonly keep?: string | undefined
  readonly text?: boolean | undefined
  readonly force?: boolean | undefined
}

type Answer = z.infer<typeof tallyOutput>

/**
 * Prints the tally of one report; with `keep` writes what names and recipe were used, for the next report of this
 * kind. A report in which no row could be read is refused with the reasons. Returns the exit code.
 */
export async function runTally(io: Io, boardFile: string, reportFile: string, options: TallyOptions): Promise<number> {
  const board = await openBoardFile(io, boardFile)
  if (!board.ok) return printFaults(io, board.faults)
  const { model } = board.value
  const told = await toldFrom(io, options, model)
  if (!told.ok) return printFaults(io, told.faults)
  const bytes = await io.open(reportFile)
  if (!bytes.ok) return printFaults(io, bytes.faults)
  const placed = await placedNames(bytes.value, options.place ?? [], model)
  if (!placed.ok) return printFaults(io, placed.faults)
  const { names, source } = placed.value
  const given = {
    mayCompile: true,
    sizeBytes: io.sizeOf?.(reportFile),
    ...told.value,
    ...(names === undefined ? {} : { names }),
  }
  return await whenGood(io, await readReport(source, { model, ...given }), (read) => {
    const { tally, guess } = read
    if (options.keep !== undefined) {
      const recipe = options.recipe === undefined ? undefined : read.recipe
      const title = reportFile.split(/[\\/]/).pop() ?? reportFile
      const reading = readingOf(title, placed.value.beginning, { names: read.recipe.names, recipe })
      const written = io.write(options.keep, writeWordsFile([reading], model.name), {
        force: options.force === true,
        inputs: [boardFile, reportFile],
      })
      if (!written.ok) return printFaults(io, written.faults)
    }
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
        ...namesIn(read, model),
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

function namesIn({ guess, recipe }: ReadReport, model: BoardModel): Pick<Answer, 'foreign' | 'patterns'> {
  const names = recipe.names ?? {}
  const foreign = (guess?.foreign ?? []).map(({ name }) => ({
    name,
    ...(names[name] === undefined ? {} : { means: names[name] }),
  }))
  const untold = foreign.filter(({ means }) => means === undefined).map(({ name }) => name)
  return { foreign, patterns: namePatterns(untold, model, {}, SHOWN_PATTERNS).map(({ title }) => title) }
}

const SHOWN_PATTERNS = 6

async function toldFrom(
  io: Io,
  { recipe, names }: TallyOptions,
  model: BoardModel,
): Promise<Result<Pick<ReadOptions, 'recipe' | 'kept'>>> {
  if (recipe !== undefined) {
    const read = await recipeFrom(io, recipe)
    return read.ok ? good({ recipe: read.value }) : read
  }
  if (names === undefined) return good({})
  const text = await readAll(io, names)
  if (!text.ok) return text
  const file = readWordsFile(text.value, model, names)
  return file.ok ? good({ kept: file.value.readings }) : file
}

async function recipeFrom(io: Io, path: string): Promise<Result<Recipe>> {
  const text = await readAll(io, path)
  if (!text.ok) return text
  const value = parseJson(text.value, path)
  if (!value.ok) return value
  const parsed = recipeSchema.safeParse(value.value)
  return parsed.success ? good(parsed.data) : bad(...faultsFromZod(parsed.error, value.value))
}

function sayTally(answer: Answer): string {
  const { rows } = answer
  const lines = [
    `${answer.sure === 'sure' ? say('surely read right') : answer.sure === 'unsure' ? say('NOT SURE that it is read right') : say('NOT KNOWN how it is to be read')}: ${answer.why.join(' ')}`,
    ...answer.receipts.map((receipt) =>
      say('  line {line}: {text}  ->  {means}', { line: receipt.line, text: receipt.text, means: receipt.means }),
    ),
    ...answer.others.map((other) =>
      say('  read another way it blames {parts}', { parts: other.parts.join(', ') || say('nothing') }),
    ),
    ...(answer.foreign.length === 0 ? [] : [sayForeign(answer.foreign)]),
    ...answer.patterns.map((title) =>
      say('  they may go {title}: say one with --place, and the rest follows', { title }),
    ),
    ...answer.remarks,
    say('{read} rows read, {unreadable} unreadable, {unmapped} unmapped, {skipped} without data', {
      read: rows.read,
      unreadable: rows.unreadable,
      unmapped: rows.unmapped,
      skipped: rows.skipped,
    }),
  ]
  for (const trouble of answer.troubles)
    lines.push(say('  line {line}: {why}: {text}', { line: trouble.line, why: trouble.why, text: trouble.text }))
  for (const part of answer.parts)
    lines.push(
      say(
        '{ref}  {errors} errors  {signature, select, clean {clean} line {line} byte {byte} channel {channel} package {package} cells {cells} other {sparse}}  {sentence}',
        {
          ref: part.ref,
          errors: part.errors,
          signature: part.signature,
          sentence: part.sentence,
        },
      ),
    )
  return lines.join('\n')
}

const sayForeign = (foreign: Answer['foreign']): string =>
  say('names that are not the board’s: {foreign}', {
    foreign: foreign
      .map(({ name, means }) => (means === undefined ? name : `${name} = ${joined([means].flat())}`))
      .join(', '),
  })
