/** What a way of working on a card came to cost, split up, with what was left for a comeback. */
import { comebackCost, defaultAssumptions, defaultPriceBook, pricesOf } from '../../suspects/index.ts'
import type { Prices } from '../scorecard/rules.ts'
import { leftAfter } from '../simulator/oracle.ts'
import type { Damage, SimulatedCard } from '../simulator/types.ts'

/** In the shop's currency. */
export interface Split {
  readonly checks: number
  readonly runs: number
  readonly puttingRight: number
  readonly neededLifts: number
  readonly needlessLifts: number
  /** The card comes back because something was left: its time and the goodwill. */
  readonly comeback: number
  /** The lifts that are made then. */
  readonly laterLifts: number
  /** Handed back as not worth it: what the repair would have brought. */
  readonly forgone: number
}

export interface Worked {
  readonly checks: number
  readonly runs: number
  readonly puttingRight: number
  readonly lifted: readonly string[]
  readonly mendedRails: readonly string[] | undefined
  readonly givenUp: boolean
}

/**
 * What the work came to, in the shop's currency. A comeback counts once where a needed part, or something in place that
 * still spoils a lane or a line, was left; a card that was given up pays instead what its repair would have brought.
 */
export function splitOf({ truth }: Pick<SimulatedCard, 'truth'>, worked: Worked, prices: Prices): Split {
  const { lifted, mendedRails, givenUp } = worked
  const cost = (refs: readonly string[]): number => refs.reduce((sum, ref) => sum + prices.liftCost(ref), 0)
  const missed = truth.needs.filter((ref) => !lifted.includes(ref))
  const isLeft = !givenUp && (missed.length > 0 || leftInPlace(truth, lifted, mendedRails).length > 0)
  return {
    checks: worked.checks,
    runs: worked.runs,
    puttingRight: worked.puttingRight,
    neededLifts: cost(lifted.filter((ref) => truth.needs.includes(ref))),
    needlessLifts: cost(lifted.filter((ref) => !truth.needs.includes(ref))),
    comeback: isLeft ? comebackCost(pricesOf(defaultAssumptions)) : 0,
    laterLifts: givenUp ? 0 : cost(missed),
    forgone: givenUp && isFaulty(truth) ? Math.max(0, broughtByRepair() - cost(truth.needs)) : 0,
  }
}

/** Sum of all entries of a split, in the shop's currency. */
export const totalOf = (split: Split): number =>
  Object.values(split).reduce((sum: number, each: number) => sum + each, 0)

/** Everybody proves a card before it goes out: one run is left out of what is compared. */
export const besideProof = (split: Split, { minute }: Prices): number =>
  totalOf(split) - Math.min(split.runs, defaultPriceBook.minutes.run * minute)

/** What is no part and is still wrong. */
export const leftInPlace = (
  truth: SimulatedCard['truth'],
  lifted: readonly string[],
  mendedRails: readonly string[] | undefined,
): Damage[] =>
  leftAfter(truth, lifted, mendedRails).filter(
    ({ ref, lanes, lines }) => ref === undefined && lanes.length + lines.length > 0,
  )

const isFaulty = ({ damages }: SimulatedCard['truth']): boolean =>
  damages.some(({ lanes, lines }) => lanes.length + lines.length > 0)

/** The plan's figures of what a card is worth working, less what it fetches as it is. */
function broughtByRepair(): number {
  const { valueIfRepaired, valueAsIs } = defaultPriceBook.money
  return valueIfRepaired - valueAsIs
}
