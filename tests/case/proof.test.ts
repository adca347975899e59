/** The runs after the work beside the first: every lane has one verdict, and only what was seen counts as passed. */
import fc from 'fast-check'
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { loadBoard } from '../../src/board/index.ts'
import {
  CASE_VERSION,
  boundSentence,
  type Case,
  caseSchema,
  loadCase,
  measuredBeforeAfter,
  notProven,
  type OpenedCase,
  openCase,
  type Proof,
  proofOf,
  type ReportDraft,
} from '../../src/case/index.ts'
import type { TableRow } from '../../src/report/index.ts'

const loaded = loadBoard(JSON.parse(readFileSync(new URL('../../boards/bowline-8.json', import.meta.url), 'utf8')))
if (!loaded.ok) throw new Error('the board of this test did not load')
const model = loaded.value
const laneIds = model.lanes.map(({ id }) => id)
const part = model.memories[0]?.ref ?? ''
const own = model.lanes.filter((lane) => lane.part === part)
const [a = '', b = '', c = '', d = ''] = own.map(({ id }) => id)

const caseWith = (reports: readonly ReportDraft[], more: object = {}): Case => {
  const read = loadCase({
    format: 'liftmap-case',
    version: CASE_VERSION,
    title: 'a card',
    board: { inline: model.description },
    reports,
    ...more,
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.value
}

async function open(reports: readonly ReportDraft[]): Promise<OpenedCase> {
  const opened = await openCase(caseWith(reports), () => Promise.reject(new Error('no file is asked for')))
  if (!opened.ok) throw new Error(JSON.stringify(opened.faults))
  return opened.value
}

const prove = async (reports: readonly ReportDraft[]): Promise<Proof> => proofOf(await open(reports))

const table = (counts: Readonly<Record<string, number>>): TableRow[] =>
  Object.entries(counts).map(([lane, errors]) => ({ lane, errors }))

const first = (counts: Readonly<Record<string, number>>, more: Partial<ReportDraft> = {}): ReportDraft => ({
  name: 'first',
  table: table(counts),
  ...more,
})
const retest = (counts: Readonly<Record<string, number>>, more: Partial<ReportDraft> = {}): ReportDraft => ({
  name: 'retest',
  table: table(counts),
  run: 'retest',
  ...more,
})

describe('a lane', () => {
  test('is gone, still there, fresh, clean or untested by what the two runs say of it', async () => {
    const proof = await prove([first({ [a]: 40, [b]: 9, [c]: 0, [d]: 12 }), retest({ [a]: 0, [b]: 3, [c]: 5 })])
    expect(proof).toMatchObject({ gone: [a], still: [b], fresh: [c] })
    expect(proof.untested[0]).toBe(d)
    expect(proof.untested).toHaveLength(laneIds.length - 3)
    expect(proof.lanes.find(({ id }) => id === b)).toMatchObject({ errorsBefore: 9, errorsAfter: 3, trend: 'fewer' })
    expect(proof.lanes.find(({ id }) => id === c)).toMatchObject({ before: 'pass', after: 'fail' })
    expect(proof.parts.find(({ ref }) => ref === part)).toMatchObject({
      verdict: 'fresh',
      errorsBefore: 61,
      errorsAfter: 8,
    })
  })

  test('that was untested before and fails now is fresh, and says that it was untested', async () => {
    const proof = await prove([first({ [a]: 4 }), retest({ [a]: 0, [b]: 1 })])
    expect(proof.fresh).toEqual([b])
    expect(proof.lanes.find(({ id }) => id === b)?.before).toBe('untested')
  })

  test('is compared per pass where both runs say theirs: 100 in 10 passes are fewer than 20 in one', async () => {
    const passes = await prove([first({ [a]: 20 }, { testPasses: 1 }), retest({ [a]: 100 }, { testPasses: 10 })])
    expect(passes.lanes.find(({ id }) => id === a)?.trend).toBe('fewer')
    const unsaid = await prove([first({ [a]: 20 }), retest({ [a]: 100 }, { testPasses: 10 })])
    expect(unsaid.lanes.find(({ id }) => id === a)?.trend).toBe('more')
  })

  test('is not told, and not called fresh, where the errors are placed in its part alone', async () => {
    const proof = await prove([first({ [a]: 4 }), { name: 'retest', run: 'retest', table: [{ part, errors: 7 }] }])
    expect(proof).toMatchObject({ fresh: [], still: [], gone: [] })
    expect(proof.notTold).toEqual(own.map(({ id }) => id))
    expect(notProven(proof).join(' ')).toContain('does not say in which lane')
  })

  test('has its bits gone, fresh and still there', async () => {
    const rows = (bits: readonly number[]): TableRow[] => bits.map((bit) => ({ lane: a, bit, errors: 3 }))
    const proof = await prove([
      { name: 'first', table: rows([0, 2, 5]) },
      { name: 'retest', run: 'retest', table: rows([2, 6]) },
    ])
    expect(proof.lanes.find(({ id }) => id === a)?.bits).toEqual({ gone: [0, 5], fresh: [6], still: [2] })
  })

  test('that fails without bits after the work says of none of its bits that it is gone', async () => {
    const proof = await prove([{ name: 'first', table: [{ lane: a, bit: 1, errors: 3 }] }, retest({ [a]: 2 })])
    expect(proof.lanes.find(({ id }) => id === a)?.bits).toEqual({ gone: [], fresh: [], still: [] })
  })

  test('has exactly one verdict, and a retest that covers all leaves none untested', async () => {
    const counts = fc.dictionary(fc.constantFrom(...laneIds), fc.nat({ max: 3 }), { maxKeys: 20 })
    await fc.assert(
      fc.asyncProperty(counts, counts, fc.boolean(), async (before, after, coversAll) => {
        const proof = await prove([first(before), retest(after, { coversAll })])
        const { gone, fresh, still, untested, notTold, lanes } = proof
        const clean = lanes.filter(({ verdict }) => verdict === 'clean').map(({ id }) => id)
        expect([...gone, ...fresh, ...still, ...untested, ...notTold, ...clean].toSorted()).toEqual(laneIds.toSorted())
        expect(gone.every((id) => (before[id] ?? 0) > 0 && (after[id] ?? 0) === 0)).toBe(true)
        expect([...still, ...fresh].toSorted()).toEqual(laneIds.filter((id) => (after[id] ?? 0) > 0).toSorted())
        if (coversAll) expect(untested).toEqual([])
        const failed = untested.map((id) => (before[id] ?? 0) > 0)
        expect(failed).toEqual(failed.toSorted((x, y) => Number(y) - Number(x)))
      }),
      { seed: 81, numRuns: 40 },
    )
  })
})

describe('passes', () => {
  test('of a run count only where that run shows no error in any lane; those of others are counted apart', async () => {
    const proof = await prove([
      first({ [a]: 40 }),
      retest({ [a]: 0 }, { name: 'one', testPasses: 6 }),
      retest({ [b]: 2 }, { name: 'two', testPasses: 3 }),
    ])
    expect(proof.passes).toMatchObject({ clean: 6, failing: 3 })
    expect(proof.ruleOfThree95).toBeUndefined()
    expect(boundSentence(proof)).toContain('3 of 9 complete runs had errors')
  })

  test('a run with errors and no number counts as one failing pass; a clean one without a number as none, and that is said', async () => {
    const proof = await prove([retest({ [a]: 0 }, { name: 'quiet' }), retest({ [b]: 2 }, { name: 'loud' })])
    expect(proof.passes).toMatchObject({ clean: 0, failing: 1, unnoted: ['quiet'] })
    expect(notProven(proof).join(' ')).toContain('quiet: without an error, but its number of runs is not noted')
  })

  test('a run that tests nothing, or has rows that nobody can place, proves nothing', async () => {
    const empty = await prove([{ name: 'empty', run: 'retest', table: [], testPasses: 9 }])
    expect(empty.passes).toMatchObject({ clean: 0, runs: [{ kind: 'says-nothing' }] })
    expect(empty.boundPerPass95).toBeUndefined()
    const astray = await prove([
      { name: 'astray', run: 'retest', table: [{ part: 'U9999', errors: 4 }], testPasses: 9, coversAll: true },
    ])
    expect(astray.passes).toMatchObject({ clean: 0, runs: [{ kind: 'unsure' }] })
    expect(astray.boundPerPass95).toBeUndefined()
    expect(boundSentence(astray)).toContain('may be errors')
  })

  test('two runs of one name count each for itself: a clean one can not stand in for one with errors', async () => {
    const proof = await prove([retest({ [a]: 5 }, { testPasses: 1 }), retest({ [b]: 0 }, { testPasses: 9 })])
    expect(proof.passes).toMatchObject({ clean: 9, failing: 1 })
    expect(proof.passes.runs.map(({ kind }) => kind)).toEqual(['failing', 'clean'])
  })

  test('a run that work went on after neither fails nor proves, in any order', async () => {
    const old = retest({ [a]: 5 }, { name: 'old', testPasses: 1, overtaken: true })
    const last = retest({}, { name: 'last', testPasses: 5, coversAll: true })
    for (const reports of [
      [first({ [a]: 9 }), old, last],
      [first({ [a]: 9 }), last, old],
    ]) {
      const proof = await prove(reports)
      expect(proof).toMatchObject({ gone: [a], still: [], passes: { clean: 5, failing: 0 } })
    }
  })

  test('the first run is left as it is by runs after it: what is suspected does not change', async () => {
    const alone = await open([first({ [a]: 9 })])
    const both = await open([first({ [a]: 9 }), retest({ [a]: 0, [b]: 4 })])
    expect(both.tally).toEqual(alone.tally)
  })
})

describe('what was measured', () => {
  const reading = (name: string, phase: 'before' | 'after', value: number, quantity = 'ohms', kind = 'rail') => ({
    line: { kind, name },
    quantity,
    phase,
    reading: { kind: 'value', value },
    typed: String(value),
  })
  const measurementsOf = (measurements: readonly object[]): Case['measurements'] =>
    caseSchema.shape.measurements.parse(measurements)

  test('stands line by line in the order of the board, the last reading of each phase', () => {
    const [one, two] = model.rails.map(({ name }) => name)
    const lines = measuredBeforeAfter(
      model,
      measurementsOf([
        reading(two ?? '', 'before', 7),
        reading(one ?? '', 'before', 1),
        reading(one ?? '', 'before', 2),
        reading(one ?? '', 'after', 3),
        reading(one ?? '', 'after', 1.2, 'volts'),
        reading('gone from the board', 'before', 9),
      ]),
    )
    const valueOf = (measurement: Case['measurements'][number] | undefined): number | undefined =>
      measurement?.reading.kind === 'value' ? measurement.reading.value : undefined
    expect(
      lines.map(({ line, quantity, before, after }) => [line.name, quantity, valueOf(before), valueOf(after)]),
    ).toEqual([
      [one, 'ohms', 2, 3],
      [one, 'volts', undefined, 1.2],
      [two, 'ohms', 7, undefined],
      ['gone from the board', 'ohms', 9, undefined],
    ])
  })
})
