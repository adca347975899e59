/** Several reports as one: the sum is what one long report would have given. */
import { fc, test } from '@fast-check/vitest'
import { describe, expect } from 'vitest'
import { mergeTallies, type Tally, tallyTable } from '../../src/report/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { addressesIn, countsOf, csv, mustRead, slowTally, type WordRow } from './support.ts'

const model = shippedBoard('hitch-12')
const pool = addressesIn(model, ['CH0', 'CH4', 'CH5', 'CH13'], 300, 0x100000n)
const word = fc.bigInt({ min: 0n, max: 0xffff_ffff_ffff_ffffn })
const row: fc.Arbitrary<WordRow> = fc.record({
  address: fc.constantFrom(...pool, 0x7_0000_0000n),
  expected: word,
  actual: word,
})
const someRows = fc.array(row, { minLength: 1, maxLength: 30 })
const FIXED = { seed: 3, numRuns: 40 }
const head = 'address,expected,actual\n'
const recipe = {
  name: 'words',
  layout: { kind: 'delimited' as const, delimiter: ',' },
  columns: (['address', 'expected', 'actual'] as const).map((role, at) => ({ role, at, base: 'hex' as const })),
  skipLinesWith: [],
  addressUnitBytes: 1,
}
const tallyOf = async (rows: readonly WordRow[]): Promise<Tally> =>
  (await mustRead(csv(rows, 16), model, { recipe })).tally

describe('words of 64 bits', () => {
  test.prop([someRows], FIXED)('come to what the slow tally says, bit by bit', async (rows) => {
    expect(countsOf(await tallyOf(rows))).toEqual(slowTally(model, rows))
  })
  test.prop([someRows], FIXED)('each failing row counts once for its part', async (rows) => {
    const tally = await tallyOf(rows)
    const bad = rows.filter((r) => r.expected !== r.actual && r.address !== 0x7_0000_0000n).length
    expect(tally.parts.reduce((sum, part) => sum + part.errors, 0)).toBe(bad)
  })
})

describe('merging', () => {
  test.prop([someRows, someRows], FIXED)('gives the counts of one long report', async (first, second) => {
    const merged = mergeTallies([await tallyOf(first), await tallyOf(second)])
    const whole = await tallyOf([...first, ...second])
    expect(countsOf(merged)).toEqual(countsOf(whole))
    expect(merged.parts.map((part) => part.errors)).toEqual(whole.parts.map((part) => part.errors))
    expect(merged.rows).toEqual({ ...whole.rows, skipped: whole.rows.skipped + head.split('\n').length - 1 })
  })
  test.prop([someRows], FIXED)('of one tally is that tally', async (rows) => {
    const tally = await tallyOf(rows)
    expect(mergeTallies([tally])).toEqual(tally)
  })
  test('a lane that failed once has failed; the most detailed level stands', async () => {
    const clean = tallyTable(model, [{ part: 'U11', errors: 0 }])
    const [address = 0n] = addressesIn(model, ['CH0'], 1)
    const words = await tallyOf([{ address, expected: 0n, actual: 1n }])
    const merged = mergeTallies([clean, words])
    const [lane, sibling] = merged.parts[0]?.channels[0]?.lanes ?? []
    expect([lane?.state, sibling?.state, merged.level]).toEqual(['fail', 'pass', 'words'])
  })
  test('of nothing is empty', () => {
    expect(mergeTallies([]).parts).toEqual([])
  })
})
