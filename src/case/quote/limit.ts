/** How far work has come to the limit that the owner agreed to, and whether the next step goes past it. */
import { money, roughMoney, say } from '../../base/index.ts'
import { withTax } from '../money/decimal.ts'
import type { Quote } from './schema.ts'

export interface LimitState {
  /** Amounts are with the quote's tax. */
  readonly limit: number
  readonly spent: number
  /** Once the next step is done; as spent where there is none. */
  readonly after: number
  readonly state: 'within' | 'next-goes-past' | 'past'
  /** It went past this limit, and nobody has noted why. */
  readonly asksReason: boolean
}

/** Less than this is no going past: money is told to a hundredth. */
const SLIGHTLY = 0.005

/**
 * @param spentMoney so far, without tax; see `spentSoFar`
 * @param nextMoney of the next step, without tax; see `costOfStep`
 * @returns undefined where no limit was agreed, or the work was declined
 */
export function limitState(
  quote: Pick<Quote, 'answer' | 'limit' | 'taxPct' | 'pastLimit'> | undefined,
  spentMoney: number,
  nextMoney = 0,
): LimitState | undefined {
  if (quote?.answer !== 'agreed' || quote.limit === undefined) return undefined
  const { limit, taxPct, pastLimit } = quote
  const spent = withTax(spentMoney, taxPct)
  const after = withTax(spentMoney + nextMoney, taxPct)
  const isPast = spent > limit + SLIGHTLY
  const state = isPast ? 'past' : after > limit + SLIGHTLY ? 'next-goes-past' : 'within'
  const reasoned = pastLimit.some((each) => each.limit === limit)
  return { limit, spent, after, state, asksReason: isPast && !reasoned }
}

/** One line: `About 210 EUR of the 330.00 EUR agreed is spent`, or that it is past, or would be. */
export function limitWords({ limit, spent, after, state }: LimitState, currency: string): string {
  const agreed = money(limit, currency)
  switch (state) {
    case 'within':
      return spent < 0.5
        ? say('Agreed up to {agreed}.', { agreed })
        : say('About {spent} of the {agreed} agreed is spent.', { spent: roughMoney(spent, currency), agreed })
    case 'next-goes-past':
      return say('The next step takes it to about {after}, past the {agreed} agreed. Ask the owner first.', {
        after: roughMoney(after, currency),
        agreed,
      })
    case 'past':
      return say('About {spent} is spent, past the {agreed} agreed.', { spent: roughMoney(spent, currency), agreed })
  }
}
