/** The thin sheet against closed forms, published correction factors, and a plain solver. */
import { fc, test as law } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import { distance, type Point } from '../../src/base/index.ts'
import {
  contactAt,
  createShortFinder,
  createSolver,
  directSolver,
  envelopeOf,
  gradientSolver,
  type Sheet,
  sheetMilliohmOf,
  valueAtContact,
} from '../../src/measure/index.ts'
import { box, copperBoard, currentsOf, OUNCE_MILLIOHM, solved } from '../support/copper-board.ts'
import { slowPotentials } from '../support/slow-sheet.ts'

function sheetOf(widthMm: number, heightMm: number, cellMm: number, copper = [box(0, 0, widthMm, heightMm)]): Sheet {
  const finder = createShortFinder(copperBoard({ widthMm, heightMm, copper }), { cellMm })
  const sheets = finder.sheetsFor({ rail: 'VMEM' })
  if (!sheets.ok) throw new Error(JSON.stringify(sheets.faults))
  const sheet = sheets.value.pieces[0]?.sheet
  if (sheet === undefined) throw new Error('no copper')
  return sheet
}

const at = (sheet: Sheet, field: Float64Array, point: Point): number => {
  const contact = contactAt(sheet, point)
  if (contact === undefined) throw new Error('off the copper')
  return valueAtContact(field, contact)
}

test('a square of copper resists as its weight says', () => {
  // IEC 60028 (1925): 0.017241 ohm mm2/m. 35 um: 0.4926 mOhm, 70 um: 0.2463 mOhm a square.
  expect(sheetMilliohmOf(35)).toBeCloseTo(0.4926, 4)
  expect(sheetMilliohmOf(70)).toBeCloseTo(0.2463, 4)
})

test('a strip fed along its ends has length over width squares', () => {
  // R = R_square L / W (definition of resistance per square). 10 x 1 mm of 35 um: 4.926 mOhm.
  const sheet = sheetOf(10, 1, 0.1)
  const ends = Array.from({ length: 10 }, (_, k) => 0.05 + k * 0.1).flatMap((y) => [
    { at: { x: 0.05, y }, ampere: 0.1 },
    { at: { x: 9.95, y }, ampere: -0.1 },
  ])
  const field = solved(sheet, ends)
  // Between the middles of the first and the last cells lie 9.9 mm.
  expect(at(sheet, field, { x: 0.05, y: 0.5 }) - at(sheet, field, { x: 9.95, y: 0.5 })).toBeCloseTo(4.926 * 0.99, 3)
})

describe('copper that touches along an edge is one piece, however it winds', () => {
  const cellsOf = (...copper: readonly Point[][]): number[] => {
    const sheets = createShortFinder(copperBoard({ widthMm: 10, heightMm: 10, copper }), { cellMm: 1 }).sheetsFor({
      rail: 'VMEM',
    })
    return sheets.ok ? sheets.value.pieces.map(({ sheet }) => sheet.cells.length) : []
  }
  // cells of 1 mm², so that a piece has as many as its area in mm²
  test.each<[string, Point[][], number[]]>([
    ['up, over to the left', [box(8, 0, 10, 10), box(0, 8, 8, 10)], [20 + 16]],
    ['up, over to the right and down again', [box(0, 0, 2, 10), box(2, 8, 8, 10), box(8, 0, 10, 10)], [20 + 12 + 20]],
    ['along, up and back', [box(0, 0, 10, 2), box(8, 2, 10, 8), box(0, 8, 10, 10)], [20 + 12 + 20]],
    ['corner to corner only', [box(0, 0, 5, 5), box(5, 5, 10, 10)], [25, 25]],
    ['at the right edge, and a row higher at the left', [box(8, 0, 10, 5), box(0, 5, 3, 10)], [15, 10]],
    ['at the left edge, and a row higher at the right', [box(0, 0, 2, 5), box(7, 5, 10, 10)], [15, 10]],
  ])('%s', (_, copper, cells) => {
    expect(cellsOf(...copper)).toEqual(cells)
  })
})

