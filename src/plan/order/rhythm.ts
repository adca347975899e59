/** Which rhythm an order has: everything off before anything goes back, or each part back before the next comes off. */
import type { Order } from './problem.ts'

/**
 * Whether an order keeps a rhythm. `off-first`: no lift after the first refit. `at-once`: each lift but the first
 * follows a refit.
 */
export function sameRhythm(order: Order, rhythm: 'off-first' | 'at-once'): boolean {
  const actions = order.passes.map(({ action }) => action)
  const firstRefit = actions.indexOf('refit')
  if (rhythm === 'off-first') return firstRefit < 0 || !actions.slice(firstRefit).includes('lift')
  return actions.every((action, index) => action !== 'lift' || index === 0 || actions[index - 1] === 'refit')
}
