/** Where a probe can go on a rail, which copper a rail has, and what a hunt refuses or says beyond its place. */
import { describe, expect, test } from 'vitest'
import { type BoardModel, loadBoard } from '../../src/board/index.ts'
import { createShortFinder, huntShort, type ShortHunt } from '../../src/measure/index.ts'
import { box } from '../support/copper-board.ts'
import { smallBoard } from '../support/small-board.ts'

type Parts = ReturnType<typeof smallBoard>['parts']
type Rail = NonNullable<ReturnType<typeof smallBoard>['rails']>[number]

const part = (ref: string, kind: Parts[number]['kind'], x: number, y: number, more: Partial<Parts[number]> = {}) => ({
  ref,
  kind,
  side: 'top' as const,
  at: { x, y },
  body: { widthMm: 1, lengthMm: 1, heightMm: 1 },
  ...more,
})
const pad = (number: string, x: number, net?: string) => ({
  number,
  at: { x, y: 0 },
  widthMm: 0.5,
  lengthMm: 0.5,
  ...(net === undefined ? {} : { net }),
})
function boardOf(parts: Parts, rail: Partial<Rail>, more: object = {}): BoardModel {
  const loaded = loadBoard({
    format: 'liftmap-board',
    version: 1,
    name: 'places',
    outline: box(0, 0, 40, 20),
    parts,
    rails: [{ name: 'VMEM', feeds: parts.map(({ ref }) => ref), ...rail }],
    ...more,
  })
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.faults))
  return loaded.value
}
function sheetsOf(model: BoardModel, more: Partial<ShortHunt> = {}) {
  const sheets = createShortFinder(model, { cellMm: 1 }).sheetsFor({ rail: 'VMEM', ...more })
  if (!sheets.ok) throw new Error(JSON.stringify(sheets.faults))
  return sheets.value
}
const COPPER = [{ layer: 'top', polygon: box(0, 0, 40, 20), thicknessUm: 35 }]
const labelsOn = (model: BoardModel, side: 'top' | 'bottom' = 'top') =>
  sheetsOf(model)
    .pieces[0]?.placesOn(side)
    .map(({ label }) => label) ?? []

