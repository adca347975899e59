/** What lifting a part costs, and what a comeback costs, in the shop's currency: by the price book and the risk of damage. */
import { type BoardModel, partKinds, type PlacedPart } from '../../board/index.ts'
import { type Assumptions, defaultAssumptions } from '../assumptions.ts'
import { type PriceBook, type PriceBookInput, priceBookAt } from '../prices/book.ts'
import { liftWork, minutesToMoney, priceOf, refitWork } from '../prices/work.ts'

export interface Prices {
  readonly book: PriceBook
  readonly risk: Assumptions['risk']
  /** As reasons tell amounts; where left out they stand without one. */
  readonly currency?: string | undefined
}

/** The shop's book at the shop's pace: what a lift takes here over what it takes by the shipped figures. */
export function pricesOf(assumptions: Assumptions, over?: PriceBookInput): Prices {
  return { book: priceBookAt(paceBy(assumptions), over), risk: assumptions.risk }
}

/** How many times as long as shipped a lift takes in this shop, by kind of part. */
export function paceBy({ cost }: Pick<Assumptions, 'cost'>): PriceBook['pace'] {
  const shipped = defaultAssumptions.cost
  return {
    core: cost.minutesPerCoreLift / shipped.minutesPerCoreLift,
    memory: cost.minutesPerMemoryLift / shipped.minutesPerMemoryLift,
    other: cost.minutesPerOtherLift / shipped.minutesPerOtherLift,
  }
}

/** That the part, its pads or those of the board are lost when it is lifted. */
export function riskOfLift({ kind }: PlacedPart, { risk }: Pick<Prices, 'risk'>): number {
  const risks = { core: risk.coreDamage, memory: risk.memoryDamage, other: risk.otherDamage }
  return risks[partKinds[kind].workedAs]
}

/**
 * What losing it costs, in the shop's currency: with a core the card is lost, and what the working card is worth more than
 * what is left; any other part is bought anew.
 */
export function lossMoney(part: PlacedPart, { book }: Pick<Prices, 'book'>): number {
  return part.kind === 'core' ? worthLost(book.money.valueIfFailed, book) : priceOf(part, book)
}

/** What the working card is worth more than this; never less than nothing. */
export const worthLost = (left: number, { money }: Pick<PriceBook, 'money'>): number =>
  Math.max(0, money.valueIfRepaired - left)

/** Packages go back on new balls, anything smaller is replaced. */
export const isReballed = ({ kind }: PlacedPart): boolean => partKinds[kind].onBalls

/** In minutes: lift, clean, make ready, refit, look over. */
export function liftMinutes(part: PlacedPart, { book }: Pick<Prices, 'book'>): number {
  return liftWork(part, book).minutes + refitWork(part, isReballed(part) ? 'reball' : 'replace', book).minutes
}

/** The work on it, a new one where a small part is replaced, and the risk of losing it. */
export function liftCost(part: PlacedPart, prices: Prices): number {
  const { book } = prices
  const off = liftWork(part, book).money
  if (!isReballed(part)) return off + refitWork(part, 'replace', book).money + priceOf(part, book)
  return off + refitWork(part, 'reball', book).money + riskOfLift(part, prices) * lossMoney(part, prices)
}

/** One comeback, whatever was missed: the time for it and the goodwill. */
export const comebackCost = ({ book }: Pick<Prices, 'book'>): number =>
  minutesToMoney(book.money.minutesPerComeback, book) + book.money.comebackGoodwill

/** Cost of lifting each of these parts, in the order given; 0 for a ref that the board does not have. */
export function liftCosts(model: BoardModel, parts: readonly string[], prices: Prices): Float64Array {
  return Float64Array.from(parts, (ref) => {
    const part = model.partByRef.get(ref)
    return part === undefined ? 0 : liftCost(part, prices)
  })
}
