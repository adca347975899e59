/** From all ways in which a plan can end to a range of price and days: nothing is priced here, only sorted and added up. */
import { endingMeans, type WorkEnding } from '../../suspects/index.ts'
import { withTax } from '../money/decimal.ts'
import type { ShopDetails } from '../shop-details.ts'

/** Of all ways it can end, the share that stays below the low and above the high price. */
const TAIL = 0.1

export interface QuoteRange {
  /** With tax, in the shop's currency. */
  readonly low: number
  readonly expected: number
  readonly high: number
  readonly daysLow: number
  readonly daysHigh: number
  /** That the card works in the end. */
  readonly works: number
}

export interface QuoteTerms extends Pick<ShopDetails, 'hoursADay' | 'partsDays' | 'taxPct'> {
  /** Of what is done already, without tax. */
  readonly spent: { readonly money: number; readonly minutes: number }
  /** In the oven or drying, where a plan has such hours: nobody works on it meanwhile. */
  readonly waitingHours: number
}

/**
 * Low and high are the 10th and 90th percentile over the endings by their chances: the least price that at least that
 * share of the chances does not go beyond. Expected is the mean, and the range always holds it. Days of an ending are
 * its minutes by the shop's hours a day, rounded up, the days of waiting in the oven, and those for parts where it needs a new one.
 * @returns undefined where there is no ending, as nothing was reckoned
 */
export function quoteRange(endings: readonly WorkEnding[], terms: QuoteTerms): QuoteRange | undefined {
  const prices = endings.map(({ probability, money }) => ({ probability, value: terms.spent.money + money }))
  const days = endings.map((ending) => ({ probability: ending.probability, value: daysOf(ending, terms) }))
  const means = endingMeans(endings)
  if (means === undefined) return undefined
  const expected = terms.spent.money + means.money
  const gross = (net: number): number => withTax(net, terms.taxPct)
  return {
    low: gross(Math.min(expected, percentile(prices, TAIL))),
    expected: gross(expected),
    high: gross(Math.max(expected, percentile(prices, 1 - TAIL))),
    daysLow: percentile(days, TAIL),
    daysHigh: percentile(days, 1 - TAIL),
    works: means.works,
  }
}

export interface Chanced {
  readonly probability: number
  readonly value: number
}

/** Chances are sums of products: one that misses a share by less than this reaches it. */
const SLIGHTLY = 1e-9

/** The least value that at least this share of the chances does not go beyond; of none it is 0. */
export function percentile(chanced: readonly Chanced[], share: number): number {
  const sorted = chanced.toSorted((a, b) => a.value - b.value)
  const whole = sorted.reduce((sum, { probability }) => sum + probability, 0)
  let sum = 0
  for (const { probability, value } of sorted) {
    sum += probability
    if (sum >= share * whole - SLIGHTLY) return value
  }
  return sorted.at(-1)?.value ?? 0
}

const HOURS_PER_DAY = 24

function daysOf({ minutes, newParts }: WorkEnding, { spent, hoursADay, partsDays, waitingHours }: QuoteTerms): number {
  const bench = Math.ceil((spent.minutes + minutes) / 60 / hoursADay - SLIGHTLY)
  return Math.max(1, bench) + Math.ceil(waitingHours / HOURS_PER_DAY) + (newParts ? partsDays : 0)
}
