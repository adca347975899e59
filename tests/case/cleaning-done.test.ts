/** A cleaning counts alike wherever it was noted: as the note at measuring or as a step that was ticked off. */
import { describe, expect, test } from 'vitest'
import {
  type Case,
  CASE_VERSION,
  caseSchema,
  cleanedOf,
  isSpilledSince,
  marksCleanedBy,
  powerOf,
  wasWashed,
} from '../../src/case/index.ts'
import { shippedBoard } from '../support/read-board.ts'

const spill = (id: string, substance: string) => ({
  kind: 'spill',
  id,
  side: 'top',
  at: { x: 100, y: 60 },
  sdMm: 2,
  substance,
  amount: { volumeMl: 0.4 },
})
const tick = (action: string, marks?: readonly string[]) => ({
  action,
  refs: ['U1'],
  outcome: 'done',
  minutes: 10,
  afterPasses: 0,
  ...(marks === undefined ? {} : { marks }),
})
const made = (change: object): Case =>
  caseSchema.parse({
    format: 'liftmap-case',
    version: CASE_VERSION,
    title: 'x',
    board: { path: 'b.json' },
    marks: [spill('wet', 'coolant-pg'), spill('metal', 'gallium-indium')],
    ...change,
  })
const spillsSaid = (caseFile: Case): string =>
  powerOf(shippedBoard('bowline-8'), caseFile, 'before')
    .reasons.map(({ sentence }) => sentence)
    .filter((sentence) => sentence.includes('marked'))
    .join(' ')

describe('a wash that was ticked off', () => {
  test('takes care of liquids once it is dried, and of no metal', () => {
    const washed = tick('wash', marksCleanedBy('wash', made({})))
    expect(spillsSaid(made({ ticks: [washed] }))).toMatch(/2 spills/)
    expect(spillsSaid(made({ ticks: [washed, tick('dry')] }))).toMatch(/1 spill /)
    const takenUp = tick('take-up', marksCleanedBy('take-up', made({})))
    expect(spillsSaid(made({ ticks: [takenUp, washed, tick('dry')] }))).toBe('')
  })

  test('is not the last word on a mark that was made since', () => {
    const caseFile = made({ ticks: [tick('wash', ['earlier']), tick('dry')] })
    expect(wasWashed(caseFile)).toBe(true)
    expect(cleanedOf(caseFile)?.marks).toEqual(['earlier'])
    expect(spillsSaid(caseFile)).toMatch(/2 spills/)
  })

  test('says no more than the note at measuring', () => {
    const noted = made({ cleaned: { marks: ['wet', 'metal'] } })
    expect(spillsSaid(noted)).toBe('')
    expect(wasWashed(noted)).toBe(true)
    expect(wasWashed(made({ ticks: [{ ...tick('wash', ['wet']), outcome: 'skipped' }] }))).toBe(false)
  })
})

describe('what is still to be cleaned', () => {
  test('is a spill that was marked since, by its kind', () => {
    const washed = made({ ticks: [tick('wash', ['wet'])] })
    expect(isSpilledSince('wash', washed)).toBe(false)
    expect(isSpilledSince('take-up', washed)).toBe(true)
    expect(isSpilledSince('wash', made({ cleaned: { marks: ['metal'] } }))).toBe(true)
  })

  test('is nothing after a wash that does not name its marks', () => {
    expect(isSpilledSince('wash', made({ ticks: [tick('wash')] }))).toBe(false)
  })
})
