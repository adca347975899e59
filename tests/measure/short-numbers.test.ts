/** The small sums under the search for a short, against closed forms and figures worked by hand. */
import { describe, expect, test } from 'vitest'
import {
  chiSquareTail,
  contactAt,
  createShortFinder,
  envelopeOf,
  parseMillivolt,
  sumOutScale,
  valueAtContact,
} from '../../src/measure/index.ts'
import { box, copperBoard } from '../support/copper-board.ts'

// Abramowitz and Stegun, 26.4.4 and .5: for an even freedom the tail is e^(-x/2) · Σ (x/2)^k / k!, k up to freedom / 2 - 1
test.each([0.01, 0.5, 1, 2, 3, 4, 5, 8, 12, 30, 80])('chi-square above %d is as the closed forms have it', (x) => {
  for (const freedom of [2, 4, 6, 10, 20]) {
    let term = 1
    let sum = 0
    for (let k = 0; k < freedom / 2; k++) {
      sum += term
      term *= x / 2 / (k + 1)
    }
    expect(chiSquareTail(x, freedom) / (Math.exp(-x / 2) * sum)).toBeCloseTo(1, 10)
  }
  // of an odd freedom two steps further add (x/2)^(freedom/2) · e^(-x/2) / Γ(freedom/2 + 1); Γ(3/2) is √π / 2, Γ(5/2) 3 √π / 4
  const step = Math.exp(-x / 2) * Math.sqrt(x / 2)
  const root = Math.sqrt(Math.PI)
  expect(chiSquareTail(x, 3) - chiSquareTail(x, 1)).toBeCloseTo(step / (root / 2), 12)
  expect(chiSquareTail(x, 5) - chiSquareTail(x, 3)).toBeCloseTo((step * (x / 2)) / ((3 * root) / 4), 12)
})

test('of nothing or less chi-square is always above', () => {
  expect([chiSquareTail(0, 1), chiSquareTail(-1, 3), chiSquareTail(0, 4)]).toEqual([1, 1, 1])
})

describe('the likeliest scale', () => {
  test('is where the slope b · e^u - a · e^2u - u / sd² is 0, as narrow as the curve bends there', () => {
    for (const [a, b, sd] of [
      [40, 55, 0.25],
      [40, 20, 0.25],
      [3, 9, 0.1],
      [200, 200, 0.05],
      [5, -4, 0.25],
      [0, 0, 0.2],
    ] as const) {
      const { u, uVariance } = sumOutScale(a, b, sd)
      expect(b * Math.exp(u) - a * Math.exp(2 * u) - u / sd ** 2).toBeCloseTo(0, 5)
      expect(1 / uVariance).toBeCloseTo(1 / sd ** 2 - b * Math.exp(u) + 2 * a * Math.exp(2 * u), 6)
    }
  })

  test('that is known to be 1 leaves the plain weight', () => {
    expect(sumOutScale(6, 5, 0)).toEqual({ logEvidence: 2, u: 0, uVariance: 0 })
    expect(sumOutScale(0, 0, 0.25).logEvidence).toBeCloseTo(0, 9)
  })
})

describe('a contact', () => {
  const sheets = createShortFinder(copperBoard({ widthMm: 4, heightMm: 3, copper: [box(0, 0, 4, 3)] }), {
    cellMm: 1,
  }).sheetsFor({ rail: 'VMEM' })
  const sheet = sheets.ok ? sheets.value.pieces[0]?.sheet : undefined
  if (sheet === undefined) throw new Error('no copper')
  const touched = (x: number, y: number) => {
    const contact = contactAt(sheet, { x, y })
    return contact?.nodes.map((node, i) => [sheet.cells[node], Number((contact.weights[i] ?? 0).toFixed(9))])
  }

  // cells of 1 mm, four in a row, numbered from the lower left
  test('touches the four cells around it, by how near each middle is', () => {
    expect(touched(1.25, 1.75)).toEqual([
      [4, 0.25 * 0.75],
      [5, 0.75 * 0.75],
      [8, 0.25 * 0.25],
      [9, 0.75 * 0.25],
    ])
    expect(touched(1.5, 1.5)).toEqual([[5, 1]])
    expect(touched(2, 1.5)).toEqual([
      [5, 0.5],
      [6, 0.5],
    ])
  })

  test('at an edge touches those that there are, and off it the nearest up to 3 mm', () => {
    expect(touched(0.1, 1.75)).toEqual([
      [4, 0.75],
      [8, 0.25],
    ])
    expect(touched(3.9, 0.1)).toEqual([[3, 1]])
    expect(touched(-2.5, 0.5)).toEqual([[0, 1]])
    expect(touched(-2.51, 0.5)).toBeUndefined()
    expect(touched(6.5, 2.5)).toEqual([[11, 1]])
    expect(touched(3.5, -2.51)).toBeUndefined()
  })

  test('reads the mean of what they have, by the same weights', () => {
    const field = Float64Array.from(sheet.cells, (cell) => 10 * cell)
    const contact = contactAt(sheet, { x: 1.25, y: 1.75 })
    // 40 · 3/16 + 50 · 9/16 + 80 · 1/16 + 90 · 3/16
    expect(contact && valueAtContact(field, contact)).toBeCloseTo((120 + 450 + 80 + 270) / 16, 9)
  })

  test('lines run along the shorter side, so that each row of the factor begins at the cell one line before', () => {
    // three cells in a column: node 4, the second of the second column, is joined to nodes 3 and 1
    const { first, at } = envelopeOf(sheet)
    expect([...first]).toEqual([0, 0, 1, 0, 1, 2, 3, 4, 5, 6, 7, 8])
    // rows hold 1, 2, 2, then 4 values each
    expect([...at]).toEqual([0, 2, 4, 8, 12, 16, 20, 24, 28, 32, 36, 40])
  })
})

test.each([
  ['12.4 mV', 12.4],
  ['12.4MV', 12.4],
  ['12.4m', 12.4],
  ['2 V', 2000],
  ['-380 uV', -0.38],
  ['380u', 0.38],
  ['380 μV', 0.38],
  ['1e-3 V', 1],
  ['100 V', 100_000],
  ['-100 V', -100_000],
  ['100.1 V', undefined],
  ['-100.1 V', undefined],
  ['12 kV', undefined],
  ['mV', undefined],
  ['12 mV x', undefined],
  ['x 12 mV', undefined],
])('%s typed is %s mV', (typed, millivolt) => {
  const found = parseMillivolt(typed)
  if (millivolt === undefined) expect(found).toBeUndefined()
  else expect(found).toBeCloseTo(millivolt, 9)
})
