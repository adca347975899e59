/** Where a streak begins: at its point, or where what lands on a closed body first gets onto the board. */
import { expect, test } from 'vitest'
import { buildTerrain, streakStart } from '../../src/spill/index.ts'
import { partWithRegion, spillBoard } from '../support/board-fixture.ts'

// bodies of 8 × 6 mm on a board of 60 × 40 mm: U1 lets water under it, U2 is underfilled
const model = spillBoard(60, 40, [partWithRegion('U1', 15, 20), partWithRegion('U2', 45, 20, { bonding: 'underfill' })])
const ground = { sides: ['top' as const], bodies: 'wicked' as const, dams: [], cellMm: 1, maskFilmMm: 2 }
const terrain = buildTerrain(model, ground)

test.each([
  ['on open ground', { x: 30.2, y: 9.7 }],
  ['in the first cell of the board', { x: 0.3, y: 0.3 }],
  ['on a body that lets it under', { x: 15.2, y: 20.4 }],
  ['off the board', { x: -3, y: 20 }],
])('%s it begins where it landed', (_, at) => {
  expect(streakStart(terrain, at)).toEqual(at)
})

test('on a closed body it begins in the middle of a cell beside it, the nearest there is', () => {
  const { x, y } = streakStart(terrain, { x: 45.2, y: 22.4 })
  // the body ends at y = 23; the next row of cells has its middles at 23.5
  expect(y).toBeCloseTo(23.5, 9)
  expect(Math.abs(x - 45.2)).toBeLessThan(1.5)
  expect(x % 1).toBeCloseTo(0.5, 9)
})
