/** Heat can't be taken back: where a wash first costs hardly more than a lift first, it comes first. */
import { expect, test } from 'vitest'
import { proposeRemedies } from '../../src/suspects/index.ts'
import { smallTree, SURE } from './small-tree.ts'

const { work: free, either } = smallTree(1)
/** Both faults fail both packages, so that the run after a wash tells nothing. */
const faults = either.faults.map((fault) => ({ ...fault, touches: 3 }))

// By hand, runs free: a new U2 first and, where the run fails, U1: 50 + 35 + 0.6 · (100 + 40) = 169; a wash that cures next to
// nothing comes on top. 3 % of 169 are 5.07.
test.each([
  ['dearer by 5.2', 5.2, 'lift'],
  ['dearer by 5', 5, 'wash'],
])('a wash first that is %s than 169: %s', (_, money, first) => {
  const problem = { ...either, faults, wash: free(money), run: free(0), cures: { ...SURE, washBeneath: 1e-4 } }
  const { steps, expectedCost } = proposeRemedies(problem, ['U1', 'U2'])
  expect(steps[0]?.action).toBe(first)
  expect(expectedCost).toBeCloseTo(first === 'wash' ? 169 + money : 169, 1)
})
