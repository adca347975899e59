/** A whole report: bytes as they stream in, to a tally. Never held in memory, whatever its size. */
import { bad, type Fault, good, numberWords, type Result, say } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import { assembleTally } from './count/assemble.ts'
import { startCounting } from './count/counting.ts'
import { newCounts } from './count/counts.ts'
import { type Encoding, transcoder } from './text/encoding.ts'
import { GOOD_ENOUGH, guessRecipe, type RecipeGuess, type Sureness } from './guess/guess.ts'
import { type Head, openHead } from './text/head.ts'
import { type KeptReading, readingsFor } from './names/foreign/kept.ts'
import type { ForeignNames } from './names/foreign/meaning.ts'
import { lineCutter } from './text/lines.ts'
import { compilePlan } from './rows/recipe-plan.ts'
import { previewRows } from './guess/preview.ts'
import { type Receipt, receiptsOf } from './guess/receipts.ts'
import { rowCutter } from './rows/reader.ts'
import type { Recipe } from './recipe.ts'
import { sampleLines } from './text/shapes.ts'
import type { Tally } from './tally.ts'
import { tryRecipe } from './guess/trial.ts'
import { newTroubles } from './rows/troubles.ts'

export interface ReadOptions {
  readonly model: BoardModel
  /** How to read it; guessed from the first lines where left out. */
  readonly recipe?: Recipe | undefined
  /** What foreign names mean on this board, for a guess. */
  readonly names?: ForeignNames | undefined
  /** Readings that somebody hands over for it: the last one of a report that looks like this is taken at its word. */
  readonly kept?: readonly KeptReading[] | undefined
  /** How long the file is, where that is known: fewer bytes than that are not the whole report. */
  readonly sizeBytes?: number | undefined
  /** Told the bytes read so far, after each chunk. */
  readonly onProgress?: ((bytes: number) => void) | undefined
  readonly signal?: AbortSignal | undefined
  /** False reads every line the plain way: slower, the same result. */
  readonly fast?: boolean | undefined
  /** True lets loops of WebAssembly be compiled for a long report; where a page's policy forbids that, it is read without. */
  readonly mayCompile?: boolean | undefined
  /** True takes a text in which no line reads as a row: a test that found nothing often lists nothing. */
  readonly mayBeClean?: boolean | undefined
}

export interface ReadReport {
  readonly recipe: Recipe
  readonly guess?: RecipeGuess
  /** Whether it is surely read right; a recipe that was given is the user's word. */
  readonly sure: Sureness
  readonly why: readonly string[]
  readonly tally: Tally
  /** What may be reckoned with: nothing while it is not sure how the report is to be read. */
  readonly believed: Tally | undefined
  /** False where the report breaks off, so that what it does not list stays untested. */
  readonly isWhole: boolean
  readonly encoding: Encoding
  readonly lines: number
  /** What is odd about the report as a whole, such as that most of its rows are beyond this board's memory. */
  readonly remarks: readonly Fault[]
}

/**
 * Reads a report.
 * @param source its bytes in pieces of any size, in UTF-8 (with or without a byte order mark) or UTF-16
 * @returns what it comes to; or a fault: cancelled, no rows found, a recipe that does not hold together, rows with
 * addresses on a board that has no address map, a source that broke off
 */
export async function readReport(source: AsyncIterable<Uint8Array>, options: ReadOptions): Promise<Result<ReadReport>> {
  try {
    return await readFrom(source, options)
  } catch (error) {
    return options.signal?.aborted ? cancelled() : broken(error)
  }
}

/** Looks only at the beginning of a report: the guess, or how a given recipe reads it. */
export async function previewReport(
  source: AsyncIterable<Uint8Array>,
  options: {
    readonly model?: BoardModel
    readonly recipe?: Recipe
    readonly names?: ForeignNames
    readonly signal?: AbortSignal
  },
): Promise<Result<RecipeGuess>> {
  const { model, recipe, names, signal } = options
  try {
    const isEnough = (text: string): boolean => guessRecipe(text, model, names).confidence >= GOOD_ENOUGH
    const head = await openHead(source, { signal, isEnough })
    await head.close()
    if (signal?.aborted) return cancelled()
    const guess = guessRecipe(head.text, model, names)
    if (recipe === undefined) return good(guess)
    return good({
      ...guess,
      recipe,
      sure: 'sure',
      why: GIVEN,
      receipts: receiptsWith(head.text, recipe, model),
      preview: previewRows(head.text, recipe, undefined, model),
    })
  } catch (error) {
    return broken(error)
  }
}