describe('a probe goes', () => {
  test('to the points of that side first, by their names', () => {
    const points = [
      { side: 'top', at: { x: 20, y: 10 }, part: 'C1', pad: '2' },
      { side: 'top', at: { x: 22, y: 10 }, part: 'C2' },
      { side: 'bottom', at: { x: 30, y: 10 }, part: 'C3' },
      { side: 'top', at: { x: 24.6, y: 10.2 } },
      { side: 'top', at: { x: 26, y: 10 }, part: 'C4', pad: '' },
    ] as const
    const model = boardOf(
      ['C1', 'C2', 'C3', 'C4'].map((ref, i) => part(ref, 'capacitor', 2 + i, 2)),
      { copper: COPPER, points: [...points].filter((each) => !('pad' in each) || each.pad !== '') },
    )
    expect(labelsOn(model).slice(0, 3)).toEqual(['C1 pad 2', 'C2', 'via or pad near x 25, y 10 mm'])
    expect(labelsOn(model, 'bottom')[0]).toBe('C3')
  })

  test('to pads on the rail’s net, to the middle of two-ended parts without drawn nets, and under no core or memory', () => {
    const model = boardOf(
      [
        part('J1', 'connector', 4, 4, { pads: [pad('1', -1, 'GND'), pad('2', 0, 'VMEM'), pad('3', 1, 'VMEM')] }),
        part('C1', 'capacitor', 10, 4, { pads: [pad('1', -1, 'VMEM'), pad('2', 1, 'GND')] }),
        part('C2', 'capacitor', 16, 4, { pads: [pad('1', -1), pad('2', 1)] }),
        part('C3', 'capacitor', 22, 4, { pads: [pad('1', -1, 'OTHER'), pad('2', 1)] }),
        part('L1', 'inductor', 28, 4),
        part('X1', 'other', 34, 4),
        part('U1', 'core', 8, 14, { pads: [pad('1', 0, 'VMEM')] }),
        part('U2', 'memory', 16, 14, { pads: [pad('1', 0, 'VMEM')] }),
        part('C4', 'capacitor', 24, 14, { side: 'bottom' }),
      ],
      { copper: COPPER },
    )
    expect(labelsOn(model).toSorted()).toEqual(['C1 pad 1', 'C2', 'J1 pad 2', 'J1 pad 3', 'L1'])
  })

  test('over the copper in a sparse grid where fewer than four places are known', () => {
    const three = ['C1', 'C2', 'C3'].map((ref, i) => part(ref, 'capacitor', 4 + 12 * i, 10))
    const found = sheetsOf(boardOf(three, { copper: COPPER })).pieces[0]?.placesOn('top') ?? []
    // 800 cells, every fourth of a row and of a column: the root of 800 / 40 is 4.47
    expect(found).toHaveLength(40)
    expect(found.slice(0, 3).map(({ label }) => label)).toEqual(['C1', 'C3', 'C2'])
    expect(new Set(found.slice(3).map(({ at }) => (at.x - 2.5) % 4))).toEqual(new Set([0]))
    expect(found[3]?.label).toMatch(/^via or pad near x \d+, y \d+ mm$/)
    const four = [...three, part('C4', 'capacitor', 36, 16)]
    expect(labelsOn(boardOf(four, { copper: COPPER })).toSorted()).toEqual(['C1', 'C2', 'C3', 'C4'])
  })

  test('to forty places at most, spread out, and to none twice or off the copper', () => {
    const many = Array.from({ length: 60 }, (_, i) =>
      part(`C${i + 1}`, 'capacitor', 2 + (i % 12) * 3, 2 + Math.floor(i / 12) * 4),
    )
    const labels = labelsOn(boardOf(many, { copper: COPPER }))
    expect(labels).toHaveLength(40)
    // the first, then the one in the far corner
    expect(labels.slice(0, 2)).toEqual(['C1', 'C60'])
    const twice = [
      part('C1', 'capacitor', 4, 4),
      part('C2', 'capacitor', 4, 4),
      ...many.slice(30, 33),
      part('C99', 'capacitor', 38, 18),
    ]
    const half = [{ layer: 'top', polygon: box(0, 0, 30, 14), thicknessUm: 35 }]
    expect(labelsOn(boardOf(twice, { copper: half })).toSorted()).toEqual(['C1', 'C31', 'C32', 'C33'])
  })
})

