/** Zones of a layout as copper of rails: shape, holes, edge, layers. By hand, and a real board's fills by their own area. */
import { readFile } from 'node:fs/promises'
import { describe, expect, it } from 'vitest'
import { boxOf, type Point, polygonContains, signedArea } from '../../src/base/index.ts'
import { type BoardModel, loadBoard, type Rail } from '../../src/board/index.ts'
import { createShortFinder } from '../../src/measure/index.ts'
import { footprintText, imported, layoutText } from '../support/kicad-text.ts'
import { importedFile, kicadTruth, packagedFile } from '../support/kicad-truth.ts'

const FETCH_MS = 300_000

type Corners = readonly (readonly [number, number])[]
const pts = (corners: Corners): string => `(pts ${corners.map(([x, y]) => `(xy ${x} ${y})`).join(' ')})`
const rectangle = (x1: number, y1: number, x2: number, y2: number): Corners => [
  [x1, y1],
  [x2, y1],
  [x2, y2],
  [x1, y2],
]
const zone = (layer: string, edge: Corners, fills: readonly Corners[]): string =>
  `(zone (net 7) (net_name "+1V2") (layer "${layer}") (polygon ${pts(edge)}) ${fills
    .map((fill) => `(filled_polygon (layer "${layer}") ${pts(fill)})`)
    .join(' ')})`

/** A chip and four capacitors on +1V2, spread over the board from (20, 20) to (80, 60). */
const parts = [
  footprintText(
    'U1',
    [
      { number: '1', x: 0, y: 0, net: '+1V2' },
      { number: '2', x: 1, y: 0, net: 'GND' },
      { number: '3', x: 2, y: 0, net: '/A' },
    ],
    { x: 30, y: 30 },
  ),
  ...[
    [20, 20],
    [80, 20],
    [80, 60],
    [20, 60],
  ].map(([x = 0, y = 0], k) =>
    footprintText(
      `C${k + 1}`,
      [
        { number: '1', x: 0, y: 0, net: '+1V2' },
        { number: '2', x: 1, y: 0, net: 'GND' },
      ],
      { x, y },
    ),
  ),
].map((form) => form.replaceAll('(net 1 "+1V2")', '(net 7 "+1V2")').replaceAll('(net 1 "GND")', '(net 8 "GND")'))

interface Drawn {
  readonly model: BoardModel
  readonly rail: Rail
  readonly untold: string
}

async function drawn(zones: readonly string[]): Promise<Drawn> {
  const { description, untold } = await imported(layoutText(['(net 7 "+1V2")', '(net 8 "GND")', ...parts, ...zones]))
  const model = loadBoard(description)
  if (!model.ok) throw new Error(JSON.stringify(model.faults))
  const rail = model.value.rails.find(({ name }) => name === '+1V2')
  if (rail === undefined) throw new Error('no rail')
  return { model: model.value, rail, untold: untold.join('\n') }
}

const areaOf = ({ copper = [] }: Rail): number =>
  copper.reduce((sum, { polygon }) => sum + Math.abs(signedArea(polygon)), 0)
const hasCopperAt = ({ copper = [] }: Rail, x: number, y: number): boolean =>
  copper.some(({ polygon }) => polygonContains(polygon, { x, y }))

