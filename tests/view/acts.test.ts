/** What the status line says of a change, what the hand can do, and which letter takes which tool. */
import { expect, test } from 'vitest'
import { CASE_VERSION, type Case, caseSchema } from '../../src/case/index.ts'
import { barTools, LOCK_KEY } from '../../src/view/actions/tools.ts'
import { entries } from '../../src/view/stations/entries.ts'
import { actWords, movedWords } from '../../src/view/stores/acts.ts'
import { hintOf } from '../../src/view/stores/hints.ts'

const caseWith = (change: object): Case =>
  caseSchema.parse({ format: 'liftmap-case', version: CASE_VERSION, title: 'x', board: { path: 'b.json' }, ...change })
const spill = {
  kind: 'spill',
  id: 's',
  side: 'top',
  at: { x: 1, y: 1 },
  sdMm: 4,
  substance: 'water',
  amount: { volumeMl: 1 },
}
const residue = { kind: 'residue', id: 'r', side: 'top', at: { x: 1, y: 1 }, radiusMm: 2 }
const pass = { action: 'lift', refs: ['U1'], outcome: 'done' }

const empty = caseWith({})
const marked = caseWith({ marks: [spill] })

test.each<[string, Case, Case]>([
  ['Spill set.', empty, marked],
  ['Spill removed.', marked, empty],
  ['Spill moved.', marked, caseWith({ marks: [{ ...spill, at: { x: 2, y: 1 } }] })],
  ['Spill changed.', marked, caseWith({ marks: [{ ...spill, sdMm: 5 }] })],
  ['Residue marked.', empty, caseWith({ marks: [residue] })],
  ['Step noted.', empty, caseWith({ passes: [pass] })],
  ['Last step taken back.', caseWith({ passes: [pass] }), empty],
])('%s is said of what was done', (words, before, after) => {
  expect(actWords(before, after)).toBe(words)
})

test('typing in a field is said by the field alone', () => {
  expect(actWords(empty, { ...empty, title: 'another' })).toBeUndefined()
})

test('the parts whose need moved most are told from what to what, those that hardly moved are not', () => {
  const before = [
    { ref: 'U1', probability: 0.48 },
    { ref: 'U2', probability: 0.5 },
    { ref: 'U3', probability: 0.1 },
  ]
  const after = [
    { ref: 'U1', probability: 0.95 },
    { ref: 'U2', probability: 0.502 },
    { ref: 'U3', probability: 0.3 },
  ]
  expect(movedWords(before, after).replaceAll('\u00a0', ' ')).toBe('U1 48 to 95 %, U3 10 to 30 %')
  expect(movedWords(before, before)).toBe('')
})

const holding = {
  tool: 'select',
  painting: { manner: 'circle', brushMm: 2 },
  selection: undefined,
  isNaming: false,
  isLocked: false,
  isCoarse: false,
} as const

test('the hint says what a click, a finger or a key does with what is in the hand', () => {
  expect(hintOf({ ...holding, tool: 'spill' })).toBe('Click where it landed. Escape ends')
  expect(hintOf({ ...holding, tool: 'spill', isCoarse: true })).toMatch(/^Tap where it landed/)
  expect(hintOf({ ...holding, isCoarse: true })).toMatch(/two fingers zoom/i)
  expect(hintOf({ ...holding, tool: 'dam', isLocked: true })).toMatch(/The tool stays/)
  expect(hintOf({ ...holding, tool: 'film', painting: { manner: 'brush', brushMm: 2 } })).toMatch(/\[ and \]/)
  expect(hintOf({ ...holding, selection: { kind: 'mark', id: 's' } })).toMatch(/Delete removes it/)
})

test('each tool has a letter of its own, and no station has that key', () => {
  const keys = [...barTools.map(({ key }) => key), LOCK_KEY]
  expect(new Set(keys).size).toBe(keys.length)
  for (const { key } of Object.values(entries)) expect(keys).not.toContain(key)
  expect(entries['hand-back'].key).toBe('0')
})