describe('copper', () => {
  const parts = [part('C1', 'capacitor', 10, 10), part('C2', 'capacitor', 30, 10)]
  const cellsOf = (model: BoardModel) => sheetsOf(model).pieces.map(({ sheet }) => sheet.cells.length)

  test('that is drawn says on which layers, and what overlaps counts as one', () => {
    expect(sheetsOf(boardOf(parts, { copper: COPPER })).copper.said).toBe('Copper as the board draws it (top).')
    const two = [...COPPER, { layer: 'in1', polygon: box(0, 0, 10, 20), thicknessUm: 70 }]
    expect(sheetsOf(boardOf(parts, { copper: [...two, ...COPPER] })).copper.said).toBe(
      'Copper as the board draws it (top, in1). Pieces that overlap count as one sheet, joined by vias everywhere.',
    )
  })

  test('resists by its own thickness, by that of its layer, else as 35 µm; a measured square goes before all', () => {
    // IEC 60028 (1925): 0.017241 ohm mm2/m over 70 um is 0.2463 mOhm a square, over 35 um 0.4926
    const polygon = box(0, 0, 40, 20)
    const layers = { copper: [{ name: 'in1', thicknessUm: 70, fill: 0.5 }] }
    const of = (copper: Rail['copper'], more: Partial<ShortHunt> = {}) =>
      sheetsOf(boardOf(parts, { copper }, layers), more).sheetMilliohm
    expect(of([{ layer: 'top', polygon, thicknessUm: 70 }])).toBeCloseTo(0.2463, 4)
    expect(of([{ layer: 'in1', polygon }])).toBeCloseTo(0.2463, 4)
    expect(of([{ layer: 'top', polygon }])).toBeCloseTo(0.4926, 4)
    expect(
      of([
        { layer: 'top', polygon },
        { layer: 'in1', polygon: box(0, 0, 5, 5) },
      ]),
    ).toBeCloseTo(0.2463, 4)
    expect(of([{ layer: 'top', polygon }], { sheetMilliohm: 0.7 })).toBeCloseTo(0.7, 9)
  })

  test('that is assumed reaches 2 mm beyond the parts, and keeps off holes, cut-outs and the edge', () => {
    // the hull of two bodies of 1 mm, 20 mm apart, with 2 mm around: 25 by 5 mm
    const whole = boardOf(parts, {})
    expect(sheetsOf(whole).copper.said).toBe(
      'Assumed copper: the board does not draw this rail’s, so one plane of 35 µm under and between all its parts is taken. The place is only as good as that.',
    )
    expect(cellsOf(whole)).toEqual([125])
    // cells have their middles at 8, 9, 10 and so on: a cut-out from 14.6 to 15.4 takes a column of five and leaves 17 and 7
    expect(cellsOf(boardOf(parts, {}, { holes: [{ polygon: box(14.6, 0.6, 15.4, 19.4) }] }))).toEqual([85, 35])
    // a hole of 1 mm in the middle of a cell, with 0.3 mm around it, takes that cell alone; of 1.5 mm its four neighbours too
    const hole = (diameterMm: number) => cellsOf(boardOf(parts, {}, { holes: [{ at: { x: 20, y: 10 }, diameterMm }] }))
    expect([hole(1), hole(1.5)]).toEqual([[124], [120]])
    expect(cellsOf(boardOf([part('C1', 'capacitor', 0.5, 10), part('C2', 'capacitor', 20.5, 10)], {}))).toEqual([115])
  })

  test('is missing where nothing of the rail is on the board', () => {
    const model = boardOf(parts, { feeds: [] })
    expect(createShortFinder(model).sheetsFor({ rail: 'VMEM' })).toEqual({
      ok: false,
      faults: [
        {
          path: 'rail VMEM',
          found: 'neither copper nor parts on the board',
          expected: 'copper to search in',
          todo: 'Draw the rail’s copper in the board description.',
        },
      ],
    })
    expect(createShortFinder(model).sheetsFor({ rail: 'VDD' })).toEqual({
      ok: false,
      faults: [
        {
          path: 'the hunt’s rail',
          found: 'VDD',
          expected: 'a rail of this board',
          todo: 'Start the hunt again on a rail of this board.',
        },
      ],
    })
  })

  test('is made once for a rail and a resistance, of the last three asked for', () => {
    const finder = createShortFinder(boardOf(parts, { copper: COPPER }), { cellMm: 1 })
    const of = (sheetMilliohm?: number) => {
      const sheets = finder.sheetsFor({ rail: 'VMEM', sheetMilliohm })
      return sheets.ok ? sheets.value : undefined
    }
    const [weight, first, second] = [of(), of(0.1), of(0.2)]
    expect([of() === weight, of(0.1) === first, of(0.2) === second]).toEqual([true, true, true])
    of(0.3)
    expect([of(0.1) === first, of(0.2) === second, of() === weight]).toEqual([true, true, false])
  })
})