function receiptsWith(text: string, recipe: Recipe, model: BoardModel | undefined): Receipt[] {
  const trial = model === undefined ? undefined : tryRecipe(recipe, model, sampleLines(text))
  return trial === undefined || model === undefined ? [] : receiptsOf(trial, model)
}

const broken = (error: unknown): Result<never> =>
  bad({
    path: 'report',
    found: error instanceof Error ? error.message : say('an error while it was read'),
    expected: say('a readable file'),
    todo: say('Drop the file again.'),
  })

const cancelled = (): Result<never> =>
  bad({
    path: 'report',
    found: say('cancelled'),
    expected: say('reading to the end'),
    todo: say('Start again when you want.'),
  })

async function readFrom(source: AsyncIterable<Uint8Array>, options: ReadOptions): Promise<Result<ReadReport>> {
  const { model, signal } = options
  const found = await headAndGuess(source, options)
  if (signal?.aborted === true) return cancelled()
  if (!found.ok) return found
  const { head, guess, recipe } = found.value
  if (guess?.confidence === 0) return withoutRows(head, guess, model)
  const plan = compilePlan(recipe, model)
  if (!plan.ok) {
    await head.close()
    return plan
  }
  const troubles = newTroubles()
  const counting = startCounting(model, plan.value, troubles)
  if (!counting.ok) {
    await head.close()
    return counting
  }
  const { lines, counts, end } = rowCutter(plan.value, counting.value.sink, troubles, options)
  const cutter = lineCutter(lines, recipe.layout.kind === 'json' ? END_OF_OBJECT : undefined)
  const toUtf8 = transcoder(head.encoding)
  let bytes = head.markBytes
  let brokenOff: unknown
  try {
    for await (const chunk of head.chunks) {
      cutter.chunk(toUtf8.chunk(chunk))
      bytes += chunk.length
      options.onProgress?.(bytes)
    }
  } catch (error) {
    // What was read until a file changed or a disk went is kept, as a report that breaks off.
    brokenOff = error
  }
  if (signal?.aborted) return cancelled()
  cutter.chunk(toUtf8.end())
  cutter.end()
  end()
  if (brokenOff !== undefined || (options.sizeBytes !== undefined && bytes < options.sizeBytes)) counts.isCut = true
  const tally = counting.value.finish(counts, troubles)
  if (brokenOff !== undefined && tally.rows.read === 0) return broken(brokenOff)
  const judged =
    guess === undefined
      ? { sure: 'sure' as const, why: GIVEN }
      : wholeJudged(guess, tally, head.isAll && counts.lines <= LINES_JUDGED)
  return good({
    recipe,
    ...(guess === undefined ? {} : { guess }),
    ...judged,
    tally,
    believed: judged.sure === 'sure' ? tally : undefined,
    isWhole: !counts.isCut,
    encoding: head.encoding,
    lines: counts.lines,
    remarks: [...remarksOn(tally, model), ...(counts.isCut ? [brokenOffBy(brokenOff, bytes, options.sizeBytes)] : [])],
  })
}

const END_OF_OBJECT = 125

function brokenOffBy(error: unknown, bytes: number, sizeBytes: number | undefined): Fault {
  const short =
    sizeBytes !== undefined && bytes < sizeBytes
      ? say(': {bytes} of its {sizeBytes} bytes could be read', {
          bytes: numberWords(bytes),
          sizeBytes: numberWords(sizeBytes),
        })
      : error === undefined
        ? say(': its last line is cut')
        : ''
  const reason = error instanceof Error ? ` (${error.message})` : ''
  return {
    path: 'report',
    found: say('a report that breaks off{short}{reason}', { short, reason }),
    expected: say('a whole report'),
    todo: say('Save it again from the test. Until then what it does not list stays untested.'),
  }
}

/** The guess looks at so many lines one by one. */
const LINES_JUDGED = 2000

/** Beyond these shares of the whole, what the beginning promised does not hold. */
const MOST_UNREADABLE = 0.1
const MOST_UNMAPPED = 0.05

