/** Case files of version 1, kept as that version wrote them: each opens, with all that was in it and the defaults of today. */
import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { CASE_VERSION, loadCase, migrateCase, readCase } from '../../src/case/index.ts'

const folders = [
  { version: 1, folder: 'tests/fixtures/case-version-1' },
  { version: 2, folder: 'tests/fixtures/case-version-2' },
]
const filesIn = (folder: string): string[] => readdirSync(folder).filter((name) => name.endsWith('.case.json'))
const FOLDER = 'tests/fixtures/case-version-1'
const files = filesIn(FOLDER)
const textOf = (name: string): string => readFileSync(`${FOLDER}/${name}`, 'utf8')
const plainSchema = z.record(z.string(), z.unknown())
const all = folders.flatMap(({ version, folder }) =>
  filesIn(folder).map((name) => ({ version, name, text: readFileSync(`${folder}/${name}`, 'utf8') })),
)

test('there are cases of every earlier version to open', () => {
  for (const { version } of folders) expect(all.filter((each) => each.version === version).length).toBeGreaterThan(2)
  for (const { version, text } of all) expect(plainSchema.parse(JSON.parse(text))['version']).toBe(version)
})

test.each(all)('$name of version $version opens with all that was in it', ({ name, text }) => {
  const old = plainSchema.parse(JSON.parse(text))
  const read = readCase(text, name)
  const { arrival: _, ...rest } = old
  expect(read.ok && read.value).toMatchObject({ ...rest, version: CASE_VERSION })
  const arrival = plainSchema.parse(old['arrival'])
  const { mounted, account, ...others } = arrival
  expect(read.ok && read.value.arrival).toMatchObject(others)
  // "it lay flat" did not say which side was up: it stays, as what was told
  expect(read.ok && read.value.arrival).toMatchObject(
    mounted === 'flat' ? { mounted: 'unknown', account: `${String(account)} It lay flat.` } : { mounted, account },
  )
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
    ...plainSchema.parse(JSON.parse(all.find(({ version }) => version === 2)?.text ?? '')),
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

test('a bake that was ticked as done in version 2 counts as the drying too; a skipped one does not', () => {
  const tick = { action: 'bake', refs: ['U1'], outcome: 'done', minutes: 10, afterPasses: 0 }
  const version2 = plainSchema.parse(JSON.parse(all.find(({ version }) => version === 2)?.text ?? ''))
  const read = loadCase({ ...version2, ticks: [tick, { ...tick, refs: ['U2'], outcome: 'skipped' }] })
  expect(read.ok && read.value.ticks.map(({ action, refs }) => [action, ...refs].join(' '))).toEqual([
    'bake U1',
    'dry U1',
    'bake U2',
  ])
})
