/** On the twelve-package board: cached fields and interpolated radii against direct marches from the spot itself. */
import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, test } from 'vitest'
import { gridOver, polygonContains, seededRandom } from '../../src/base/index.ts'
import { type BoardModel, readBoard } from '../../src/board/index.ts'
import {
  behaviourOf,
  buildTerrain,
  closeVolume,
  createMarcher,
  createRadiusLattice,
  createReachEngine,
  fillPolygon,
  loadOf,
  marchVolume,
  pointSeeds,
  type RadiusGround,
  type ReachEngine,
  type ReachResult,
  type SpillMark,
} from '../../src/spill/index.ts'
import { spillAt, substanceOf, unwrap } from '../support/board-fixture.ts'

const coolant = substanceOf('coolant-eg')
let model: BoardModel
let engine: ReachEngine

const spill = (x: number, y: number, more: Parameters<typeof spillAt>[2] = {}): SpillMark =>
  spillAt(x, y, { substance: coolant.id, amount: { volumeMl: 1 }, ...more })

const seedsOf: RadiusGround['seeds'] = (terrain, at) => pointSeeds(terrain, 0, at)

const pick = ({ regions, parts, corridors }: ReachResult): object => ({ regions, parts, corridors })

beforeAll(() => {
  model = unwrap(readBoard(readFileSync('boards/hitch-12.json', 'utf8')))
  engine = createReachEngine(model)
})

/** Points on the board about the core, where spills matter. */
function points(count: number): { x: number; y: number }[] {
  const random = seededRandom(12)
  const centre = model.core?.placement.at ?? { x: 0, y: 0 }
  return Array.from({ length: count }, () => ({
    x: centre.x + 110 * (random.next() - 0.5),
    y: centre.y + 100 * (random.next() - 0.5),
  })).filter((point) => polygonContains(model.outline, point))
}

describe('on the twelve-package board', () => {
  // A streak's radius is interpolated on a coarser lattice, and it starts at a cell's centre: hence its wider band.
  test.each([
    ['lay flat', {}, 1.5],
    ['was mounted', { downDeg: 270 }, 2.5],
    ['was mounted askew', { downDeg: 200 }, 2.5],
  ])(
    'that %s, region fields say what a march from the spill says, but for a band about the radius',
    (_how, more, bandMm) => {
      let compared = 0
      const grid = gridOver(model.box, 1, 1)
      const cellsOf = model.regions.map(({ polygon }) => {
        const cells: number[] = []
        fillPolygon(grid, polygon, (cell) => cells.push(cell))
        return cells
      })
      for (const { x, y } of points(25)) {
        const result = unwrap(engine.reach(spill(x, y, { sdMm: 0, amountSdLog: 0, ...more }), [], coolant))
        const field = result.fields[0]
        expect(field?.grid).toEqual(grid)
        for (const [i, region] of model.regions.entries()) {
          if (region.side !== 'top') continue
          const nearest = Math.min(...(cellsOf[i] ?? []).map((cell) => field?.effortMm[cell] ?? Infinity))
          if (Math.abs(nearest - result.radiusMm) < bandMm) continue
          compared++
          expect(result.regions[i]?.probability).toBe(nearest < result.radiusMm ? 1 : 0)
        }
      }
      expect(compared).toBeGreaterThan(1000)
    },
  )

  test.each([
    ['flat', {}],
    ['mounted', { downDeg: 270 }],
  ])('preparing for a card that was %s changes no probability', (_how, more) => {
    const prepared = createReachEngine(model)
    unwrap(prepared.prepare(spill(100, 60, { sdMm: 5, ...more }), [], coolant))
    const unprepared = createReachEngine(model)
    for (const { x, y } of points(4)) {
      const mark = spill(x, y, { sdMm: 5, ...more })
      expect(pick(unwrap(prepared.reach(mark, [], coolant)))).toEqual(pick(unwrap(unprepared.reach(mark, [], coolant))))
    }
  })

  test('interpolated radii are those of a march from the spot, to 3 % at the median and 12 % at the 95th percentile', () => {
    const behaviour = unwrap(behaviourOf(coolant))
    const ground = { sides: ['top' as const], bodies: behaviour.bodies, maskFilmMm: behaviour.filmMm, dams: [] }
    const fine = buildTerrain(model, { ...ground, cellMm: 1 })
    const coarse = buildTerrain(model, { ...ground, cellMm: 2 })
    const lattice = createRadiusLattice({ fine, coarse, layer: 0, seeds: seedsOf, oneCurve: true })
    const load = unwrap(loadOf({ volumeMl: 1 }, coolant, behaviour))
    const marcher = createMarcher(fine)
    const off = points(120)
      .map((at) => {
        const curve = marchVolume(fine, marcher, pointSeeds(fine, 0, at), load, { limitMm: Infinity, beyond: 1 })
        const direct = closeVolume(curve, load)?.radiusMm ?? 0
        return Math.abs(lattice.radiusAt(at, load) / direct - 1)
      })
      .toSorted((a, b) => a - b)
    expect(off[Math.floor(off.length / 2)]).toBeLessThan(0.03)
    expect(off[Math.floor(off.length * 0.95)]).toBeLessThan(0.12)
  })
})
