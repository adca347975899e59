/** What a game may hold, and how the weights of a mixture vary about themselves. */
import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
import {
  accidentKinds,
  keptPracticeSchema,
  middleMixture,
  openPractice,
  practiceActionsSchema,
  practiceGameSchema,
  variedMixture,
} from '../../src/rehearsal/index.ts'
import { model } from './hand-card.ts'
import { quietAsker } from './practice-support.ts'

describe('a game as it is kept', () => {
  const game = { board: 'small', seed: 7, difficulty: 'plain' }
  const takes = (change: object): boolean => practiceGameSchema.safeParse({ ...game, ...change }).success

  it.each<[object, boolean]>([
    [{}, true],
    [{ seed: 0 }, true],
    [{ seed: 999_999 }, true],
    [{ seed: 1_000_000 }, false],
    [{ seed: -1 }, false],
    [{ seed: 1.5 }, false],
    [{ board: '' }, false],
    [{ board: 'b'.repeat(200) }, true],
    [{ board: 'b'.repeat(201) }, false],
    [{ difficulty: 'none' }, false],
    [{ more: 1 }, false],
  ])('%o', (change, is) => {
    expect(takes(change)).toBe(is)
  })

  it('says what it expected of a difficulty', () => {
    const read = practiceGameSchema.safeParse({ ...game, difficulty: 'none' })
    expect(read.error?.issues.map(({ message }) => message)).toEqual(['a difficulty that there is'])
  })

  it('holds up to 300 actions, each of the six kinds with its own fields', () => {
    const run = { kind: 'run' } as const
    expect(practiceActionsSchema.safeParse(Array.from({ length: 300 }, () => run)).success).toBe(true)
    expect(practiceActionsSchema.safeParse(Array.from({ length: 301 }, () => run)).success).toBe(false)
    const actions = [
      { kind: 'check', check: 'press', at: 'U2' },
      { kind: 'lift', ref: 'U2' },
      { kind: 'put-right', name: 'rail VMEM' },
      run,
      { kind: 'ask' },
      { kind: 'hand-back', as: 'repaired' },
      { kind: 'hand-back', as: 'not-worth-it' },
    ]
    expect(practiceActionsSchema.parse(actions)).toEqual(actions)
    for (const wrong of [
      { kind: 'lift' },
      { ...run, ref: 'U2' },
      { kind: 'hand-back', as: 'sold' },
      { kind: 'lift', ref: '' },
    ])
      expect(practiceActionsSchema.safeParse([wrong]).success).toBe(false)
    const kept = { format: 'liftmap-practice', version: 1, game, actions }
    expect(keptPracticeSchema.safeParse(kept).success).toBe(true)
    expect(keptPracticeSchema.safeParse({ ...kept, version: 2 }).success).toBe(false)
    expect(keptPracticeSchema.safeParse({ ...kept, format: 'liftmap-case' }).success).toBe(false)
  })

  it('is not opened at a difficulty that is none', async () => {
    expect(await openPractice(model, { ...game, difficulty: 'none' }, () => quietAsker)).toEqual({
      ok: false,
      faults: [
        {
          path: 'difficulty',
          found: 'none',
          expected: 'a difficulty that there is',
          todo: 'Choose another one.',
        },
      ],
    })
  })
})

/**
 * Dirichlet with α = 80 · mean: mean m, variance m (1 − m) / 81 (Gelman et al., Bayesian Data Analysis, 2013, appendix A).
 */
describe('a mixture that varies', () => {
  const middle = middleMixture()
  const weights = { ...middle.weights, die: 0, rail: 0.5 }
  const varied = Array.from({ length: 400 }, (_, seed) => variedMixture({ ...middle, weights }, seededRandom(seed)))

  it('has each weight in the mean, with the spread of a Dirichlet of 80', () => {
    const total = Object.values(weights).reduce((sum, weight) => sum + weight, 0)
    for (const kind of accidentKinds) {
      const values = varied.map((each) => each.weights[kind])
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length
      const spread = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length)
      const m = weights[kind] / total
      const sd = Math.sqrt((m * (1 - m)) / 81)
      // four standard errors of 400
      expect(Math.abs(mean - m)).toBeLessThanOrEqual((4 * sd) / 20)
      expect(Math.abs(spread - sd)).toBeLessThanOrEqual(0.25 * sd)
    }
  })

  it('keeps its figures and says in its name that it varies', () => {
    expect(varied[0]).toMatchObject({ name: 'middle, varied', figures: middle.figures })
    for (const { weights: each } of varied.slice(0, 20))
      expect(Object.values(each).reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 9)
  })
})
