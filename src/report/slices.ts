/** A long report read in two places at once: its second half by somebody else, who counts it and hands over the sums. */
import { good, type Result } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import type { WordSums } from './count/addressed.ts'
import { startCounting } from './count/counting.ts'
import type { Recipe } from './recipe.ts'
import { compilePlan, type Plan } from './rows/recipe-plan.ts'
import { type LineCounts, rowCutter, type Standing } from './rows/reader.ts'
import { newTroubles, type TroublesByKind } from './rows/troubles.ts'
import { lineCutter } from './text/lines.ts'

export interface SliceWish {
  readonly recipe: Recipe
  /** Where to begin; up to the first line feed it is somebody else's. */
  readonly fromByte: number
  /** Told the bytes read so far. */
  readonly onProgress: (bytes: number) => void
}

/** Somebody else who can read a part of the same file. */
export interface Beside {
  readonly read: (wish: SliceWish) => Promise<Result<Slice>>
  /** About so many bytes are read here until the other has begun. */
  readonly startsAfterBytes: number
}

/** What a stretch from somewhere in a report to its end came to. */
export interface Slice {
  readonly bytes: number
  readonly counts: LineCounts
  readonly standing: Standing
  readonly troubles: TroublesByKind
  readonly sums: WordSums
  /** The last line where no line break ends it: whether it is cut depends on all rows. */
  readonly unended?: Uint8Array | undefined
}

export interface SliceOptions {
  readonly model: BoardModel
  readonly recipe: Recipe
  readonly fast?: boolean | undefined
  readonly mayCompile?: boolean | undefined
  readonly onProgress?: ((bytes: number) => void) | undefined
}

/** Below this a second reader is not worth asking. */
export const LEAST_BYTES_IN_SLICES = 32_000_000

/** Rows with addresses that each stand on one line and by themselves: what came before a row tells nothing about it. */
export const canBeSliced = ({ recipe, level, heads, tables }: Plan): boolean =>
  level === 'words' &&
  heads.length === 0 &&
  tables.length === 0 &&
  recipe.record === undefined &&
  recipe.layout.kind !== 'json'

/**
 * Reads the rest of a report from the first line feed on.
 * @param source UTF-8 from where the wish begins to the end
 * @returns sums to be added to those of the beginning; the faults of the recipe on this board. A source that breaks off throws
 */
export async function readSlice(
  source: AsyncIterable<Uint8Array>,
  { model, recipe, onProgress, ...speed }: SliceOptions,
): Promise<Result<Slice>> {
  const plan = compilePlan(recipe, model)
  if (!plan.ok) return plan
  const troubles = newTroubles()
  const counting = startCounting(model, plan.value, troubles)
  if (!counting.ok) return counting
  const { words } = counting.value
  if (words === undefined) throw new Error('only rows with addresses are read in slices')
  const rows = rowCutter(plan.value, counting.value.sink, troubles, speed)
  rows.goOn({ rowSeen: true, shortestRow: Number.POSITIVE_INFINITY, lastRow: '' })
  let unended: Uint8Array | undefined
  const cutter = lineCutter({
    ...rows.lines,
    unended: (bytes) => {
      unended = bytes.slice()
    },
  })
  let bytes = 0
  let hasBegun = false
  for await (const chunk of source) {
    bytes += chunk.length
    const from: number = hasBegun ? 0 : chunk.indexOf(LINE_FEED) + 1
    if (hasBegun || from > 0) cutter.chunk(chunk.subarray(from))
    hasBegun ||= from > 0
    onProgress?.(bytes)
  }
  cutter.end()
  return good({
    bytes,
    counts: rows.counts,
    standing: rows.standing(),
    troubles: troubles.kinds(),
    sums: words.sums(),
    ...(unended === undefined ? {} : { unended }),
  })
}

export const LINE_FEED = 10
