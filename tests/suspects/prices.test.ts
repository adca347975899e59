/** One price book: what a step costs is the same for suspects and plan, and the stated minutes of a lift are the sum of its steps. */
import { describe, expect, test } from 'vitest'
import {
  defaultAssumptions,
  defaultPriceBook,
  liftCost,
  liftMinutes,
  pricesOf,
  shippedPriceBook,
} from '../../src/suspects/index.ts'
import { shippedBoard } from '../support/read-board.ts'

const boards = ['bowline-8', 'hitch-12', 'splice-6', 'cleat-10'].map(shippedBoard)
const prices = pricesOf(defaultAssumptions)

const medianOf = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[values.length >> 1] ?? Number.NaN
const minutesOf = (kind: string): number =>
  medianOf(boards.flatMap(({ parts }) => parts.filter((part) => part.kind === kind).map((p) => liftMinutes(p, prices))))

describe('minutes of a lift', () => {
  test('as stated are the sum of the steps of a common part, within a tenth', () => {
    const { minutesPerCoreLift, minutesPerMemoryLift, minutesPerOtherLift } = defaultAssumptions.cost
    for (const [stated, kind] of [
      [minutesPerCoreLift, 'core'],
      [minutesPerMemoryLift, 'memory'],
      [minutesPerOtherLift, 'power-stage'],
    ] as const)
      expect(Math.abs(minutesOf(kind) / stated - 1), `${kind}: ${minutesOf(kind)} beside ${stated}`).toBeLessThan(0.1)
  })

  test('a shop that takes twice as long for a core pays twice the handling of a core, and no more for memory', () => {
    const [board] = boards
    const core = board?.core
    const memory = board?.memories[0]
    if (board === undefined || core === undefined || memory === undefined) throw new Error('a board with both')
    const slow = pricesOf({
      ...defaultAssumptions,
      cost: { ...defaultAssumptions.cost, minutesPerCoreLift: 2 * defaultAssumptions.cost.minutesPerCoreLift },
    })
    const { heatUp, inspect } = defaultPriceBook.minutes
    const own = liftMinutes(core, prices) - 2 * heatUp - inspect
    expect(liftMinutes(core, slow)).toBeCloseTo(liftMinutes(core, prices) + own, 9)
    expect(liftMinutes(memory, slow)).toBe(liftMinutes(memory, prices))
  })
})

describe('what a lift costs', () => {
  test('counts losing a core as losing the card: what it would be worth working, less what is left of it', () => {
    const core = boards[0]?.core
    if (core === undefined) throw new Error('a board with a core')
    const risky = { ...prices, risk: { ...prices.risk, coreDamage: prices.risk.coreDamage + 0.1 } }
    const { valueIfRepaired, valueIfFailed } = defaultPriceBook.money
    expect(liftCost(core, risky) - liftCost(core, prices)).toBeCloseTo(0.1 * (valueIfRepaired - valueIfFailed), 9)
  })
})

test('every figure of the book ships with a reason and a source', () => {
  for (const section of Object.values(shippedPriceBook))
    for (const { reason, source } of Object.values(section)) {
      expect(reason.length).toBeGreaterThan(10)
      expect(source).toMatch(/source|J-STD|solved/)
    }
})
