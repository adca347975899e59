/** A part that comes off for the second time is said to: who reads the plan has just refitted it. */
import { expect, test } from 'vitest'
import { proposeRemedies } from '../../src/suspects/index.ts'
import { SURE, smallTree } from './small-tree.ts'

// By hand: U1 is lifted for 100 and refitted for 40, which cures half of the time; then the card, worth 1000 more mended than
// not, is worth another 140 at the same chance: half of what it may bring is 500.
test('where the refit did not help', () => {
  const { either } = smallTree(1)
  const problem = {
    ...either,
    sets: Int32Array.from([2]),
    weights: Float64Array.from([1]),
    cures: { ...SURE, reballBeneath: 0.5, replaceBeneath: 0.5, seesBeneath: 0 },
  }
  const { steps } = proposeRemedies(problem, ['U1', 'U2'])
  expect(steps[0]?.action).toBe('lift')
  expect(steps.map(({ next }) => next).join(' ')).toContain('If it still fails: lift U1 again.')
})
