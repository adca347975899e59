/** A core with memory stacked beside its die: what is bought, said and warned of when it is replaced. */
import { expect, test } from 'vitest'
import { stackedBoard } from '../support/stacked-board.ts'
import { exposuresOf, planned } from './plan-fixture.ts'

test('a core that is replaced goes on with its stacks, bought with them and held where they are not', () => {
  const { best } = planned({
    model: stackedBoard(),
    lift: ['U1'],
    exposures: exposuresOf({ U1: {} }),
    successProbability: 0.5,
    replace: new Set(['U1']),
  })
  const bought = best.materials.find(({ insteadOf }) => insteadOf === 'U1')
  expect(bought?.what).toMatch(/^new part for U1: .+, with balls and with U11 and U12 on it$/)
  expect(bought?.why).toMatch(/^U1 or a stack on it may be bad; /)
  expect(best.steps.find(({ action }) => action === 'replace')?.why).toMatch(
    /^New parts go on: U1 or a stack on it may be bad, .*Take the same type with U11 and U12 on it\./,
  )
  // common practice, no source
  const held = 'U11 and U12 stand bare beside the die and chip at a touch: nudge and hold the core by its substrate.'
  expect(best.steps.filter(({ cautions }) => cautions.includes(held)).map(({ action }) => action)).toEqual([
    'lift',
    'refit',
  ])
})
