/** Next checks are held to the judge of power: what it forbids is not proposed, and what is not known says what comes first. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { good } from '../../src/base/index.ts'
import { enteredOf, loadCase, openCase, type OpenedCase } from '../../src/case/index.ts'
import { assessorFor } from '../support/kept-answers.ts'

const demo: object = JSON.parse(readFileSync('demo-data/wept-fitting.case.json', 'utf8'))

async function* bytesOf(text: string): AsyncIterable<Uint8Array> {
  yield new TextEncoder().encode(text)
}

async function opened(change: object): Promise<OpenedCase> {
  const loaded = loadCase({ ...demo, ...change })
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.faults))
  const path = (name: string): string => (name.startsWith('../') ? name.slice(3) : `demo-data/${name}`)
  const made = await openCase(loaded.value, (name) => Promise.resolve(good(bytesOf(readFileSync(path(name), 'utf8')))))
  if (!made.ok) throw new Error(JSON.stringify(made.faults))
  return made.value
}

const rail = (name: string, reading: object) => ({
  line: { kind: 'rail', name },
  quantity: 'ohms',
  reading,
  typed: 'x',
})

const ranked = async (change: object) => {
  const card = await opened(change)
  return assessorFor(card.model).rankChecks(enteredOf(card))
}

test('with a shorted rail no check under power is proposed, and it is said how many wait', async () => {
  const { checks, waiting } = await ranked({ measurements: [rail('VMEM', { kind: 'short' })] })
  expect(checks.length).toBeGreaterThan(3)
  expect(checks.filter(({ powered }) => powered)).toEqual([])
  expect(waiting).toMatch(/wait: they need power/)
})

test('while power is not known, what can be done cold comes first, and the rest says what must come before it', async () => {
  const { checks, waiting } = await ranked({ measurements: [] })
  const firstPowered = checks.findIndex(({ powered }) => powered)
  expect(firstPowered).toBeGreaterThan(0)
  expect(checks.slice(firstPowered).every(({ powered }) => powered)).toBe(true)
  for (const { caution } of checks.slice(firstPowered)) expect(caution).toMatch(/^Not before every rail is measured/)
  expect(waiting).toBeUndefined()
})
