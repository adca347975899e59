/** What the cells of one column of a sample look like: numbers of which base, labels of which kind. */
import type { BoardModel } from '../board/index.ts'
import { placeFinder } from './labels.ts'
import { roleOfHeading } from './headings.ts'
import { readWord, wordToBigInt } from './numbers.ts'
import type { ColumnRole, NumberBase } from './recipe.ts'

export interface ColumnLook {
  readonly at: number | string
  readonly texts: readonly string[]
  readonly heading: string | undefined
  /** What the heading calls it. */
  readonly role: ColumnRole | undefined
  /** All cells read as numbers of this base; undefined where they don't. */
  readonly base: Exclude<NumberBase, 'auto'> | undefined
  /** The base is certain: a prefix, a letter or a leading zero shows it. */
  readonly baseShown: boolean
  readonly values: readonly bigint[]
  readonly distinct: number
  readonly label: 'part' | 'channel' | 'lane' | undefined
  /** Every cell is what a lane of the board is called inside its part (`A0`); beside a part's column that is a lane. */
  readonly laneNames: boolean
}

/** Share of a column's cells that must agree for it to be called something. */
const AGREE = 0.95

export function lookAtColumn(
  at: number | string,
  texts: readonly string[],
  heading: string | undefined,
  model: BoardModel | undefined,
): ColumnLook {
  const filled = texts.filter((text) => text !== '')
  const { base, shown } = baseOf(filled)
  const values = base === undefined ? [] : numbersOf(texts, base)
  return {
    at,
    texts,
    heading,
    role: heading === undefined ? undefined : roleOfHeading(heading),
    base,
    baseShown: shown,
    values,
    distinct: new Set(texts).size,
    label: labelOf(filled, model),
    laneNames: areLaneNames(filled, model),
  }
}

/** The numbers of the cells; 0 for the odd one that is none. */
export function numbersOf(texts: readonly string[], base: NumberBase): bigint[] {
  return texts.map((text) => {
    const word = readWord(text, base)
    return word === undefined ? 0n : wordToBigInt(word)
  })
}

function baseOf(texts: readonly string[]): { base: 'hex' | 'decimal' | undefined; shown: boolean } {
  if (texts.length === 0) return { base: undefined, shown: false }
  const share = (base: NumberBase): number =>
    texts.filter((text) => readWord(text, base) !== undefined).length / texts.length
  if (share('hex') < AGREE) {
    const isDecimal = share('decimal') >= AGREE
    return { base: isDecimal ? 'decimal' : undefined, shown: isDecimal }
  }
  if (texts.some((text) => /0[xX]|[a-fA-F]|[0-9][hH]\b/.test(text))) return { base: 'hex', shown: true }
  const width = texts[0]?.length ?? 0
  const padded = texts.every((text) => text.length === width) && texts.some((text) => /^\D*0\d{3}/.test(text))
  return padded ? { base: 'hex', shown: true } : { base: 'decimal', shown: false }
}

function areLaneNames(texts: readonly string[], model: BoardModel | undefined): boolean {
  if (texts.length === 0 || model === undefined) return false
  const names = new Set(model.lanes.map((lane) => lane.name.toUpperCase()))
  return texts.every((text) => /\p{L}/u.test(text) && names.has(text.toUpperCase()))
}

function labelOf(texts: readonly string[], model: BoardModel | undefined): ColumnLook['label'] {
  if (texts.length === 0) return undefined
  const some = texts.slice(0, 100)
  if (model === undefined) return some.every((text) => /^[A-Z]{1,3}\d{1,4}$/.test(text)) ? 'part' : undefined
  const find = placeFinder(model)
  const counts = { part: 0, channel: 0, lane: 0 }
  for (const text of some) {
    if (!/\p{L}/u.test(text)) continue
    const place = find({ part: text, channel: undefined, lane: undefined })
    if (place !== undefined) counts[place.kind]++
  }
  for (const kind of ['lane', 'channel', 'part'] as const) if (counts[kind] >= AGREE * some.length) return kind
  return counts.lane + counts.channel + counts.part >= AGREE * some.length ? 'part' : undefined
}
