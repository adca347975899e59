/** The ground under a substance: bodies at any angle, what is sealed, dams, holes, edges, the other side. */
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cellAt, cellCentre, cellCount, type Point, unplacePoint } from '../../src/base/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import { type BodyRule, buildTerrain, type Terrain } from '../../src/spill/index.ts'
import { partWithRegion, spillBoard } from '../support/board-fixture.ts'

function terrainOf(model: BoardModel, bodies: BodyRule = 'wicked', more: object = {}): Terrain {
  return buildTerrain(model, { sides: ['top'], bodies, maskFilmMm: 2.7, dams: [], cellMm: 1, ...more })
}

const at = (terrain: Terrain, x: number, y: number): number => cellAt(terrain.grid, { x, y })
const slowness = (terrain: Terrain, x: number, y: number): number => terrain.slowness[at(terrain, x, y)] ?? -1

describe('a body', () => {
  test('covers exactly the cells whose centres lie in its turned outline', () => {
    fc.assert(
      fc.property(fc.integer({ min: -180, max: 180 }), fc.double({ min: 3, max: 14, noNaN: true }), (turn, widthMm) => {
        const body = { widthMm, lengthMm: 9, heightMm: 1 }
        const model = spillBoard(50, 40, [partWithRegion('U1', 24.3, 19.8, { rotationDeg: turn, body })])
        const terrain = terrainOf(model)
        const part = model.partByRef.get('U1')
        const wrong: number[] = []
        for (let cell = 0; cell < cellCount(terrain.grid); cell++) {
          const local = unplacePoint(
            cellCentre(terrain.grid, cell),
            part?.placement ?? { at: { x: 0, y: 0 }, rotationDeg: 0, mirrored: false },
          )
          const inside = Math.abs(local.x) < widthMm / 2 - 1e-6 && Math.abs(local.y) < 4.5 - 1e-6
          const outside = Math.abs(local.x) > widthMm / 2 + 1e-6 || Math.abs(local.y) > 4.5 + 1e-6
          const bystander = cellCentre(terrain.grid, cell).x < 3
          const under = terrain.underBody[cell] === 1
          if ((inside && !under) || (outside && under && !bystander)) wrong.push(cell)
        }
        expect(wrong).toEqual([])
      }),
      { numRuns: 30 },
    )
  })

  test('that wicks is easier to cross and holds its gap', () => {
    const terrain = terrainOf(spillBoard(50, 40, [partWithRegion('U1', 25, 20)]))
    // The stated assumption: √(gap / free height).
    expect(slowness(terrain, 25, 20)).toBeCloseTo(Math.sqrt(0.3 / 2.7), 5)
    expect(terrain.filmMm[at(terrain, 25, 20)]).toBeCloseTo(0.3, 5)
    expect(slowness(terrain, 10, 10)).toBe(1)
    expect(terrain.filmMm[at(terrain, 10, 10)]).toBeCloseTo(2.7, 5)
  })

  test.each([
    ['edge-bonded', { bonding: 'edge' as const }],
    ['underfilled', { bonding: 'underfill' as const }],
    ['seated on the mask', { standoffMm: 0 }],
    ['a connector', { kind: 'connector' as const }],
  ])('that is %s lets nothing under it, pressed or not', (_how, more) => {
    const model = spillBoard(50, 40, [partWithRegion('U1', 25, 20, more)])
    for (const rule of ['wicked', 'entered', 'kept-out'] as const) {
      expect(slowness(terrainOf(model, rule), 25, 20)).toBe(Infinity)
    }
  })

  test('keeps out what does not wet, unless it is pressed', () => {
    const model = spillBoard(50, 40, [partWithRegion('U1', 25, 20)])
    expect(slowness(terrainOf(model, 'kept-out'), 25, 20)).toBe(Infinity)
    expect(slowness(terrainOf(model, 'entered'), 25, 20)).toBe(1)
  })

  test('stands only on its own side', () => {
    const model = spillBoard(50, 40, [partWithRegion('U1', 25, 20, { side: 'bottom' })])
    expect(slowness(terrainOf(model), 25, 20)).toBe(1)
    expect(slowness(terrainOf(model, 'wicked', { sides: ['bottom'] }), 25, 20)).toBeLessThan(1)
  })
})

describe('the board', () => {
  const holes = [
    { at: { x: 10, y: 30 }, diameterMm: 4 },
    { at: { x: 15, y: 30 }, diameterMm: 0.4 },
    {
      polygon: [
        { x: 30, y: 5 },
        { x: 40, y: 5 },
        { x: 40, y: 12 },
        { x: 30, y: 12 },
      ],
    },
  ]
  const model = spillBoard(50, 40, [], holes)

  test('ends at its edge, its cut-outs and its open holes; a via does not count', () => {
    const terrain = terrainOf(model)
    for (const [x, y] of [
      [-0.5, 20],
      [50.5, 20],
      [35, 8],
      [10, 30],
    ] as const) {
      expect(slowness(terrain, x, y)).toBe(Infinity)
    }
    expect(slowness(terrain, 15, 30)).toBe(1)
  })

  test('says where something that lands on a wall gets onto it, and that off the board there is no such place', () => {
    const terrain = terrainOf(spillBoard(50, 40, [partWithRegion('U1', 25, 20)]), 'kept-out')
    const landing = terrain.landing[at(terrain, 28, 20)] ?? -1
    expect(terrain.slowness[landing]).toBe(1)
    expect(cellCentre(terrain.grid, landing).x).toBeGreaterThan(29)
    expect(terrain.landing[at(terrain, -0.5, 20)]).toBe(-1)
  })

  test('leads to its other side along edges and through open holes, and nowhere else', () => {
    const terrain = terrainOf(model, 'wicked', { sides: ['top', 'bottom'] })
    const cells = cellCount(terrain.grid)
    const leads = (x: number, y: number): boolean => terrain.links?.[at(terrain, x, y)] === cells + at(terrain, x, y)
    expect(leads(0.5, 20)).toBe(true)
    expect(leads(29.5, 8)).toBe(true)
    expect(leads(12.5, 30)).toBe(true)
    expect(leads(15, 30)).toBe(false)
    expect(leads(25, 25)).toBe(false)
    expect(terrain.linkEffortMm).toBe(model.description.thicknessMm)
  })
})

const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) < 1e-9

describe('a dam', () => {
  test('blocks every cell that it touches, each sharing an edge with the next', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 45, noNaN: true }),
        fc.double({ min: 5, max: 35, noNaN: true }),
        fc.double({ min: 5, max: 45, noNaN: true }),
        fc.double({ min: 5, max: 35, noNaN: true }),
        (x1, y1, x2, y2) => {
          const path: Point[] = [
            { x: x1, y: y1 },
            { x: x2, y: y2 },
          ]
          const terrain = terrainOf(spillBoard(50, 40), 'wicked', { dams: [{ side: 'top', path }] })
          const onPath = Array.from({ length: 401 }, (_, i) => ({
            x: x1 + ((x2 - x1) * i) / 400,
            y: y1 + ((y2 - y1) * i) / 400,
          }))
          // a point between two cells belongs to either, by the last digit of its rounding
          const clear = onPath.filter(({ x, y }) => !isWhole(x) && !isWhole(y))
          for (const { x, y } of clear) expect(slowness(terrain, x, y)).toBe(Infinity)
        },
      ),
      { numRuns: 30 },
    )
  })
})
