/** "Repaired" is not taken without a word while something is uncleaned or nothing was proved (common practice, no source). */
import { expect, test } from 'vitest'
import { type Case, caseSchema, doubtsOfRepair } from '../../src/case/index.ts'

const CLEAN_PROOF = {
  handBack: { outcome: 'repaired' },
  measurements: [
    { line: { kind: 'rail', name: 'VMEM' }, quantity: 'ohms', reading: { kind: 'open' }, typed: 'OL', phase: 'after' },
  ],
  reports: [{ name: 'after.txt', path: 'after.txt', run: 'retest' }],
  passes: [{ action: 'refit', refs: ['U1'], outcome: 'done' }],
}
const made = (change: object): Case =>
  caseSchema.parse({
    format: 'liftmap-case',
    version: 3,
    title: 'x',
    board: { path: 'b.json' },
    ...CLEAN_PROOF,
    ...change,
  })

const SPILL = {
  kind: 'spill',
  id: 's',
  side: 'top',
  at: { x: 1, y: 1 },
  sdMm: 2,
  substance: 'coolant-pg',
  amount: { volumeMl: 0.4 },
}
const LIFTED = { action: 'lift', refs: ['U1'], outcome: 'done', found: [{ ref: 'U1', what: ['metal'] }] }
const tick = (action: string) => ({ action, refs: ['U1'], outcome: 'done', minutes: 10, afterPasses: 1 })

test('a card that was cleaned, measured and tested after the work goes back without a word', () => {
  expect(doubtsOfRepair(made({}))).toEqual([])
  expect(doubtsOfRepair(made({ marks: [SPILL], ticks: [tick('wash')] }))).toEqual([])
  expect(doubtsOfRepair(made({ passes: [LIFTED], ticks: [tick('clean')] }))).toEqual([])
})

test.each([
  ['a spill that is not noted as washed off', { marks: [SPILL] }, /spill is marked, and it is not noted as washed/],
  ['metal under a part whose site was not noted as cleaned', { passes: [LIFTED] }, /Something lay under U1/],
  ['heat without a reading after it', { measurements: [] }, /No rail was measured after the work/],
  ['no run after the work', { reports: [] }, /memory was not tested after the work/],
] as const)('%s is said', (_, change, words) => {
  expect(doubtsOfRepair(made(change)).join(' ')).toMatch(words)
})

test('of a card that goes back unrepaired nothing is asked', () => {
  expect(doubtsOfRepair(made({ marks: [SPILL], reports: [], handBack: { outcome: 'not repaired' } }))).toEqual([])
})
