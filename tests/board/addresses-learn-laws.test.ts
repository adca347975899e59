/** Laws of learning, on random maps: what is learnt is the truth, whatever the form, the noise and the order of rows. */
import { describe, expect, test } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
import { describeLearntMap, learnAddressMap, type Observations } from '../../src/board/index.ts'
import { disagreements, randomMap, simulateLabels } from '../support/simulated-labels.ts'

const learn = (observations: Observations) => learnAddressMap(observations, seededRandom(1))

const seeds = (first: number, count: number): number[] => Array.from({ length: count }, (_, i) => first + i)

/** Seeds whose map does not come back exactly. */
function missed(
  form: { addressBits: number; modulus: number; functions: number },
  wish: { rows: number; wrongShare: number; seeds: readonly number[] },
): number[] {
  return wish.seeds.filter((seed) => {
    const truth = randomMap(form, seededRandom(seed))
    const learnt = describeLearntMap(learn(simulateLabels(truth, { ...wish, seed }).observations))
    return learnt === undefined || disagreements(learnt, truth, seed) > 0
  })
}

test('12 channels, 34 bits, 400 observations, 5 % wrong: each of 40 random maps comes back', () => {
  const form = { addressBits: 34, modulus: 3, functions: 2 }
  expect(missed(form, { rows: 400, wrongShare: 0.05, seeds: seeds(70_000, 40) })).toEqual([])
})

describe('other channel counts, 400 observations, 5 % wrong', () => {
  test.each([
    [1, 4],
    [5, 1],
    [6, 1],
    [7, 1],
    [9, 1],
    [10, 1],
    [11, 0],
    [12, 0],
    [15, 0],
  ])('a factor %i and %i functions', (modulus, functions) => {
    const form = { addressBits: 34, modulus, functions }
    expect(missed(form, { rows: 400, wrongShare: 0.05, seeds: seeds(71_000, 6) })).toEqual([])
  })
})

test('52 bits', () => {
  const form = { addressBits: 52, modulus: 3, functions: 2 }
  expect(missed(form, { rows: 600, wrongShare: 0.05, seeds: seeds(72_000, 5) })).toEqual([])
})

test('without wrong labels few rows are enough: 100 for 34 bits and 12 channels', () => {
  const form = { addressBits: 34, modulus: 3, functions: 2 }
  const wrong = seeds(73_000, 20).filter((seed) => {
    const truth = randomMap(form, seededRandom(seed))
    const map = learn(simulateLabels(truth, { rows: 100, seed }).observations)
    const learnt = describeLearntMap(map)
    return map.contradictions.length > 0 || learnt === undefined || disagreements(learnt, truth, seed) > 0
  })
  expect(wrong).toEqual([])
})

test('the order of the rows and the names of the labels change nothing', () => {
  const truth = randomMap({ addressBits: 34, modulus: 3, functions: 2 }, seededRandom(4))
  const { observations } = simulateLabels(truth, { rows: 400, wrongShare: 0.05, seed: 4 })
  const { addresses, labelOf, lines } = observations
  const backwards: Observations = {
    addresses: addresses.toReversed(),
    labelOf: labelOf.toReversed(),
    lines: lines.toReversed(),
    labels: observations.labels.map((label) => `other ${label}`),
  }
  const [one, other] = [learn(observations), learn(backwards)]
  expect(other.functions).toEqual(one.functions)
  expect([other.modulus, other.shift]).toEqual([one.modulus, one.shift])
  expect(other.contradictions.toSorted((a, b) => a - b)).toEqual(one.contradictions)
})

test('what is called settled with too few rows is right: of 60 random draws none is settled and wrong', () => {
  const form = { addressBits: 34, modulus: 1, functions: 3 }
  const wrong = seeds(74_000, 60).filter((seed) => {
    const truth = randomMap(form, seededRandom(seed))
    const map = learn(simulateLabels(truth, { rows: 20 + (seed % 40), seed }).observations)
    const learnt = describeLearntMap(map)
    return (
      map.isSettled &&
      learnt !== undefined &&
      map.undeterminedBits.length === 0 &&
      disagreements(learnt, truth, seed) > 0
    )
  })
  expect(wrong).toEqual([])
})