/** The guess was made from the beginning: the whole report must bear it out. */
function wholeJudged(
  guess: RecipeGuess,
  { rows }: Tally,
  isJudged: boolean,
): { sure: Sureness; why: readonly string[] } {
  const { read, unmapped, unreadable } = rows
  // Of lines that were all looked at it is known that those which are no rows are remarks.
  if (isJudged && read > 0) return { sure: guess.sure, why: guess.why }
  const all = read + unmapped + unreadable
  const isBorneOut = unreadable <= Math.max(3, MOST_UNREADABLE * all) && unmapped <= Math.max(3, MOST_UNMAPPED * all)
  if (guess.sure !== 'sure' || (isBorneOut && read > 0)) return { sure: guess.sure, why: guess.why }
  const why = say(
    "Of the whole report {unreadable} lines can't be read and {unmapped} rows are of no part of this board.",
    { unreadable, unmapped },
  )
  return { sure: 'unsure', why: [why, ...guess.why] }
}

interface Opened {
  readonly head: Head
  readonly guess: RecipeGuess | undefined
  readonly recipe: Recipe
}

async function headAndGuess(source: AsyncIterable<Uint8Array>, options: ReadOptions): Promise<Result<Opened>> {
  const { model, signal, recipe, names, kept = [] } = options
  if (recipe !== undefined) return good({ head: await openHead(source, { signal }), guess: undefined, recipe })
  const guesses: RecipeGuess[] = []
  let handedOver: Recipe | undefined
  const isEnough = (text: string): boolean => {
    const [told] = readingsFor(sampleLines(text), kept)
    if (told?.recipe !== undefined) {
      handedOver = { ...told.recipe, ...(told.names === undefined ? {} : { names: told.names }) }
      return true
    }
    const guess = guessRecipe(text, model, names ?? told?.names)
    guesses.push(guess)
    return guess.confidence >= GOOD_ENOUGH
  }
  const head = await openHead(source, { signal, isEnough })
  if (handedOver !== undefined) return good({ head, guess: undefined, recipe: handedOver })
  const guess = guesses.at(-1)
  const taken =
    guess !== undefined &&
    (guess.confidence > 0 || guess.foreign.length > 0 || (options.mayBeClean === true && head.text.trim() !== ''))
  if (!taken) {
    await head.close()
    return head.failure === undefined ? bad(noRows(head.text)) : broken(head.failure)
  }
  return good({ head, guess, recipe: guess.recipe })
}

/** A text that lists nothing: every lane untested, until somebody says that the test covered them. */
async function withoutRows(head: Head, guess: RecipeGuess, model: BoardModel): Promise<Result<ReadReport>> {
  const toUtf8 = transcoder(head.encoding)
  let lines = 0
  for await (const chunk of head.chunks) for (const byte of toUtf8.chunk(chunk)) if (byte === LINE_FEED) lines++
  const rows = { read: 0, unreadable: 0, unmapped: 0, skipped: lines }
  const tally = assembleTally(newCounts(model), { rows, troubles: [], level: 'labels' })
  return good({
    recipe: guess.recipe,
    guess,
    sure: 'unknown',
    why: guess.why,
    tally,
    believed: tally,
    isWhole: true,
    encoding: head.encoding,
    lines,
    remarks: remarksOn(tally, model),
  })
}

const GIVEN = [say('The recipe was given.')]

const LINE_FEED = 10

const noRows = (text: string): Fault => ({
  path: 'report',
  found: text.trim() === '' ? say('an empty file') : say('no line that reads as a row of errors'),
  expected: say('rows with an address and expected and actual words, or with a part, channel or lane and a count'),
  todo: say('Write a recipe for it by hand, or enter the counts in the table.'),
})

function remarksOn(tally: Tally, model: BoardModel): Fault[] {
  const { read, unmapped, unreadable } = tally.rows
  if (read + unmapped + unreadable === 0) {
    return [
      {
        path: 'report',
        found: say('no line that reads as a row of errors'),
        expected: say('rows of errors, or a test that ended without any'),
        todo: say(
          'If the test went over the whole memory and found nothing, say so; if the text does list errors, correct how it is read.',
        ),
      },
    ]
  }
  if (unmapped > read) {
    const what = tally.level === 'words' ? say('addresses beyond the memory') : say('names that are not on the board')
    return [
      {
        path: 'report',
        found: say('{unmapped} of {read} rows with {what} of {name}', {
          unmapped,
          read: read + unmapped,
          what,
          name: model.name,
        }),
        expected: say('rows of this board: this report seems to be of another board'),
        todo: say('Choose the board that the report was made on, or correct which column is read as the place.'),
      },
    ]
  }
  if (unreadable <= read) return []
  return [
    {
      path: 'report',
      found: say("{unreadable} of {read} rows that can't be read", { unreadable, read: read + unmapped + unreadable }),
      expected: say('a recipe that reads most rows'),
      todo: say('Look at the rows shown and correct the recipe.'),
    },
  ]
}
