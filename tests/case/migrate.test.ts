/** Case files of version 1, kept as that version wrote them: each opens, with all that was in it and the defaults of today. */
import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { CASE_VERSION, loadCase, migrateCase, readCase } from '../../src/case/index.ts'

const FOLDER = 'tests/fixtures/case-version-1'
const files = readdirSync(FOLDER).filter((name) => name.endsWith('.case.json'))
const textOf = (name: string): string => readFileSync(`${FOLDER}/${name}`, 'utf8')
const plainSchema = z.record(z.string(), z.unknown())

test('there are cases of version 1 to open', () => {
  expect(files.length).toBeGreaterThanOrEqual(3)
  for (const name of files) expect(plainSchema.parse(JSON.parse(textOf(name)))['version']).toBe(1)
})

test.each(files)('%s opens with all that was in it', (name) => {
  const old = plainSchema.parse(JSON.parse(textOf(name)))
  const read = readCase(textOf(name), name)
  expect(read.ok && read.value).toMatchObject({ ...old, version: CASE_VERSION })
})

test.each(files)('what version 2 added to %s stands at its defaults', (name) => {
  const read = readCase(textOf(name), name)
  expect(read.ok && read.value).toMatchObject({
    measurements: [],
    shorts: [],
    powerUps: [],
    powered: { enumerates: 'unknown', picture: 'unknown', otherOutput: 'unknown', note: '' },
    goodCard: false,
    goodReadings: [],
    photos: [],
    checks: [],
    proofNote: '',
    handBack: { done: '', usedParts: [], currency: '', advice: '' },
  })
  if (!read.ok) return
  expect(read.value.handBack.outcome).toBeUndefined()
  for (const report of read.value.reports) expect(report).toMatchObject({ run: 'first', coversAll: false })
})

test('a migrated case that is written and read again is the same', () => {
  for (const name of files) {
    const once = readCase(textOf(name), name)
    if (!once.ok) throw new Error(name)
    expect(readCase(JSON.stringify(once.value), name)).toEqual(once)
  }
})

test('what is wrong in an old case stays wrong and is told, and a newer case is refused', () => {
  const old = plainSchema.parse(JSON.parse(textOf(files[0] ?? '')))
  const wrong = loadCase({ ...old, title: 7 })
  expect(!wrong.ok && wrong.faults.map(({ path }) => path)).toEqual(['$.title'])
  const newer = loadCase({ ...old, version: CASE_VERSION + 1 })
  expect(!newer.ok && newer.faults[0]).toMatchObject({ path: '$.version', expected: `at most ${CASE_VERSION}` })
})

test('a case of today, or of no version at all, is left as it is', () => {
  for (const version of [CASE_VERSION, CASE_VERSION + 1, undefined, 'one', 0.5]) {
    const value = { version, title: 'x' }
    expect(migrateCase(value)).toBe(value)
  }
})

test('what version 2 assumed of rates and prices is the shop’s since, under what the shop said already', () => {
  const version2 = {
    ...plainSchema.parse(JSON.parse(textOf(files[0] ?? ''))),
    version: 2,
    shop: { money: { priceCore: 300 } },
    assumptions: {
      prior: { die: 0.02 },
      cost: { hourlyRate: 90, corePrice: 200, minutesPerCoreLift: 200, materialsPerCoreLift: 9, comebackGoodwill: 10 },
    },
  }
  const read = loadCase(version2)
  expect(read.ok && read.value.shop).toEqual({ money: { hourlyRate: 90, priceCore: 300, comebackGoodwill: 10 } })
  expect(read.ok && read.value.assumptions).toEqual({ prior: { die: 0.02 }, cost: { minutesPerCoreLift: 200 } })
})
