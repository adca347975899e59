/** A case keeps what each report came to: opened later, it says what is read otherwise. */
import { expect, test } from 'vitest'
import { CASE_VERSION, openCase, readCase } from '../../src/case/index.ts'
import { bad } from '../../src/base/index.ts'
import { shippedBoard } from '../support/read-board.ts'

const text = 'U13 A0 1200\nU11 A0 0\n'
const now = { sure: 'sure', rows: 2, parts: { U13: 1200 }, failing: ['U13.A0'], passing: ['U11.A0'] }

async function changedIn(read: unknown): Promise<unknown> {
  const { description } = shippedBoard('bowline-8')
  const file = readCase(
    JSON.stringify({
      format: 'liftmap-case',
      version: CASE_VERSION,
      title: 'one card',
      board: { inline: description },
      reports: [{ name: 'night.txt', text, read }],
    }),
    'case',
  )
  if (!file.ok) throw new Error(JSON.stringify(file.faults))
  const opened = await openCase(file.value, async () => bad({ path: '', found: 'no file', expected: 'none' }))
  return opened.ok ? opened.value.changed : opened.faults
}

test('a report that reads as it did says nothing', async () => {
  expect(await changedIn(now)).toEqual([])
})

test('a report that reads otherwise is named with what changed', async () => {
  const before = { ...now, parts: { U13: 1100 }, failing: [], passing: ['U11.A0', 'U13.A0'] }
  expect(await changedIn(before)).toEqual([
    { report: 'night.txt', sentences: ['U13.A0: passed before, fails now.', 'U13 had 1,100 errors, now 1,200.'] },
  ])
})

test('a case from before that time has nothing to hold it against', async () => {
  expect(await changedIn(undefined)).toEqual([])
})