describe('a hunt', () => {
  const hunt = (model: BoardModel, more: Partial<ShortHunt> = {}) =>
    huntShort(createShortFinder(model, { cellMm: 1 }), {
      id: 'h',
      rail: 'VMEM',
      side: 'top',
      currentA: 10,
      sourceAt: { x: 2, y: 10 },
      readings: [],
      noiseMillivolt: 0.02,
      ...more,
    })

  test('from a point off the copper is refused in a whole sentence', () => {
    const half = [{ layer: 'top', polygon: box(0, 0, 30, 14), thicknessUm: 35 }]
    expect(hunt(boardOf([part('C1', 'capacitor', 4, 4)], { copper: half }), { sourceAt: { x: 38, y: 7.25 } })).toEqual({
      ok: false,
      faults: [
        {
          path: 'where the current goes in',
          found: 'x 38.0, y 7.3 mm, off the copper of VMEM',
          expected: 'a point within 3 mm of the rail’s copper',
          todo: 'Choose one of the rail’s points, or draw its copper in the board description.',
        },
      ],
    })
  })

  test('leaves out with a sentence what is read at the contact, off the copper, or on another piece', () => {
    const two = [box(0, 0, 20, 20), box(30, 0, 40, 12)].map((polygon) => ({ layer: 'top', polygon, thicknessUm: 35 }))
    const model = boardOf([part('C1', 'capacitor', 4, 4)], { copper: two })
    const places = [
      { x: 3.9, y: 10 },
      { x: 4, y: 10 },
      { x: 24.5, y: 10 },
      { x: 35, y: 10 },
    ]
    const found = hunt(model, { readings: places.map((at) => ({ at, millivolt: 1 })) })
    expect(found.ok && found.value.readings.map(({ refused }) => refused)).toEqual([
      'x 3.9, y 10.0 mm is where the current goes in: the contact’s own drop hides the copper’s. Left out.',
      undefined,
      'x 24.5, y 10.0 mm is not on this rail’s copper: left out.',
      'x 35.0, y 10.0 mm is on another piece of this rail’s copper than the current goes into: left out.',
    ])
  })

  test.each([
    ['inductor', true],
    ['power-stage', true],
    ['capacitor', false],
    ['other', false],
  ] as const)('that points at a part of kind %s warns of what lies beyond: %s', (kind, warns) => {
    const model = boardOf([part('Z1', kind, 32, 10), part('C1', 'capacitor', 6, 4)], { copper: COPPER })
    // the short is far to the right: what is read falls by R · I / 20 mm, 10 A · 0.4926 mΩ / 20, for each mm until there
    const at = [6, 10, 14, 18, 22, 26].map((x) => ({ x, y: 10 }))
    const found = hunt(model, { readings: at.map((p) => ({ at: p, millivolt: 20 - 0.2463 * p.x })) })
    if (!found.ok) throw new Error(JSON.stringify(found.faults))
    expect([found.value.verdict, found.value.parts[0]?.ref]).toEqual(['place', 'Z1'])
    const sentence =
      'The likeliest part, Z1, joins this copper to more: the short may lie beyond it. Check its other side before lifting anything.'
    expect(found.value.said.includes(sentence)).toBe(warns)
  })

  test('of readings that do not tell says why in whole sentences', () => {
    const model = boardOf([part('C1', 'capacitor', 6, 4)], { copper: COPPER })
    const at = [6, 14, 22, 30].map((x) => ({ x, y: 10 }))
    const said = (more: Partial<ShortHunt>) => {
      const found = hunt(model, more)
      return found.ok ? [found.value.verdict, found.value.said[0]] : []
    }
    const same = at.map((p) => ({ at: p, millivolt: 3 }))
    expect(said({ readings: same.slice(0, 1) })).toEqual([
      'too-few',
      'Two readings at least: one alone says nothing, since the drop in the short itself and in the leads is not known.',
    ])
    expect(said({ readings: same, currentA: 0.01 })).toEqual([
      'weak',
      'With 0.01 A all places of the short would read nearly the same: the current is too small, or the points are too close together, to tell where it sinks.',
    ])
    expect(said({ readings: same })).toEqual([
      'flat',
      'All readings are the same within their noise, where most places of a short would make them differ. Either it sinks the current close to where that goes in, or the current does not flow in this copper: it may leave by a stage or an inductor beside the point of injection.',
    ])
  })
})
