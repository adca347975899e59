/** What the screen derives: what stations lack, whether to power, what the find box finds, where the sheet opens. */
import { expect, test } from 'vitest'
import bowline from '../../boards/bowline-8.json' with { type: 'json' }
import { type BoardModel, loadBoard } from '../../src/board/index.ts'
import { CASE_VERSION, type Case, caseSchema, cautionAgainstPower, powerOf } from '../../src/case/index.ts'
import { measurementSchema } from '../../src/measure/index.ts'
import { openingBox } from '../../src/view/stores/derive.ts'
import { find, findIndex } from '../../src/view/stores/find.ts'
import { noPlan } from '../../src/view/stores/planStore.ts'
import { noResult } from '../../src/view/stores/resultStore.ts'
import { stationStates } from '../../src/view/stations/entries.ts'

const loaded = loadBoard(bowline)
if (!loaded.ok) throw new Error('the board of this test did not load')
const model = loaded.value

const caseWith = (change: object): Case =>
  caseSchema.parse({
    format: 'liftmap-case',
    version: CASE_VERSION,
    title: 'a card',
    board: { path: 'bowline-8.json' },
    ...change,
  })

const residue = { kind: 'residue', id: 'r', side: 'top', at: { x: 1, y: 1 }, radiusMm: 2 }
const spill = {
  kind: 'spill',
  id: 's',
  side: 'top',
  at: { x: 300, y: 1 },
  sdMm: 4,
  substance: 'water',
  amount: { volumeMl: 1 },
}

const stateOf = (present: Case, station: string) =>
  stationStates({ present, tally: undefined, readings: new Map(), results: noResult, plan: noPlan }).find(
    (entry) => entry.station === station,
  )

test('a fresh case lacks everything, and says what', () => {
  expect(stateOf(caseWith({}), 'arrival')).toMatchObject({
    state: 'empty',
    lacks: 'lacks what it does, what happened and 2 more',
  })
  expect(stateOf(caseWith({}), 'memory-run')).toMatchObject({ state: 'empty', lacks: 'lacks a report' })
  expect(stateOf(caseWith({}), 'suspects')).toMatchObject({ state: 'empty', lacks: 'lacks a memory run' })
})

test('a spill that was told but not marked is lacking; one that did not happen is not', () => {
  expect(stateOf(caseWith({ arrival: { accident: 'spill' } }), 'spill')?.lacks).toBe('lacks its place')
  expect(stateOf(caseWith({ arrival: { accident: 'none' } }), 'spill')?.lacks).toBeUndefined()
  expect(stateOf(caseWith({ marks: [spill] }), 'spill')).toMatchObject({ state: 'done', words: 'water, 1 ml' })
})

test('the caution against power stays while its cause is there, and goes with it', () => {
  const against = (parts: Parameters<typeof caseWith>[0], board?: BoardModel): string => {
    const present = caseWith(parts)
    const judgement = board === undefined ? undefined : powerOf(board, present, 'before')
    return cautionAgainstPower(present, judgement)
      .map(({ sentence }) => sentence)
      .join(' ')
  }
  expect(against({ arrival: { accident: 'none' }, marks: [residue] })).toContain('1 place with residue')
  expect(against({ arrival: { accident: 'none' } })).toBe('')
  expect(against({ arrival: { accident: 'none' } }, model)).toBe('')
  expect(against({})).toContain('Nobody knows what happened to it.')
  expect(against({ arrival: { accident: 'slip', poweredSince: 'yes' } })).not.toContain('wet')
  const shorted = measurementSchema.parse({
    line: { kind: 'rail', name: model.rails[0]?.name },
    quantity: 'ohms',
    reading: { kind: 'short' },
    typed: 'short',
  })
  expect(against({ arrival: { accident: 'none' }, measurements: [shorted] }, model)).toContain('short')
})

test('who gave power with a reason has decided: the caution comes back with news alone', () => {
  const spilled = { arrival: { accident: 'spill' }, marks: [spill] }
  const before = cautionAgainstPower(caseWith(spilled), undefined).map(({ sentence }) => sentence)
  expect(before.length).toBeGreaterThan(0)
  const decided = { verdict: 'not-known', reasons: before, against: 'dried for two days, 1 A limit' }
  const left = (more: object): number =>
    cautionAgainstPower(caseWith({ ...spilled, powerUps: [decided], ...more }), undefined).length
  expect(left({})).toBe(0)
  expect(left({ marks: [spill, residue] })).toBeGreaterThan(0)
  expect(left({ powerUps: [{ verdict: 'safe', reasons: before }] })).toBe(before.length)
})

test('the find box puts the whole name first, then names that begin so, then any that hold it', () => {
  const index = findIndex(model)
  expect(find(index, 'u1')[0]).toMatchObject({ kind: 'part', id: 'U1' })
  expect(
    find(index, 'U13')
      .map((entry) => entry.id)
      .slice(0, 2),
  ).toEqual(['U13', 'U13.A0'])
  expect(find(index, 'vmem').map((entry) => entry.kind)).toContain('rail')
  expect(find(index, 'core').map((entry) => entry.id)).toEqual(expect.arrayContaining(['U1', 'VCORE']))
  expect(find(index, '  ')).toEqual([])
  expect(find(index, 'no such thing')).toEqual([])
})

test('the sheet opens on core, memory and marks', () => {
  const without = openingBox(model, [])
  const parts = [...model.memories, ...(model.core === undefined ? [] : [model.core])]
  for (const part of parts) {
    expect(part.box.minX).toBeGreaterThanOrEqual(without.minX)
    expect(part.box.maxY).toBeLessThanOrEqual(without.maxY)
  }
  expect(without.maxX).toBeLessThan(model.box.maxX)
  expect(openingBox(model, caseWith({ marks: [spill] }).marks).maxX).toBe(300)
})
