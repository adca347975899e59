import { describe, expect, test } from 'vitest'
import { bestFirstOrder, exactOrder } from '../../src/plan/index.ts'
import { randomProblem } from './random-problem.ts'
import { cheapestByTryingAll, costOfOrder } from './slow-order.ts'

const RULES = ['free', 'off-first', 'at-once'] as const

describe('the exact order', () => {
  test.each(Array.from({ length: 60 }, (_, seed) => seed))(
    'costs what trying every order and grouping of up to four parts finds, seed %i',
    (seed) => {
      const problem = randomProblem({ parts: 1 + (seed % 4), pairs: seed % 5, seed, rule: RULES[seed % 3] ?? 'free' })
      const order = exactOrder(problem)
      const slow = cheapestByTryingAll(problem)
      expect(order?.cost ?? Number.POSITIVE_INFINITY).toBeCloseTo(slow.cost, 9)
      const replayed = order === undefined ? Number.POSITIVE_INFINITY : costOfOrder(problem, order.passes)
      expect(replayed).toBeCloseTo(slow.cost, 9)
    },
  )

  test.each([101, 102])('costs what trying every order and grouping of five parts finds, seed %i', (seed) => {
    const problem = randomProblem({ parts: 5, pairs: 2, seed })
    const slow = cheapestByTryingAll(problem)
    expect(slow.ordersTried).toBeGreaterThan(1000)
    expect(exactOrder(problem)?.cost).toBeCloseTo(slow.cost, 9)
  })

  test.each(Array.from({ length: 24 }, (_, seed) => seed + 400))(
    'costs what trying everything finds with three and four parts under one nozzle, seed %i',
    (seed) => {
      const rule = RULES[seed % 3] ?? 'free'
      const problem = randomProblem({ parts: 4, pairs: 1, groups: [3, 4], seed, bothSides: false, rule })
      const slow = cheapestByTryingAll(problem)
      expect(exactOrder(problem)?.cost ?? Number.POSITIVE_INFINITY).toBeCloseTo(slow.cost, 9)
    },
  )

  test.each([501, 502, 503])('and with five parts of which three or four fit under one nozzle, seed %i', (seed) => {
    const problem = randomProblem({ parts: 5, pairs: 1, groups: [3, 4], seed, bothSides: false })
    expect(exactOrder(problem)?.cost).toBeCloseTo(cheapestByTryingAll(problem).cost, 9)
  })

  test('from the middle of a job on counts only what is left', () => {
    for (let seed = 200; seed < 220; seed++) {
      const whole = randomProblem({ parts: 4, pairs: 2, seed })
      const problem = { ...whole, start: { states: Uint8Array.from([1, 0, 2, 0]), side: 0 as const } }
      const slow = cheapestByTryingAll(problem)
      const cost = exactOrder(problem)?.cost ?? Number.POSITIVE_INFINITY
      expect(cost).toBeCloseTo(slow.cost, 9)
    }
  })

  test('dearer than is asked for is none; as dear is one', () => {
    for (let seed = 700; seed < 706; seed++) {
      const problem = randomProblem({ parts: 3, pairs: 1, seed })
      const { cost } = cheapestByTryingAll(problem)
      expect(exactOrder(problem, 0.999 * cost)).toBeUndefined()
      expect(exactOrder(problem, cost)?.cost).toBeCloseTo(cost, 9)
    }
  })

  test('of more than twelve parts is not asked for', () => {
    expect(exactOrder(randomProblem({ parts: 13, pairs: 0, seed: 1 }))).toBeUndefined()
  })

  test('starts with none of the parts that may not be first', () => {
    const problem = { ...randomProblem({ parts: 4, pairs: 2, seed: 7 }), notFirst: [0, 2] }
    const order = exactOrder(problem)
    expect(order?.passes[0]?.members.some((part) => part === 0 || part === 2)).toBe(false)
    expect(order?.cost).toBeCloseTo(cheapestByTryingAll(problem).cost, 9)
  })
})

describe('best-first search', () => {
  test.each(Array.from({ length: 30 }, (_, seed) => seed + 300))(
    'agrees with dynamic programming where it has nodes enough, seed %i',
    (seed) => {
      const problem = randomProblem({ parts: 2 + (seed % 6), pairs: seed % 6, seed })
      const exact = exactOrder(problem)
      const found = bestFirstOrder(problem, 200_000)
      expect(found?.cost).toBeCloseTo(exact?.cost ?? 0, 9)
      expect(found?.bound).toBeCloseTo(exact?.cost ?? 0, 9)
    },
  )

  // three parts have 3³ = 27 sets of states in all: few enough for every layer to hold what leads to the best
  test.each(Array.from({ length: 30 }, (_, seed) => seed + 600))(
    'begins with the best order where a layer holds every way there is, seed %i',
    (seed) => {
      const problem = randomProblem({ parts: 2 + (seed % 2), pairs: seed % 3, seed })
      expect(bestFirstOrder(problem, 0)?.cost).toBeCloseTo(cheapestByTryingAll(problem).cost, 9)
    },
  )

  test.each([401, 402, 403, 404])('says a bound that no order beats when its nodes run out, seed %i', (seed) => {
    const problem = randomProblem({ parts: 8, pairs: 6, seed })
    const exact = exactOrder(problem)?.cost ?? 0
    for (const nodes of [0, 1, 10, 100]) {
      const found = bestFirstOrder(problem, nodes)
      expect(found?.bound ?? 0).toBeLessThanOrEqual(exact + 1e-9)
      expect(found?.cost ?? 0).toBeGreaterThanOrEqual(exact - 1e-9)
      expect(costOfOrder(problem, found?.passes ?? [])).toBeCloseTo(found?.cost ?? -1, 9)
    }
  })

  // A* with a bound that is never too high and never falls along a way (Hart, Nilsson and Raphael 1968)
  test.each([801, 802])('never says a lower bound for more nodes, seed %i', (seed) => {
    const problem = randomProblem({ parts: 8, pairs: 5, seed })
    const bounds = [0, 2, 8, 34, 89, 144].map((nodes) => bestFirstOrder(problem, nodes)?.bound ?? 0)
    expect(bounds).toEqual(bounds.toSorted((a, b) => a - b))
  })

  // cards on which the order that it begins with, found layer by layer without proof, is not the best
  test.each([
    [6, 9],
    [7, 6],
    [7, 21],
    [7, 26],
    [8, 4],
    [8, 14],
    [8, 23],
  ])('goes on to the best where its first order is none, %i parts, seed %i', (parts, seed) => {
    const problem = randomProblem({ parts, pairs: 5, seed })
    const exact = exactOrder(problem)?.cost ?? 0
    expect(bestFirstOrder(problem, 0)?.cost ?? 0).toBeGreaterThan(exact + 1e-6)
    const found = bestFirstOrder(problem, 200_000)
    expect(found?.cost).toBeCloseTo(exact, 9)
    expect(found?.bound).toBeCloseTo(exact, 9)
  })
})
