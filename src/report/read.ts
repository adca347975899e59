/** A whole report: bytes as they stream in, to a tally. Never held in memory, whatever its size. */
import { bad, type Fault, good, type Result } from '../base/index.ts'
import { type AddressMap, type BoardModel, compileAddressMap } from '../board/index.ts'
import { assembleTally } from './assemble.ts'
import { newCounts } from './counts.ts'
import { type Encoding, transcoder } from './encoding.ts'
import { GOOD_ENOUGH, guessRecipe, type RecipeGuess } from './guess.ts'
import { type Head, openHead } from './head.ts'
import { placeFinder } from './labels.ts'
import { lineCutter } from './lines.ts'
import { placedCounter } from './placed.ts'
import { compilePlan, type Plan } from './plan.ts'
import { previewRows } from './preview.ts'
import { type LineCounts, type RowSink, rowCutter } from './reader.ts'
import type { Recipe } from './recipe.ts'
import { cellSpreads } from './spread.ts'
import type { Tally } from './tally.ts'
import { newTroubles, type Troubles } from './troubles.ts'
import { newWordCounter } from './words.ts'

export interface ReadOptions {
  readonly model: BoardModel
  /** How to read it; guessed from the first lines where left out. */
  readonly recipe?: Recipe | undefined
  /** Told the bytes read so far, after each chunk. */
  readonly onProgress?: ((bytes: number) => void) | undefined
  readonly signal?: AbortSignal | undefined
  /** False reads every line the plain way: slower, the same result. */
  readonly fast?: boolean | undefined
  /** True takes a text in which no line reads as a row: a test that found nothing often lists nothing. */
  readonly mayBeClean?: boolean | undefined
}

export interface ReadReport {
  readonly recipe: Recipe
  readonly guess?: RecipeGuess
  readonly tally: Tally
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
  options: { readonly model?: BoardModel; readonly recipe?: Recipe; readonly signal?: AbortSignal },
): Promise<Result<RecipeGuess>> {
  const { model, recipe, signal } = options
  try {
    const isEnough = (text: string): boolean => guessRecipe(text, model).confidence >= GOOD_ENOUGH
    const head = await openHead(source, { signal, isEnough })
    await head.close()
    if (signal?.aborted) return cancelled()
    const guess = guessRecipe(head.text, model)
    if (recipe === undefined) return good(guess)
    return good({ ...guess, recipe, why: ['The recipe is given.'], preview: previewRows(head.text, recipe) })
  } catch (error) {
    return broken(error)
  }
}

const broken = (error: unknown): Result<never> =>
  bad({
    path: 'report',
    found: error instanceof Error ? error.message : 'an error while it was read',
    expected: 'a readable file',
    todo: 'Drop the file again.',
  })

const cancelled = (): Result<never> =>
  bad({ path: 'report', found: 'cancelled', expected: 'reading to the end', todo: 'Start again when you want.' })

async function readFrom(source: AsyncIterable<Uint8Array>, options: ReadOptions): Promise<Result<ReadReport>> {
  const { model, signal } = options
  const found = await headAndGuess(source, options)
  if (signal?.aborted === true) return cancelled()
  if (!found.ok) return found
  const { head, guess, recipe } = found.value
  if (guess?.confidence === 0) return withoutRows(head, guess, model)
  const plan = compilePlan(recipe)
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
  const { lines, counts } = rowCutter(plan.value, counting.value.sink, troubles, options.fast)
  const cutter = lineCutter(lines)
  const toUtf8 = transcoder(head.encoding)
  let bytes = 0
  for await (const chunk of head.chunks) {
    cutter.chunk(toUtf8.chunk(chunk))
    bytes += chunk.length
    options.onProgress?.(bytes)
  }
  if (signal?.aborted) return cancelled()
  cutter.chunk(toUtf8.end())
  cutter.end()
  const tally = counting.value.finish(counts, troubles)
  return good({
    recipe,
    ...(guess === undefined ? {} : { guess }),
    tally,
    encoding: head.encoding,
    lines: counts.lines,
    remarks: remarksOn(tally, model),
  })
}

interface Opened {
  readonly head: Head
  readonly guess: RecipeGuess | undefined
  readonly recipe: Recipe
}

