/** Of ways that cost about the same, the one after which the card works clearly more often is taken. */
import { expect, test } from 'vitest'
import { proposeRemedies } from '../../src/suspects/index.ts'
import { smallTree } from './small-tree.ts'

const { work: free, either } = smallTree(1)
/** With looks and runs free, lifting U1 first and looking: 100 + 0.6 · 40 + 0.4 · (50 + 35 + 40) = 174, and the card works. */
const aBitDearer = { ...either, run: free(0) }

// By hand: 174 is 1.0296 times 169 and 1.0331 times 168.43.
test.each([
  ['3.0 %', 169, 'lift'],
  ['3.3 %', 168.43, 'return'],
])('a repair that costs %s more than sending the card back for %s: %s', (_, giveUpCold, first) => {
  const { steps, works } = proposeRemedies({ ...aBitDearer, giveUpCold }, ['U1', 'U2'])
  expect(steps[0]?.action).toBe(first)
  expect(works).toBeCloseTo(first === 'lift' ? 1 : 0, 6)
})
