/** What a list of parts to lift costs on a card whose truth is known, and the plain rules that a list is held against. */
import type { BoardModel } from '../../board/index.ts'
import {
  comebackCost,
  defaultAssumptions,
  defaultPriceBook,
  liftCosts,
  minutesToMoney,
  pricesOf as shopPrices,
} from '../../suspects/index.ts'
import type { Truth } from '../simulator/types.ts'

export interface Prices {
  readonly liftCost: (ref: string) => number
  readonly comeback: number
  /** Of one minute at the bench. */
  readonly minute: number
}

/** The shipped figures, the same for everybody who is compared. */
export function pricesOf(model: BoardModel): Prices {
  const refs = model.parts.map(({ ref }) => ref)
  const shop = shopPrices(defaultAssumptions)
  const costs = liftCosts(model, refs, shop)
  const byRef = new Map(refs.map((ref, index) => [ref, costs[index] ?? 0]))
  return {
    liftCost: (ref) => byRef.get(ref) ?? 0,
    comeback: comebackCost(shop),
    minute: minutesToMoney(1, shop.book),
  }
}

/** The lifts of the list; where a needed part was left, one comeback and the lifts of those. */
export function costOfList({ liftCost, comeback }: Prices, list: readonly string[], needs: readonly string[]): number {
  const missed = needs.filter((ref) => !list.includes(ref))
  const lifts = [...new Set([...list, ...missed])].reduce((sum, ref) => sum + liftCost(ref), 0)
  return missed.length > 0 ? lifts + comeback : lifts
}

/**
 * What one who knows the truth pays by the book of a technician in steps: the lifts that are needed, going once into each
 * fault that no lift puts right, and the run that proves a card before it goes out, whatever was wrong with it.
 */
export function costOfKnowing({ liftCost, minute }: Prices, { needs, damages }: Truth): number {
  const lifts = needs.reduce((sum, ref) => sum + liftCost(ref), 0)
  const beside = damages.filter(({ ref, lanes, lines }) => ref === undefined && lanes.length + lines.length > 0)
  const places = new Set(beside.map(({ cause }) => cause)).size
  const { repairAround, run } = defaultPriceBook.minutes
  return lifts + (repairAround * places + run) * minute
}

export interface PlainLists {
  /** Every memory package that the report names. */
  readonly named: readonly string[]
  /** The same, and the core where it names two or more. */
  readonly namedAndCore: readonly string[]
  /** The same, and the core wherever it names any. */
  readonly ring: readonly string[]
}

/**
 * Lists by what the report names, without any inference; `namedAndCore` adds the core from two named packages on.
 * Empty where no lane fails.
 */
export function plainLists(model: BoardModel, lanes: ReadonlyMap<string, string>): PlainLists {
  const failing = new Set(model.lanes.flatMap(({ id, part }) => (lanes.get(id) === 'fail' ? [part] : [])))
  const named = [...failing]
  const core = model.core === undefined ? [] : [model.core.ref]
  return {
    named,
    namedAndCore: named.length >= 2 ? [...named, ...core] : named,
    ring: named.length >= 1 ? [...named, ...core] : named,
  }
}
