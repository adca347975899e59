/** "Repaired" is not taken without a word while something is uncleaned or nothing was proved (common practice, no source). */
import { expect, test } from 'vitest'
import { CASE_VERSION, type Case, caseSchema, doubtsOfRepair } from '../../src/case/index.ts'

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
    version: CASE_VERSION,
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
const METAL = { ...SPILL, substance: 'gallium-indium' }
const STAGE = {
  line: { kind: 'stage', name: 'S1' },
  quantity: 'ohms',
  reading: { kind: 'open' },
  typed: 'OL',
  phase: 'after',
}
const LIFTED = { action: 'lift', refs: ['U1'], outcome: 'done', found: [{ ref: 'U1', what: ['metal'] }] }
const tick = (action: string) => ({ action, refs: ['U1'], outcome: 'done', minutes: 10, afterPasses: 1 })

test('a card that was cleaned, measured and tested after the work goes back without a word', () => {
  expect(doubtsOfRepair(made({}))).toEqual([])
  const washed = { ...tick('wash'), marks: ['s'] }
  expect(doubtsOfRepair(made({ marks: [SPILL], ticks: [washed, tick('dry')] }))).toEqual([])
  expect(doubtsOfRepair(made({ marks: [METAL], ticks: [{ ...tick('take-up'), marks: ['s'] }] }))).toEqual([])
  // older ticks do not say which marks they took care of
  expect(doubtsOfRepair(made({ marks: [SPILL], ticks: [tick('wash'), tick('bake')] }))).toEqual([])
  expect(doubtsOfRepair(made({ passes: [LIFTED], ticks: [tick('clean')] }))).toEqual([])
})

test.each([
  ['a spill that is not noted as washed off', { marks: [SPILL] }, /A spill is marked, and no cleaning of it is noted/],
  ['a wash that was not dried', { marks: [SPILL], ticks: [{ ...tick('wash'), marks: ['s'] }] }, /no drying is noted/],
  [
    'a spill that was marked after the wash',
    { marks: [SPILL, { ...SPILL, id: 'later' }], ticks: [{ ...tick('wash'), marks: ['s'] }, tick('dry')] },
    /A spill is marked/,
  ],
  ['a stage that was read, but no rail', { measurements: [STAGE] }, /No rail was measured after the work/],
  ['metal under a part whose site was not noted as cleaned', { passes: [LIFTED] }, /Something lay under U1/],
  ['heat without a reading after it', { measurements: [] }, /No rail was measured after the work/],
  ['no run after the work', { reports: [] }, /memory was not tested after the work/],
] as const)('%s is said', (_, change, words) => {
  expect(doubtsOfRepair(made(change)).join(' ')).toMatch(words)
})

test('of a card that goes back unrepaired nothing is asked', () => {
  expect(doubtsOfRepair(made({ marks: [SPILL], reports: [], handBack: { outcome: 'not repaired' } }))).toEqual([])
})
