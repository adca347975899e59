/** Changes of the stock as plain functions: taking for a case, giving back, using up, what was ordered arriving. */
import { bad, good, type Result, say } from '../../base/index.ts'
import type { Case } from '../schema.ts'
import { freeFor, takenFor } from './need.ts'
import { type StockItem, stockItemSchema } from './schema.ts'

export interface ForCase {
  readonly caseId: string
  /** As the shop calls it: number or title. */
  readonly card: string
}

/** More pieces of an item taken for a case. Refuses more than are free. */
export function takeForCase(item: StockItem, { caseId, card }: ForCase, count: number): Result<StockItem> {
  const more = freeFor(item, caseId) - takenFor(item, caseId)
  if (!Number.isInteger(count) || count < 1 || count > more)
    return bad({
      path: item.what,
      found: say('{count} to take', { count }),
      expected: say('1 to {more} that nobody has taken', { more: Math.max(0, more) }),
      todo: say('Order more, or take back what another card holds.'),
    })
  const others = item.reserved.filter((each) => each.caseId !== caseId)
  return good({ ...item, reserved: [...others, { caseId, card, count: takenFor(item, caseId) + count }] })
}

/** What a case has taken goes back into its place. */
export const giveBack = (item: StockItem, caseId: string): StockItem => ({
  ...item,
  reserved: item.reserved.filter((each) => each.caseId !== caseId),
})

/** What a case has taken was used: the count falls by it. */
export const usedUp = (item: StockItem, caseId: string): StockItem => ({
  ...giveBack(item, caseId),
  count: Math.max(0, item.count - takenFor(item, caseId)),
})

/** So many used pieces come back, to lie ready for the same case: what was billed is not. */
export const broughtBack = (item: StockItem, { caseId, card }: ForCase, count: number): StockItem => ({
  ...item,
  count: item.count + count,
  reserved: [
    ...item.reserved.filter((each) => each.caseId !== caseId),
    { caseId, card, count: takenFor(item, caseId) + count },
  ],
})

/** So many pieces are used after all; those that the case holds go first. */
export function usedAgain(item: StockItem, { caseId, card }: ForCase, count: number): StockItem {
  const held = Math.max(0, takenFor(item, caseId) - count)
  return {
    ...item,
    count: Math.max(0, item.count - count),
    reserved: [
      ...item.reserved.filter((each) => each.caseId !== caseId),
      ...(held === 0 ? [] : [{ caseId, card, count: held }]),
    ],
  }
}

/** A line of the stock and how many more of its pieces are used now; below nothing they come back. */
export interface StockMove {
  readonly line: string
  readonly used: number
}

type UsedParts = Case['handBack']['usedParts']

/** What a change of the used parts, by hand or by undo, means for the stock. */
export function stockMoves(before: UsedParts, now: UsedParts): StockMove[] {
  const moves = new Map<string, number>()
  const add = (parts: UsedParts, sign: 1 | -1): void => {
    for (const { stock } of parts)
      if (stock !== undefined) moves.set(stock.line, (moves.get(stock.line) ?? 0) + sign * stock.count)
  }
  add(now, 1)
  add(before, -1)
  return [...moves].flatMap(([line, used]) => (used === 0 ? [] : [{ line, used }]))
}

/** What stays of a line that is taken out of the list: of a donor's that it was there, of any other nothing. */
export const removedLine = (item: StockItem, on: string): StockItem | undefined =>
  item.source === 'donor' && item.donor !== ''
    ? { ...item, count: 0, ordered: 0, reserved: [], removedOn: on }
    : undefined

/** What was ordered is there. */
export function arrived(item: StockItem): StockItem {
  const { expectedOn: _, ...rest } = item
  return { ...rest, count: item.count + item.ordered, ordered: 0 }
}

/**
 * A line as it was edited, on top of what happened to it meanwhile: only what was changed by hand is taken over.
 * @param released cases whose pieces were put back by hand
 */
export function editedLine(
  now: StockItem,
  before: StockItem,
  after: StockItem,
  released: readonly string[] = [],
): StockItem {
  const reserved = now.reserved.filter(({ caseId }) => !released.includes(caseId))
  const changed = Object.entries(after).filter(([field, value]) => Reflect.get(before, field) !== value)
  const gone = Object.keys(before).filter((field) => !Object.hasOwn(after, field))
  const kept = Object.entries(now).filter(([field]) => !gone.includes(field))
  return stockItemSchema.parse({ ...Object.fromEntries([...kept, ...changed]), reserved })
}

export interface Donor {
  readonly card: string
  /** What was taken from it, in the order of its refs. */
  readonly taken: readonly StockItem[]
}

/** Cards that parts were taken from, each with these; used ones too, and those whose line left the list. */
export function donorsOf(items: readonly StockItem[]): Donor[] {
  const cards = [...new Set(items.flatMap(({ source, donor }) => (source === 'donor' && donor !== '' ? [donor] : [])))]
  const collator = new Intl.Collator('en', { numeric: true })
  return cards.toSorted(collator.compare).map((card) => ({
    card,
    taken: items
      .filter(({ source, donor }) => source === 'donor' && donor === card)
      .toSorted((a, b) => collator.compare(a.donorRef, b.donorRef)),
  }))
}
