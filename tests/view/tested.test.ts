/** What a report does not name is untested everywhere: in words, in counts, in the picture; and what was not read ticks nothing. */
import { expect, test } from 'vitest'
import bowline from '../../boards/bowline-8.json' with { type: 'json' }
import { loadBoard } from '../../src/board/index.ts'
import { type Tally, tallyTable } from '../../src/report/index.ts'
import { type Case, CASE_VERSION, caseSchema, drawSheet, loadView, proofOf } from '../../src/case/index.ts'
import { createTallyOfCase } from '../../src/view/stores/derive.ts'
import { listPartFacts } from '../../src/view/stores/partFacts.ts'
import { noPlan } from '../../src/view/stores/planStore.ts'
import type { Reading } from '../../src/view/stores/readingStore.ts'
import { noResult } from '../../src/view/stores/resultStore.ts'
import { stationStates } from '../../src/view/stations/entries.ts'
import { errorWords, saysSomething } from '../../src/view/stores/tested.ts'
import { assessorFor } from '../support/kept-answers.ts'

const loaded = loadBoard(bowline)
if (!loaded.ok) throw new Error('the board of this test did not load')
const model = loaded.value

/** U13 fails, U12 passes, two lanes of U14 pass, nothing is said of the others. */
const tally = tallyTable(model, [
  { part: 'U13', errors: 1200 },
  { part: 'U12', errors: 0 },
  { lane: 'U14.A0', errors: 0 },
  { lane: 'U14.A1', errors: 0 },
])
const nothing = tallyTable(model, [])
const part = (ref: string) => {
  const found = tally.parts.find((entry) => entry.ref === ref)
  if (found === undefined) throw new Error(`no ${ref}`)
  return found
}

const caseWith = (reports: readonly object[]): Case =>
  caseSchema.parse({
    format: 'liftmap-case',
    version: CASE_VERSION,
    title: 'a card',
    board: { path: 'bowline-8.json' },
    reports,
  })

const readingWith = (of: Tally, change: Partial<Reading> = {}): Reading => ({
  state: 'read',
  source: new Blob([]),
  coming: undefined,
  progress: undefined,
  readWith: undefined,
  guess: undefined,
  tally: of,
  sure: 'sure',
  faults: [],
  remarks: [],
  cancel: () => undefined,
  ...change,
})

test('a part that no row names is untested in words, one that passed has no errors, one half told says which half', () => {
  expect(errorWords(part('U11'))).toBe('untested')
  expect(errorWords(part('U12'))).toBe('no errors')
  expect(errorWords(part('U14'))).toBe('no errors, 2 of 4 lanes untested')
  expect(errorWords(part('U13'))).toBe('1,200 errors')
  expect(listPartFacts(model, { kind: 'part', id: 'U11' }, tally, undefined)).toContain('untested')
  expect(listPartFacts(model, { kind: 'part', id: 'U11' }, tally, undefined)).not.toContain('no errors')
})

test('the sheet knows the regions of which nothing is told, and keeps them apart from clean ones', () => {
  const load = loadView(model, tally.parts)
  const regionOf = (lane: string) => model.laneById.get(lane)?.memoryRegion ?? ''
  expect([...load.untestedParts].toSorted()).toEqual(['U11', 'U15', 'U16', 'U17', 'U18'])
  expect(load.untested).toContain(regionOf('U11.A0'))
  expect(load.untested).toContain(regionOf('U14.B0'))
  for (const lane of ['U12.A0', 'U13.A0', 'U14.A0']) expect(load.untested).not.toContain(regionOf(lane))
})

test('the printed sheet dots what was not tested, says what dots mean, and dots nothing where all was', () => {
  const picture = (of: Tally | undefined): string => {
    const entered = {
      marks: [],
      substances: [],
      measurements: [],
      goodReadings: [],
      checks: [],
      assumptions: undefined,
    }
    const assessment = assessorFor(model).assess({ ...entered, tally: of })
    return drawSheet({ model, side: 'top', show: ['load'], marks: [], tally: of, assessment, title: 'a card' })
  }
  const dotted = picture(tally).match(/class="untested"/g) ?? []
  // four lanes on each of five packages, and two of U14
  expect(dotted).toHaveLength(22)
  expect(picture(tally)).toContain('dots: not tested')
  const whole = tallyTable(
    model,
    model.memories.map(({ ref }) => ({ part: ref, errors: ref === 'U13' ? 3 : 0 })),
  )
  expect(picture(whole)).not.toContain('class="untested"')
  expect(picture(whole)).not.toContain('dots: not tested')
  expect(picture(undefined)).not.toContain('class="untested"')
})

test('reports of which nothing was read are no tally, and no station calls itself filled in by them', () => {
  expect(saysSomething(nothing)).toBe(false)
  expect(saysSomething(tally)).toBe(true)
  const present = caseWith([
    { name: 'empty.txt', text: 'hello' },
    { name: 'after.txt', text: 'hello', run: 'retest' },
  ])
  const readings = new Map([
    ['first empty.txt', readingWith(nothing)],
    ['retest after.txt', readingWith(nothing)],
  ])
  const first = createTallyOfCase('first')(model, present.reports, readings)
  const retest = createTallyOfCase('retest')(model, present.reports, readings)
  expect(first).toBeUndefined()
  const retests = new Map([['retest after.txt', nothing]])
  const proof = proofOf({ model, caseFile: present, tally: first, retest, retests })
  const states = stationStates({ present, tally: first, readings, results: noResult, plan: noPlan, proof, model })
  const stateOf = (station: string) => states.find((entry) => entry.station === station)
  expect(stateOf('memory-run')).toMatchObject({ state: 'empty', lacks: 'no row read of 1 report' })
  expect(stateOf('suspects')).toMatchObject({ state: 'empty', lacks: 'no row read of 1 report' })
  expect(stateOf('proof')).toMatchObject({ state: 'partly', words: 'nothing tested again yet' })
})

test('a report that waits for the user’s word keeps suspects and proof from being called filled in', () => {
  const present = caseWith([
    { name: 'a.txt', text: 'a' },
    { name: 'b.txt', text: 'b' },
    { name: 'after.txt', table: [], run: 'retest', coversAll: true, testPasses: 8 },
    { name: 'after2.txt', text: 'c', run: 'retest', testPasses: 1 },
  ])
  const read = tallyTable(model, [{ part: 'U13', errors: 3 }])
  const asking = { ...read, rows: { ...read.rows, read: 1 } }
  const readings = new Map([
    ['first a.txt', readingWith(tally)],
    ['first b.txt', readingWith(asking, { sure: 'unsure' })],
    ['retest after2.txt', readingWith(asking, { sure: 'unsure' })],
  ])
  const first = createTallyOfCase('first')(model, present.reports, readings)
  expect(first?.parts.find(({ ref }) => ref === 'U13')?.errors).toBe(1200)
  const results = {
    ...noResult,
    state: 'done' as const,
    assessment: assessorFor(model).assess({ ...blank, tally: first }),
  }
  const states = stationStates({ present, tally: first, readings, results, plan: noPlan, model })
  expect(states.find((entry) => entry.station === 'suspects')).toMatchObject({
    state: 'partly',
    lacks: 'say how 1 report is read',
  })
})

const blank = { marks: [], substances: [], measurements: [], goodReadings: [], checks: [], assumptions: undefined }
