/** Invoices by hand: lines, discounts, tax by total and by line, to the hundredth. */
import { fc, test as prop } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import {
  type Invoice,
  type InvoiceLine,
  invoiceSchema,
  nextInvoice,
  nextInvoiceNumber,
  totalsOf,
} from '../../src/case/index.ts'

const line = (quantity: number, price: number, change: Partial<InvoiceLine> = {}): InvoiceLine => ({
  what: 'part',
  unit: 'piece',
  quantity,
  price,
  discountPct: 0,
  ...change,
})
const invoice = (lines: InvoiceLine[], change: Partial<Invoice> = {}): Invoice =>
  invoiceSchema.parse({ number: '2026-0001', on: '2026-03-20', lines, ...change })

describe('lines', () => {
  test.each([
    // 100 min at 60 an hour are 100; 1.67 h would be 100.20
    ['100 min at 60 an hour', line(100, 60, { unit: 'minutes' }), 100],
    // 50 / 60 · 64.90 = 54.083…
    ['50 min at 64.90 an hour', line(50, 64.9, { unit: 'minutes' }), 54.08],
    ['2 pieces at 17.35', line(2, 17.35), 34.7],
    // 1.5 · 0.35 = 0.525: a half goes up
    ['1.5 pieces at 0.35', line(1.5, 0.35), 0.53],
    // 3 · 1.15 = 3.45, which binary numbers put at 3.4499999999999997
    ['3 pieces at 1.15', line(3, 1.15), 3.45],
    ['15 with 10 % less', line(1, 15, { discountPct: 10 }), 13.5],
    // 2 · 9.99 · 0.875 = 17.4825
    ['2 pieces at 9.99 with 12.5 % less', line(2, 9.99, { discountPct: 12.5 }), 17.48],
  ])('%s', (_, each, net) => {
    expect(totalsOf(invoice([each])).nets).toEqual([net])
  })
})

describe('tax', () => {
  /** Three parts at 0.33 with 19 %: 0.99 · 0.19 = 0.1881, but 0.33 · 0.19 = 0.0627 three times. */
  const thirds = [line(1, 0.33), line(1, 0.33), line(1, 0.33)]

  test('by the total: 0.19', () => {
    expect(totalsOf(invoice(thirds, { taxPct: 19 }))).toMatchObject({ net: 0.99, tax: 0.19, gross: 1.18 })
  })

  test('by line: 3 · 0.06 = 0.18', () => {
    expect(totalsOf(invoice(thirds, { taxPct: 19, taxRounding: 'line' }))).toMatchObject({
      net: 0.99,
      tax: 0.18,
      gross: 1.17,
    })
  })

  // EN 16931-1:2017, BR-CO-10 and BR-CO-17: line nets are rounded, then added; tax is net times rate, rounded
  test('184.70 with 10 % off and 19 % on: 184.70 − 18.47 = 166.23; · 0.19 = 31.5837; together 197.81', () => {
    const lines = [line(150, 60, { unit: 'minutes' }), line(2, 17.35)]
    expect(totalsOf(invoice(lines, { discountPct: 10, taxPct: 19 }))).toEqual({
      nets: [150, 34.7],
      discount: 18.47,
      net: 166.23,
      tax: 31.58,
      gross: 197.81,
    })
  })

  test('by line the discount takes its own tax off: 28.50 + 6.59 − 3.51 = 31.58', () => {
    // 150 · 0.19 = 28.50; 34.70 · 0.19 = 6.593; 18.47 · 0.19 = 3.5093
    const lines = [line(150, 60, { unit: 'minutes' }), line(2, 17.35)]
    expect(totalsOf(invoice(lines, { discountPct: 10, taxPct: 19, taxRounding: 'line' })).tax).toBe(31.58)
  })

  test('a rate with a fraction: 8.1 % of 99.99 is 8.09919', () => {
    expect(totalsOf(invoice([line(1, 99.99)], { taxPct: 8.1 }))).toMatchObject({ tax: 8.1, gross: 108.09 })
  })

  test('no line, no money', () => {
    expect(totalsOf(invoice([], { taxPct: 19 }))).toEqual({ nets: [], discount: 0, net: 0, tax: 0, gross: 0 })
  })
})

const anyLine = fc.record({
  quantity: fc.integer({ min: 1, max: 5000 }).map((n) => n / 1000),
  price: fc.integer({ min: 0, max: 100_000 }).map((n) => n / 100),
  discountPct: fc.integer({ min: 0, max: 100 }),
})

prop.prop([fc.array(anyLine, { maxLength: 20 }), fc.integer({ min: 0, max: 25 })])(
  'net and tax are the total, and the two ways of rounding differ by at most half a hundredth a line and one',
  (lines, taxPct) => {
    const of = (taxRounding: 'total' | 'line') =>
      totalsOf(
        invoice(
          lines.map((each) => line(each.quantity, each.price, each)),
          { taxPct, taxRounding },
        ),
      )
    const [whole, single] = [of('total'), of('line')]
    const hundredths = (value: number): number => Math.round(value * 100)
    expect(hundredths(whole.net) + hundredths(whole.tax)).toBe(hundredths(whole.gross))
    expect(hundredths(single.net) + hundredths(single.tax)).toBe(hundredths(single.gross))
    expect(Math.abs(hundredths(whole.tax) - hundredths(single.tax))).toBeLessThanOrEqual(lines.length / 2 + 1)
  },
)

test('numbers run on within a year and begin anew with the next', () => {
  expect(nextInvoiceNumber({ lastInvoice: undefined }, '2026-03-20')).toBe('2026-0001')
  const last = nextInvoice({ year: 2026, number: 16 }, '2026-12-31')
  expect(last).toEqual({ year: 2026, number: 17 })
  expect(nextInvoiceNumber({ lastInvoice: last }, '2026-12-31')).toBe('2026-0018')
  expect(nextInvoiceNumber({ lastInvoice: last }, '2027-01-02')).toBe('2027-0001')
})
