/** On the twelve-package board: what the sum over all ways says, against the march from the spot itself. */
import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, test } from 'vitest'
import { gridOver, polygonContains, seededRandom } from '../../src/base/index.ts'
import { type BoardModel, readBoard } from '../../src/board/index.ts'
import {
  createReachEngine,
  fillPolygon,
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
  // An area that was seen and a point that is sure leave what is drawn of shut gaps: one body in seven, and what its liquid
  // does elsewhere.
  test.each([
    ['lay flat', {}, 1.5],
    ['was mounted', { downDeg: 270 }, 1.5],
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
      for (const { x, y } of points(6)) {
        const result = unwrap(
          engine.reach(spill(x, y, { sdMm: 0, amount: { smearCm2: 4 }, amountSdLog: 0, ...more }), [], coolant),
        )
        const field = result.fields[0]
        expect(field?.grid).toEqual(grid)
        for (const [i, region] of model.regions.entries()) {
          if (region.side !== 'top') continue
          const nearest = Math.min(...(cellsOf[i] ?? []).map((cell) => field?.effortMm[cell] ?? Infinity))
          if (Math.abs(nearest - result.radiusMm) < bandMm) continue
          compared++
          const probability = result.regions[i]?.probability
          if (nearest < result.radiusMm) expect(probability).toBeGreaterThan(0.6)
          else expect(probability).toBeLessThan(0.3)
        }
      }
      expect(compared).toBeGreaterThan(250)
    },
  )

  test.each([
    ['flat', {}],
    ['mounted', { downDeg: 270 }],
  ])('preparing for a card that was %s changes no probability', (_how, more) => {
    const prepared = createReachEngine(model)
    unwrap(prepared.prepare(spill(100, 60, { sdMm: 20, ...more }), [], coolant))
    const unprepared = createReachEngine(model)
    for (const { x, y } of points(2)) {
      const mark = spill(x, y, { sdMm: 20, ...more })
      expect(pick(unwrap(prepared.reach(mark, [], coolant)))).toEqual(pick(unwrap(unprepared.reach(mark, [], coolant))))
    }
  })
})