describe('source and sink of 1 A', () => {
  // Smythe, Static and Dynamic Electricity, ch. VI; Valdes, Proc. IRE 42, 1954: V = (R I / 2 pi) ln(r_sink / r_source),
  // in an infinite sheet; an edge without current through it adds an image of the same sign behind it.
  const potential = (p: Point, sources: readonly { at: Point; ampere: number }[]): number =>
    sources.reduce((sum, s) => sum - (OUNCE_MILLIOHM * s.ampere * Math.log(distance(p, s.at))) / (2 * Math.PI), 0)

  test('in the middle of a wide sheet they make the field of an infinite one', () => {
    const sheet = sheetOf(300, 300, 1)
    const source = { at: { x: 140, y: 150 }, ampere: 1 }
    const sink = { at: { x: 160, y: 150 }, ampere: -1 }
    const field = solved(sheet, [source, sink])
    const a = { x: 145, y: 157 }
    const b = { x: 156, y: 144 }
    const wanted = potential(a, [source, sink]) - potential(b, [source, sink])
    expect(Math.abs(at(sheet, field, a) - at(sheet, field, b) - wanted) / wanted).toBeLessThan(0.01)
  })

  test('beside an edge they make the field of a half plane, by images', () => {
    const sheet = sheetOf(320, 180, 1)
    const source = { at: { x: 150, y: 8 }, ampere: 1 }
    const sink = { at: { x: 172, y: 14 }, ampere: -1 }
    const images = [source, sink].map(({ at: p, ampere }) => ({ at: { x: p.x, y: -p.y }, ampere }))
    const all = [source, sink, ...images]
    const field = solved(sheet, [source, sink])
    const a = { x: 142, y: 3 }
    const b = { x: 180, y: 20 }
    const wanted = potential(a, all) - potential(b, all)
    const withoutEdge = potential(a, [source, sink]) - potential(b, [source, sink])
    const found = at(sheet, field, a) - at(sheet, field, b)
    expect(Math.abs(found / wanted - 1)).toBeLessThan(0.015)
    expect(Math.abs(withoutEdge / wanted - 1)).toBeGreaterThan(0.2)
  })
})

describe('four probes in a row, current through the outer ones, voltage between the inner', () => {
  const factor = (sheet: Sheet, middle: Point, spacingMm: number): number => {
    const probe = (k: number): Point => ({ x: middle.x + (k - 1.5) * spacingMm, y: middle.y })
    const field = solved(sheet, [
      { at: probe(0), ampere: 1 },
      { at: probe(3), ampere: -1 },
    ])
    return OUNCE_MILLIOHM / (at(sheet, field, probe(1)) - at(sheet, field, probe(2)))
  }

  // Smits, Bell Syst. Tech. J. 37, 711-718 (1958): correction factors C for R = C V / I at the middle of a rectangle,
  // d across the row of probes, a along it, s the spacing.
  test.each([
    [1, 5, 3.5098],
    [1, 10, 4.2209],
    [1, 20, 4.4516],
    [2, 5, 3.5749],
    [2, 10, 4.2357],
    [4, 3, 2.7005],
  ])('a/d = %d, d/s = %d gives %d', (aOverD, dOverS, wanted) => {
    const spacing = 10
    const d = dOverS * spacing
    const a = aOverD * d
    const sheet = sheetOf(a, d, 1)
    expect(Math.abs(factor(sheet, { x: a / 2, y: d / 2 }, spacing) / wanted - 1)).toBeLessThan(0.004)
  })

  test('in a round sheet it is as the standard for wafers has it', () => {
    // ASTM F84, table 3: spacing over diameter 0.1 gives 4.171 (Smits 1958: d/s = 10, 4.1716).
    const disc = Array.from({ length: 120 }, (_, k) => ({
      x: 75 + 75 * Math.cos((k * Math.PI) / 60),
      y: 75 + 75 * Math.sin((k * Math.PI) / 60),
    }))
    const sheet = sheetOf(150, 150, 1, [disc])
    expect(Math.abs(factor(sheet, { x: 75, y: 75 }, 15) / 4.171 - 1)).toBeLessThan(0.004)
  })

  test('halving the cells takes the error to a quarter: second order', () => {
    // Against Smits, d/s = 10, a/d = 1: 4.2209 has five digits, so the exact value comes from the image series.
    const errors = [4, 8, 16].map((cells) => {
      const sheet = sheetOf(10 * cells, 10 * cells, 1)
      return Math.abs(factor(sheet, { x: 5 * cells, y: 5 * cells }, cells) - squareFactor(10))
    })
    expect(squareFactor(10)).toBeCloseTo(4.2209, 3)
    const order = Math.log2((errors[0] ?? 0) / (errors[2] ?? 1)) / 2
    expect(order).toBeGreaterThan(1.7)
    expect(order).toBeLessThan(2.4)
  })
})

/** Images in the four edges of a square of side `side` in spacings, summed in rows of ln|sin| (Uhlir, Bell Syst. Tech. J. 34, 1955). */
function squareFactor(side: number): number {
  const row = (x: number, y: number): number =>
    0.5 * Math.log(Math.cosh((Math.PI * y) / side) / 2 - Math.cos((Math.PI * x) / side) / 2)
  const kernel = (p: Point, q: Point): number => {
    let sum = 0
    for (let k = -6; k <= 6; k++)
      for (const sy of [1, -1]) for (const sx of [1, -1]) sum += row(p.x - sx * q.x, p.y - sy * q.y - 2 * k * side)
    return sum
  }
  const probe = (k: number): Point => ({ x: side / 2 + k - 1.5, y: side / 2 })
  const v = (p: Point): number => kernel(p, probe(3)) - kernel(p, probe(0))
  return (2 * Math.PI) / (v(probe(1)) - v(probe(2)))
}

