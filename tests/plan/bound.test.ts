/** What the search holds for the least that is left to pay, against every order tried. */
import { describe, expect, test } from 'vitest'
import { bestFirstOrder, type OrderProblem } from '../../src/plan/index.ts'
import { randomProblem, type Wish } from './random-problem.ts'
import { cheapestByTryingAll } from './slow-order.ts'

/** On one side, of parts that cost the same to work on however often they melt. */
function plain(wish: Wish): OrderProblem {
  const problem = randomProblem({ ...wish, bothSides: false })
  return {
    ...problem,
    passes: problem.passes.map((pass) => ({ ...pass, melts: [] })),
    replaceCost: problem.reuseCost.map((money) => money + 3),
  }
}
/** With no node opened the bound is that of the start. */
const boundAtStart = (problem: OrderProblem): number => bestFirstOrder(problem, 0)?.bound ?? Number.NaN

/** The same question of two of the parts alone. */
function ofTwo(problem: OrderProblem, i: number, j: number): OrderProblem {
  const both = [i, j]
  const only = (all: Float64Array): Float64Array => Float64Array.from(both, (part) => all[part] ?? 0)
  return {
    ...problem,
    partCount: 2,
    passes: problem.passes.flatMap((pass) =>
      pass.members.every((member) => both.includes(member))
        ? [
            {
              ...pass,
              members: pass.members.map((member) => both.indexOf(member)),
              harmOn: only(pass.harmOn),
              harmRefitted: only(pass.harmRefitted),
            },
          ]
        : [],
    ),
    offBeforeRefit: both.map((part) =>
      (problem.offBeforeRefit[part] ?? []).flatMap((near) => (both.includes(near) ? [both.indexOf(near)] : [])),
    ),
    reuseCost: only(problem.reuseCost),
    replaceCost: only(problem.replaceCost),
    spareMelts: Int8Array.from(both, (part) => problem.spareMelts[part] ?? -1),
    start: { ...problem.start, states: Uint8Array.from(both, (part) => problem.start.states[part] ?? 0) },
  }
}
const withoutHarm = (problem: OrderProblem): OrderProblem => ({
  ...problem,
  passes: problem.passes.map((pass) => ({
    ...pass,
    harmOn: new Float64Array(problem.partCount),
    harmRefitted: new Float64Array(problem.partCount),
  })),
})

describe('the bound', () => {
  test.each(Array.from({ length: 12 }, (_, seed) => seed + 900))(
    'of two parts that have no nozzle in common is what the cheapest order costs, seed %i',
    (seed) => {
      const problem = plain({ parts: 2, pairs: 0, seed })
      expect(boundAtStart(problem)).toBeCloseTo(cheapestByTryingAll(problem).cost, 9)
    },
  )

  test.each(Array.from({ length: 12 }, (_, seed) => seed + 920))(
    'of four parts is the work on each, and of each two of them the least harm that they can do one another, seed %i',
    (seed) => {
      const problem = plain({ parts: 4, pairs: 0, seed })
      let least = cheapestByTryingAll(withoutHarm({ ...problem, offBeforeRefit: [[], [], [], []] })).cost
      for (let i = 0; i < 4; i++)
        for (let j = i + 1; j < 4; j++) {
          const two = ofTwo(problem, i, j)
          least +=
            cheapestByTryingAll(two).cost - cheapestByTryingAll(withoutHarm({ ...two, offBeforeRefit: [[], []] })).cost
        }
      expect(boundAtStart(problem)).toBeCloseTo(least, 9)
    },
  )

  test('of parts that go under one nozzle counts each its share, and no harm between them', () => {
    // two alone at 6 and 6, or both at once at 10: shares of 5, twice for lift and refit, and 2 for the balls of each
    const harm = Float64Array.from([3, 3])
    const none = new Float64Array(2)
    const passes = (['lift', 'refit'] as const).flatMap((action) => [
      { action, members: [0], side: 0 as const, base: 6, harmOn: harm, harmRefitted: harm, melts: [] },
      { action, members: [1], side: 0 as const, base: 6, harmOn: harm, harmRefitted: harm, melts: [] },
      { action, members: [0, 1], side: 0 as const, base: 10, harmOn: none, harmRefitted: none, melts: [] },
    ])
    const problem: OrderProblem = {
      ...plain({ parts: 2, pairs: 0, seed: 1 }),
      passes,
      offBeforeRefit: [[], []],
      reuseCost: Float64Array.from([2, 2]),
      replaceCost: Float64Array.from([9, 9]),
      spareMelts: Int8Array.from([3, 3]),
    }
    expect(boundAtStart(problem)).toBeCloseTo(4 * 5 + 2 * 2, 9)
    // where one may melt no more, it is replaced: 9 in place of 2
    expect(boundAtStart({ ...problem, spareMelts: Int8Array.from([-1, 0]) })).toBeCloseTo(20 + 9 + 2, 9)
    // from one lifted and one refitted only the shares of what is left: a refit of 5
    const start = { states: Uint8Array.from([1, 2]), side: 0 as const }
    expect(boundAtStart({ ...problem, start })).toBeCloseTo(2 + 5 + 3, 9)
  })
})
