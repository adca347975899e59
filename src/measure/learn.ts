/** Reference ranges from the shop's own good cards of a board: median and spread of what they read. */
import { say } from '../base/index.ts'
import type { GoodReadings, LineName, Quantity } from './schema.ts'
import { lineKey } from './line-key.ts'
import { rule } from './practice.ts'
import { sayRange, sayReading } from './say.ts'

export interface LearntRange {
  readonly line: LineName
  readonly quantity: Quantity
  readonly cards: number
  readonly median: number
  /** Undefined while there are too few cards for a range. */
  readonly range: { readonly low: number; readonly high: number } | undefined
  /** `median 62 Ω on 7 good cards of this board`. */
  readonly source: string
  /** The same with the range: `…; 48 to 80 Ω`. */
  readonly words: string
}

/**
 * Ohms by their logarithms, because what leaks varies by factors: range = median · e^(±k·s), s = 1.4826 · the median of
 * |ln x - ln median| (1.4826 makes it the standard deviation of a normal distribution: Rousseeuw and Croux 1993); volts and
 * diode mode the same without logarithms. k, the narrowest and widest range, and how many cards it takes stand in `practice.json`. Readings of
 * 0 Ω are left out: no good card reads so.
 */
export function learnRanges(goodReadings: readonly GoodReadings[]): Map<string, LearntRange> {
  const learnt = new Map<string, LearntRange>()
  for (const { line, quantity, values } of goodReadings) {
    const usable = quantity === 'ohms' ? values.filter((value) => value > 0) : values
    if (usable.length === 0) continue
    learnt.set(learntKey(line, quantity), learn(line, quantity, usable))
  }
  return learnt
}

/** The key under which a line's range of one quantity is kept. */
export const learntKey = (line: LineName, quantity: Quantity): string => `${quantity} ${lineKey(line)}`

function learn(line: LineName, quantity: Quantity, values: readonly number[]): LearntRange {
  const median = medianOf(values)
  const enough = values.length >= rule('goodCardsNeeded')
  const range = enough
    ? quantity === 'ohms'
      ? ratioRange(values, median)
      : plainRange(values, median, LEAST_SPREAD[quantity])
    : undefined
  const said = sayReading({ kind: 'value', value: rounded(median) }, quantity)
  const source = say('median {said} on {cards} good {cards, plural, one {card} other {cards}} of this board', {
    said,
    cards: values.length,
  })
  const more =
    range === undefined
      ? say('a range comes with {rule}', { rule: rule('goodCardsNeeded') })
      : sayRange(range.low, range.high, quantity)
  return { line, quantity, cards: values.length, median, range, source, words: `${source}; ${more}` }
}

const MAD_TO_SD = 1.4826

/** Two digits each, so that the words and the range are the same figures. */
function ratioRange(values: readonly number[], median: number): { low: number; high: number } {
  const spread = MAD_TO_SD * medianOf(values.map((value) => Math.abs(Math.log(value / median))))
  const wished = Math.max(rule('leastSpreadRatio'), Math.exp(rule('spreads') * spread))
  const ratio = Math.min(rule('mostSpreadRatio'), wished)
  return { low: twoDigits(median / ratio), high: twoDigits(median * ratio) }
}

const LEAST_SPREAD = { diode: 'leastSpreadDiodeV', volts: 'leastSpreadV' } as const

function plainRange(
  values: readonly number[],
  median: number,
  least: (typeof LEAST_SPREAD)[keyof typeof LEAST_SPREAD],
): { low: number; high: number } {
  const spread = MAD_TO_SD * medianOf(values.map((value) => Math.abs(value - median)))
  const half = Math.max(rule(least), rule('spreads') * spread)
  return { low: rounded(median - half), high: rounded(median + half) }
}

const twoDigits = (value: number): number => Number(value.toPrecision(2))
const rounded = (value: number): number => Number(value.toPrecision(4))

function medianOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b)
  const middle = Math.floor(sorted.length / 2)
  const upper = sorted[middle] ?? 0
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? 0) + upper) / 2
}
