/** What the lines of an invoice add up to, to the hundredth: exact decimals, rounded only where an invoice rounds. */
import { fromHundredths, nearest, stepsOf } from '../money/decimal.ts'
import type { Invoice, InvoiceLine } from './schema.ts'

export interface InvoiceTotals {
  /** Of each line in order, after its discount. */
  readonly nets: readonly number[]
  /** What the discount on all of it takes off; 0 where there is none. */
  readonly discount: number
  readonly net: number
  readonly tax: number
  readonly gross: number
}

type Reckoned = Pick<Invoice, 'lines' | 'discountPct' | 'taxPct' | 'taxRounding'>

/**
 * Each line is rounded to a hundredth, then they are added (EN 16931-1:2017, rule BR-CO-10). Tax by the total is the
 * rounded product of net and rate (the same, BR-CO-17); tax by line is rounded on each line and on the discount, then
 * added, which may differ by hundredths: the law of the place says which. A half is rounded away from zero.
 */
export function totalsOf({ lines, discountPct, taxPct, taxRounding }: Reckoned): InvoiceTotals {
  const nets = lines.map(netOf)
  const sum = nets.reduce((total, net) => total + net, 0n)
  const discount = nearest(sum * stepsOf(discountPct, 2), 10_000n)
  const net = sum - discount
  const taxOn = (amount: bigint): bigint => nearest(amount * stepsOf(taxPct, 2), 10_000n)
  const byLine = nets.reduce((total, each) => total + taxOn(each), 0n) - taxOn(discount)
  const tax = taxRounding === 'line' ? byLine : taxOn(net)
  return {
    nets: nets.map(fromHundredths),
    discount: fromHundredths(discount),
    net: fromHundredths(net),
    tax: fromHundredths(tax),
    gross: fromHundredths(net + tax),
  }
}

/** A quantity counts to a thousandth, a price to a hundredth. */
function netOf({ unit, quantity, price, discountPct }: InvoiceLine): bigint {
  const full = stepsOf(quantity, 3) * stepsOf(price, 2) * (10_000n - stepsOf(discountPct, 2))
  return nearest(full, 1000n * 10_000n * (unit === 'minutes' ? 60n : 1n))
}