async function headAndGuess(source: AsyncIterable<Uint8Array>, options: ReadOptions): Promise<Result<Opened>> {
  const { model, signal, recipe } = options
  if (recipe !== undefined) return good({ head: await openHead(source, { signal }), guess: undefined, recipe })
  const guesses: RecipeGuess[] = []
  const isEnough = (text: string): boolean => {
    const guess = guessRecipe(text, model)
    guesses.push(guess)
    return guess.confidence >= GOOD_ENOUGH
  }
  const head = await openHead(source, { signal, isEnough })
  const guess = guesses.at(-1)
  const taken =
    guess !== undefined && (guess.confidence > 0 || (options.mayBeClean === true && head.text.trim() !== ''))
  if (!taken) {
    await head.close()
    return bad(noRows(head.text))
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
  return good({ recipe: guess.recipe, guess, tally, encoding: head.encoding, lines, remarks: remarksOn(tally, model) })
}

const LINE_FEED = 10

interface Counting {
  readonly sink: RowSink
  finish(counts: LineCounts, troubles: Troubles): Tally
}

function startCounting(model: BoardModel, plan: Plan, troubles: Troubles): Result<Counting> {
  if (plan.level === 'labels') return good(countLabels(model, plan, troubles))
  if (model.addressMap === undefined) return bad(noMap(model))
  const map = compileAddressMap(model.addressMap)
  return map.ok ? good(countWords(model, map.value, plan, troubles)) : map
}

function countWords(model: BoardModel, map: AddressMap, plan: Plan, troubles: Troubles): Counting {
  const counter = newWordCounter(newCounts(model), map, plan.bits)
  return {
    sink: {
      batch: (batch, lineOf) =>
        counter.take(batch, (row) => {
          if (!troubles.wantsUnmapped()) return
          const address = `0x${(batch.address[row] ?? 0).toString(16)}`
          const line = lineOf(row)
          troubles.unmapped(line.number, line.text, `address ${address} is beyond the board’s memory`)
        }),
      labelled: () => undefined,
    },
    finish: (lines) => {
      counter.finish()
      const reached = new Set(map.channelIds)
      if (counter.mapped > 0) {
        for (const [i, lane] of model.lanes.entries()) if (reached.has(lane.channel)) counter.counts.laneCovered[i] = 1
      }
      const rows = {
        read: counter.mapped,
        unmapped: counter.unmapped,
        unreadable: lines.unreadable,
        skipped: lines.skipped,
      }
      return assembleTally(
        counter.counts,
        { rows, troubles: troubles.list(), level: 'words' },
        cellSpreads(counter, map),
      )
    },
  }
}

function countLabels(model: BoardModel, plan: Plan, troubles: Troubles): Counting {
  const counts = newCounts(model)
  const find = placeFinder(model)
  const count = placedCounter(counts)
  const saysRead = plan.bits !== 'difference' && plan.bits !== 'bit' && plan.bits !== 'none'
  let read = 0
  let unmapped = 0
  return {
    sink: {
      batch: () => undefined,
      labelled: (row, line, text) => {
        const place = find(row)
        if (place === undefined) {
          unmapped++
          const label = [row.part, row.channel, row.lane].filter((name) => name !== undefined).join(' ')
          troubles.unmapped(line, text, `no part, channel or lane of the board is called ${label}`)
          return
        }
        read++
        const silent = saysRead && (row.differenceLow | row.differenceHigh) === 0
        const actual = saysRead ? { low: row.actualLow, high: row.actualHigh } : undefined
        count(place, {
          errors: silent ? 0 : row.count,
          differenceLow: row.differenceLow,
          differenceHigh: row.differenceHigh,
          actual,
        })
      },
    },
    finish: (lines) => {
      const rows = { read, unmapped, unreadable: lines.unreadable, skipped: lines.skipped }
      return assembleTally(counts, { rows, troubles: troubles.list(), level: 'labels' })
    },
  }
}

const noMap = (model: BoardModel): Fault => ({
  path: '$.addressMap',
  found: `no address map on the board ${model.name}`,
  expected: 'an address map, since the report tells its errors by address',
  todo: 'Add the map to the board, or read a report that names parts, channels or lanes.',
})

const noRows = (text: string): Fault => ({
  path: 'report',
  found: text.trim() === '' ? 'an empty file' : 'no line that reads as a row of errors',
  expected: 'rows with an address and expected and actual words, or with a part, channel or lane and a count',
  todo: 'Write a recipe for it by hand, or enter the counts in the table.',
})

function remarksOn(tally: Tally, model: BoardModel): Fault[] {
  const { read, unmapped, unreadable } = tally.rows
  if (read + unmapped + unreadable === 0) {
    return [
      {
        path: 'report',
        found: 'no line that reads as a row of errors',
        expected: 'rows of errors, or a test that ended without any',
        todo: 'If the test went over the whole memory and found nothing, say so; if the text does list errors, correct how it is read.',
      },
    ]
  }
  if (unmapped > read) {
    const what = tally.level === 'words' ? 'addresses beyond the memory' : 'names that are not on the board'
    return [
      {
        path: 'report',
        found: `${unmapped} of ${read + unmapped} rows with ${what} of ${model.name}`,
        expected: 'rows of this board: this report seems to be of another board',
        todo: 'Choose the board that the report was made on, or correct which column is read as the place.',
      },
    ]
  }
  if (unreadable <= read) return []
  return [
    {
      path: 'report',
      found: `${unreadable} of ${read + unmapped + unreadable} rows that can't be read`,
      expected: 'a recipe that reads most rows',
      todo: 'Look at the rows shown and correct the recipe.',
    },
  ]
}
