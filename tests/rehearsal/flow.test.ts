/** The flow is rough by chance, so it is held to what must be true of every one, and of many together. */
import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
import { flowGround, type Pour, pour } from '../../src/rehearsal/index.ts'
import { shippedBoard } from '../support/read-board.ts'

const ground = flowGround(shippedBoard('bowline-8'), 'top')
const at = { x: 228, y: 70 }

const flat: Pour = {
  from: [at],
  volumeMm3: 150,
  bareMm: 1.5,
  gapMm: 0.3,
  underBody: 0.5,
  deepestMm: Infinity,
  downDeg: undefined,
  runs: 0,
  closed: 0,
}

const middleOf = (cells: Uint8Array): { x: number; y: number; count: number } => {
  let x = 0
  let y = 0
  let count = 0
  for (const [cell, wet] of cells.entries()) {
    if (wet !== 1) continue
    x += ground.minX + (cell % ground.columns) + 0.5
    y += ground.minY + Math.floor(cell / ground.columns) + 0.5
    count++
  }
  return { x: x / count, y: y / count, count }
}

const many = (change: Partial<Pour>): { x: number; y: number; count: number }[] =>
  Array.from({ length: 60 }, (_, seed) => middleOf(pour(ground, { ...flat, ...change }, seededRandom(seed)).cells))

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length

describe('the flow of a simulated spill', () => {
  it('wets as much area as its volume covers at its height, on open board', () => {
    for (const { count } of many({})) expect(count).toBe(100)
  })

  it('lies about the point where it landed, on a flat card', () => {
    const flows = many({})
    expect(Math.abs(mean(flows.map(({ x }) => x)) - at.x)).toBeLessThan(0.8)
    expect(Math.abs(mean(flows.map(({ y }) => y)) - at.y)).toBeLessThan(0.8)
  })

  it('runs down on an upright card', () => {
    const flows = many({ downDeg: 270, runs: 0.8 })
    expect(at.y - mean(flows.map(({ y }) => y))).toBeGreaterThan(4)
    expect(Math.abs(mean(flows.map(({ x }) => x)) - at.x)).toBeLessThan(1.5)
  })

  it('never leaves the board, and stays out of bodies whose gap is closed', () => {
    const beside = { x: 100, y: 60 }
    for (let seed = 0; seed < 20; seed++) {
      const { cells } = pour(ground, { ...flat, from: [beside], volumeMm3: 600, closed: 1 }, seededRandom(seed))
      for (const [cell, wet] of cells.entries()) {
        if (wet !== 1) continue
        expect(ground.board[cell]).toBe(1)
        expect(ground.body[cell]).toBe(-1)
      }
    }
  })

  it('is drawn far under a body that is open', () => {
    const beside = { x: 100, y: 60 }
    const under = (closed: number): number => {
      const { cells } = pour(ground, { ...flat, from: [beside], volumeMm3: 200, closed }, seededRandom(4))
      return cells.filter((wet, cell) => wet === 1 && (ground.body[cell] ?? -1) >= 0).length
    }
    expect(under(0)).toBeGreaterThan(80)
    expect(under(1)).toBe(0)
  })
})
