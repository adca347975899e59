/** The order of data bits from failing bits of known balls. */
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type DqOrder, type FailedBit, learnDqOrder } from '../../src/board/index.ts'

const BALLS = ['B4', 'A3', 'B3', 'B2', 'E3', 'E2', 'F2', 'G2']

function learn(...seen: readonly (readonly [bit: number, ball: string])[]): DqOrder {
  const order = learnDqOrder(
    BALLS,
    seen.map(([bit, ball], i): FailedBit => ({ bit, ball, line: i + 1 })),
  )
  if (!order.ok) throw new Error(JSON.stringify(order.faults))
  return order.value
}

test('a bit that failed with a ball has that ball’s DQ number; the others stay open', () => {
  const order = learn([0, 'B2'], [3, 'B4'])
  expect(order.swaps).toEqual([3, undefined, undefined, 0, undefined, undefined, undefined, undefined])
  expect(order.undeterminedBits).toEqual([1, 2, 4, 5, 6, 7])
  expect(order.contradictions).toEqual([])
})

test('the last bit follows from the others, so that one ball less has to be tried', () => {
  expect(learn().nextBalls).toEqual(BALLS.slice(0, 7))
  const order = learn(...BALLS.slice(0, 7).map((ball, dq): [number, string] => [7 - dq, ball]))
  expect(order.swaps).toEqual([7, 6, 5, 4, 3, 2, 1, 0])
  expect(order.nextBalls).toEqual([])
})

test('a slip is outvoted and named', () => {
  const order = learn([0, 'B2'], [0, 'B2'], [0, 'B2'], [0, 'E3'], [4, 'B2'])
  expect(order.swaps[0]).toBe(3)
  expect(order.contradictions).toEqual([4, 5])
})

test('two slips that agree with each other weigh as much as two observations', () => {
  const order = learn([0, 'B2'], [0, 'B2'], [0, 'E3'], [4, 'B2'])
  expect(order.swaps[0]).toBeUndefined()
  expect(order.contradictions).toEqual([])
})

test('one against one is told by neither', () => {
  const order = learn([0, 'B2'], [0, 'E3'])
  expect(order.swaps[0]).toBeUndefined()
  expect(order.contradictions).toEqual([])
  expect(order.undeterminedBits).toHaveLength(8)
})

describe('any order', () => {
  const orders = fc.integer({ min: 1, max: 32 }).chain((bits) =>
    fc.shuffledSubarray(
      Array.from({ length: bits }, (_, dq) => dq),
      { minLength: bits },
    ),
  )
  const ballsOf = (count: number): string[] => Array.from({ length: count }, (_, dq) => `ball ${dq}`)

  test('comes back from one observation a ball, all but one', () => {
    fc.assert(
      fc.property(orders, (swaps) => {
        const observations = swaps.map((dq, bit) => ({ bit, ball: `ball ${dq}`, line: bit + 1 })).slice(1)
        const order = learnDqOrder(ballsOf(swaps.length), observations)
        expect(order.ok && order.value.swaps).toEqual(swaps)
      }),
      { seed: 30, numRuns: 60 },
    )
  })

  test('comes back with each ball seen three times and one slip, which is named', () => {
    fc.assert(
      fc.property(orders, fc.nat(), fc.nat(), (swaps, slipBit, slipDq) => {
        const right = [1, 2, 3].flatMap((time) =>
          swaps.map((dq, bit) => ({ bit, ball: `ball ${dq}`, line: time * 100 + bit })),
        )
        const bit = slipBit % swaps.length
        const dq = slipDq % swaps.length
        const order = learnDqOrder(ballsOf(swaps.length), [...right, { bit, ball: `ball ${dq}`, line: 999 }])
        if (!order.ok) throw new Error(JSON.stringify(order.faults))
        expect(order.value.swaps).toEqual(swaps)
        expect(order.value.contradictions).toEqual(swaps[bit] === dq ? [] : [999])
      }),
      { seed: 31, numRuns: 60 },
    )
  })
})

test.each([
  [{ bit: 8, ball: 'B2', line: 4 }, 'line 4', 'bit 8'],
  [{ bit: -1, ball: 'B2', line: 4 }, 'line 4', 'bit -1'],
  [{ bit: 1, ball: 'Z9', line: 4 }, 'line 4', '"Z9"'],
])('%j is refused with its line', (observation, path, found) => {
  expect(learnDqOrder(BALLS, [observation])).toMatchObject({ ok: false, faults: [{ path, found }] })
})

test('balls named twice, or none, are refused', () => {
  expect(learnDqOrder(['B2', 'B2'], [])).toMatchObject({ ok: false, faults: [{ path: 'balls' }] })
  expect(learnDqOrder([], [])).toMatchObject({ ok: false, faults: [{ path: 'balls' }] })
})