describe('a filled zone', () => {
  it('becomes copper of its rail where it lies, on the layer as the user calls it', async () => {
    const { rail } = await drawn([zone('F.Cu', rectangle(10, 10, 90, 70), [rectangle(10, 10, 90, 70)])])
    expect(rail.copper?.map(({ layer }) => layer)).toEqual(['F.Cu'])
    expect(areaOf(rail) / (80 * 60)).toBeCloseTo(1, 1)
    // y points down in the file: 10 to 70 lies between 30 and 90 on a board of 100 mm.
    const box = boxOf(rail.copper?.flatMap(({ polygon }) => polygon) ?? [])
    expect([box.minX, box.maxX, box.minY, box.maxY].map(Math.round)).toEqual([10, 90, 30, 90])
  })

  it('keeps a wide hole, which its maker reaches by a slit, and is one sheet around it', async () => {
    const holed: Corners = [
      [10, 10],
      [90, 10],
      [90, 70],
      [10, 70],
      [10, 40],
      [40, 40],
      [40, 50],
      [60, 50],
      [60, 35],
      [40, 35],
      [40, 40],
      [10, 40],
    ]
    const { rail, model } = await drawn([zone('F.Cu', rectangle(10, 10, 90, 70), [holed])])
    expect(Math.abs(areaOf(rail) - (80 * 60 - 20 * 15)) / 4800).toBeLessThan(0.03)
    expect(hasCopperAt(rail, 50, 100 - 42)).toBe(false)
    expect(hasCopperAt(rail, 25, 100 - 40.2)).toBe(true)
    expect(hasCopperAt(rail, 50, 100 - 60)).toBe(true)
    const sheets = createShortFinder(model).sheetsFor({ rail: '+1V2' })
    expect(sheets.ok && [sheets.value.copper.from, sheets.value.pieces.length]).toEqual(['drawn', 1])
  })

  it('loses no area to the clearance of a via', async () => {
    const pierced: Corners = [
      [10, 10],
      [90, 10],
      [90, 70],
      [10, 70],
      [10, 40],
      [50, 40],
      [50, 41],
      [51, 41],
      [51, 40],
      [50, 40],
      [10, 40],
    ]
    const { rail } = await drawn([zone('F.Cu', rectangle(10, 10, 90, 70), [pierced])])
    expect(rail.copper).toHaveLength(1)
    expect(hasCopperAt(rail, 50.5, 100 - 40.5)).toBe(true)
  })

  it('gives a piece for each layer and each island', async () => {
    const { rail } = await drawn([
      zone('F.Cu', rectangle(10, 10, 90, 70), [rectangle(10, 10, 45, 70), rectangle(55, 10, 90, 70)]),
      zone('B.Cu', rectangle(10, 10, 90, 70), [rectangle(10, 10, 90, 70)]),
    ])
    expect(rail.copper?.map(({ layer }) => layer).toSorted()).toEqual(['B.Cu', 'F.Cu', 'F.Cu'])
  })
})

describe('a zone', () => {
  it('that was never filled is taken by its edge, on the board alone', async () => {
    const { rail } = await drawn([zone('F.Cu', rectangle(-20, -20, 120, 120), [])])
    expect(areaOf(rail) / 10_000).toBeCloseTo(1, 1)
    expect(boxOf(rail.copper?.[0]?.polygon ?? []).minX).toBeGreaterThanOrEqual(-0.05)
  })

  it('that reaches few pads of its rail is not drawn, which is said', async () => {
    const { rail, untold } = await drawn([zone('F.Cu', rectangle(15, 15, 25, 25), [rectangle(15, 15, 25, 25)])])
    expect(rail.copper).toBeUndefined()
    expect(untold).toContain("Zones reach too few pads of these rails, so their copper isn't drawn: +1V2")
  })

  it('of slanting, ragged edges still gives simple polygons of a bounded count of corners', async () => {
    const comb: Corners = [
      [10, 10],
      ...Array.from({ length: 80 }, (_, k): readonly [number, number] => [11 + k, k % 2 === 0 ? 65 : 12]),
      [91, 70],
      [10, 70],
    ]
    const { rail } = await drawn([zone('F.Cu', rectangle(10, 10, 91, 70), [comb])])
    expect((rail.copper ?? []).reduce((sum, { polygon }) => sum + polygon.length, 0)).toBeLessThanOrEqual(1200)
  })
})

interface Fill {
  readonly net: string
  readonly corners: readonly Point[]
}

/** Filled polygons with their nets, by cutting the text at the names of its forms alone. */
function fillsOf(text: string): Fill[] {
  return text
    .split(/\n\s+\(zone\n/)
    .slice(1)
    .flatMap((form) => {
      const net = /\(net_name "([^"]*)"\)/.exec(form)?.[1] ?? ''
      return form
        .split('(filled_polygon')
        .slice(1)
        .map((fill) => ({
          net,
          corners: [...fill.matchAll(/\(xy (\S+) ([^\s)]+)\)/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) })),
        }))
    })
}

describe('vme-wren', () => {
  it('has copper over as much area as the fills of a rail, give or take small holes', {
    timeout: FETCH_MS,
  }, async (context) => {
    const path = await packagedFile(kicadTruth('vme-wren').package, context)
    const fills = fillsOf(await readFile(path, 'utf8'))
    const { rails } = (await importedFile(path)).description
    const shares = ['P1V2', 'P0V85', 'P1V8', 'MGT_1V2', 'VTT_DDR4-PS'].map((net) => {
      const own = fills.filter((fill) => fill.net === net)
      const filledMm2 = own.reduce((sum, { corners }) => sum + Math.abs(signedArea(corners)), 0)
      return rails.filter(({ name }) => name === net).reduce((sum, rail) => sum + areaOf(rail), 0) / filledMm2
    })
    expect(shares.filter((share) => !(share > 0.85 && share < 1.3))).toEqual([])
  })
})
