/** What given lists of parts to lift are expected to cost, with all that is known of one card. */
import { liftQuestion, type Weighed } from '../tell/weighed.ts'
import { comebackCost, liftCosts } from './costs.ts'
import { costOf } from './lift-list.ts'

/** Refs that the board can't have lifted count nothing. */
export function costsOfLists(weighed: Weighed, lists: readonly (readonly string[])[]): number[] {
  const { card, prices } = weighed
  const costs = liftCosts(card.context.model, card.parts, prices)
  const question = liftQuestion(weighed, costs, comebackCost(prices))
  return lists.map((refs) =>
    costOf(
      question,
      [...card.parts.keys()].filter((part) => refs.includes(card.parts[part] ?? '')),
    ),
  )
}
