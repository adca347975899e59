/** Which rhythm an order has: everything off before anything goes back, or each part back before the next comes off. */
import type { Order } from './problem.ts'

/** Whether an order keeps a rhythm. `off-first`: no lift after the first refit. `at-once`: no lift right after a lift. */
export function sameRhythm(order: Order, rhythm: 'off-first' | 'at-once'): boolean {
  const actions = order.passes.map(({ action }) => action)
  if (rhythm === 'off-first') return !actions.slice(actions.indexOf('refit')).includes('lift')
  return !actions.some((action, index) => action === 'lift' && actions[index - 1] === 'lift')
}