const lShape = [
  [
    { x: 0, y: 0 },
    { x: 14, y: 0 },
    { x: 14, y: 5 },
    { x: 6, y: 5 },
    { x: 6, y: 12 },
    { x: 0, y: 12 },
  ],
]
const shaped = sheetOf(14, 12, 1, lShape)
const anyNode = fc.integer({ min: 0, max: shaped.cells.length - 1 })

describe('on copper of any shape', () => {
  law.prop([anyNode, anyNode], { numRuns: 40, seed: 7 })('what a reads of b, b reads of a', (a, b) => {
    const solver = createSolver(shaped)
    const put = (node: number) => {
      const currents = new Float64Array(shaped.cells.length)
      currents[node] = 1
      return solver.potentials(currents)
    }
    expect(put(a)[b]).toBeCloseTo(put(b)[a] ?? NaN, 9)
  })

  law.prop([anyNode, anyNode, anyNode, fc.double({ min: -5, max: 5, noNaN: true })], { numRuns: 40, seed: 8 })(
    'two currents at once make the sum of their fields',
    (a, b, c, share) => {
      const solver = createSolver(shaped)
      const field = (pairs: readonly (readonly [number, number])[]) => {
        const currents = new Float64Array(shaped.cells.length)
        for (const [node, ampere] of pairs) currents[node] = (currents[node] ?? 0) + ampere
        return solver.potentials(currents)
      }
      const one = field([
        [a, 1],
        [b, -1],
      ])
      const two = field([
        [c, share],
        [b, -share],
      ])
      const both = field([
        [a, 1],
        [c, share],
        [b, -1 - share],
      ])
      for (let i = 0; i < both.length; i++) expect(both[i]).toBeCloseTo((one[i] ?? 0) + (two[i] ?? 0), 8)
    },
  )

  test('the quick solvers agree with each other and with the plain one', () => {
    const currents = currentsOf(shaped, [
      { at: { x: 1.2, y: 11.1 }, ampere: 2 },
      { at: { x: 13.3, y: 0.7 }, ampere: -2 },
    ])
    const direct = directSolver(shaped, envelopeOf(shaped)).potentials(currents)
    const stepwise = gradientSolver(shaped).potentials(currents)
    const slow = slowPotentials(shaped, currents, 1 / OUNCE_MILLIOHM)
    for (let i = 0; i < direct.length; i++) {
      expect(direct[i]).toBeCloseTo(slow[i] ?? NaN, 7)
      expect(stepwise[i]).toBeCloseTo(slow[i] ?? NaN, 7)
    }
  })

  test('as much current crosses any cut as goes in: Kirchhoff', () => {
    const field = solved(shaped, [
      { at: { x: 0.5, y: 11.5 }, ampere: 3 },
      { at: { x: 13.5, y: 0.5 }, ampere: -3 },
    ])
    for (const column of [7, 9, 12]) {
      let crossing = 0
      for (let node = 0; node < field.length; node++) {
        if ((shaped.cells[node] ?? 0) % shaped.grid.columns !== column) continue
        const left = shaped.west[node] ?? -1
        if (left >= 0) crossing += ((field[left] ?? 0) - (field[node] ?? 0)) * (shaped.westPerMilliohm[node] ?? 0)
      }
      expect(crossing).toBeCloseTo(3, 8)
    }
  })
})

test('two pieces of copper that do not touch are two sheets, and a thicker layer over a part of it carries more', () => {
  const apart = createShortFinder(
    copperBoard({ widthMm: 40, heightMm: 10, copper: [box(0, 0, 10, 10), box(20, 0, 40, 10)] }),
    { cellMm: 1 },
  ).sheetsFor({ rail: 'VMEM' })
  expect(apart.ok && apart.value.pieces.map(({ sheet }) => sheet.cells.length)).toEqual([200, 100])
  const stacked = sheetOf(10, 1, 0.5, [box(0, 0, 10, 1), box(5, 0, 10, 1)])
  const currents = currentsOf(stacked, [
    { at: { x: 0.25, y: 0.5 }, ampere: 1 },
    { at: { x: 9.75, y: 0.5 }, ampere: -1 },
  ])
  const field = createSolver(stacked).potentials(currents)
  const single = at(stacked, field, { x: 2.25, y: 0.5 }) - at(stacked, field, { x: 3.75, y: 0.5 })
  const double = at(stacked, field, { x: 6.25, y: 0.5 }) - at(stacked, field, { x: 7.75, y: 0.5 })
  expect(single).toBeCloseTo(1.5 * OUNCE_MILLIOHM, 4)
  expect(double).toBeCloseTo(0.75 * OUNCE_MILLIOHM, 4)
})
