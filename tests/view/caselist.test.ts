/** The list of cases: which it shows, in which order, and how old each is said to be. */
import { test as property } from '@fast-check/vitest'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { agoWords, daysBetween, stayWords } from '../../src/view/caselist/age.ts'
import { type CaseChoice, chooseCases, everyCase } from '../../src/view/caselist/choose.ts'
import { dayOf } from '../../src/view/actions/clock.ts'
import { dueOf, dueWords } from '../../src/view/caselist/due.ts'
import { codeFor, codeWords } from '../../src/case/index.ts'
import type { ShelfEntry } from '../../src/view/shelf/caseShelf.ts'

const entry = (id: string, change: Partial<ShelfEntry> = {}): ShelfEntry => ({
  id,
  title: id,
  owner: '',
  boardName: 'bowline-8',
  demo: false,
  goodCard: false,
  createdAt: 0,
  changedAt: 0,
  archived: false,
  furthest: 'arrival',
  visit: 'arrived',
  words: id,
  rev: 1,
  newer: false,
  ...change,
})
const shown = (entries: readonly ShelfEntry[], choice: Partial<CaseChoice>): string[] =>
  chooseCases(entries, { ...everyCase, ...choice }, '2026-03-10').map(({ id }) => id)

const cases = [
  entry('a', { words: 'wept fitting 0417 mira coolant bowline-8', changedAt: 3, arrivedOn: '2026-03-02' }),
  entry('b', { words: 'slipped tool 0418 jon', changedAt: 5, arrivedOn: '2026-03-01', visit: 'judged' }),
  entry('c', { words: 'old coolant 0100 mira', changedAt: 1, arrivedOn: '2026-01-01', archived: true }),
]

test('the bench is shown with the last changed first; archived cases only where they are asked for', () => {
  expect(shown(cases, {})).toEqual(['b', 'a'])
  expect(shown(cases, { where: 'archive' })).toEqual(['c'])
  expect(shown(cases, { where: 'all' })).toEqual(['b', 'a', 'c'])
})

test('sorted by arrival, the card that has waited longest comes first', () => {
  expect(shown(cases, { where: 'all', order: 'arrived' })).toEqual(['c', 'b', 'a'])
  const untold = entry('d', { createdAt: Date.UTC(2026, 1, 1, 12) })
  expect(shown([...cases, untold], { order: 'arrived' })).toEqual(['d', 'b', 'a'])
})

test('every word that is typed must be in the case, in any order and any case of letters', () => {
  expect(shown(cases, { typed: 'MIRA  Coolant' })).toEqual(['a'])
  expect(shown(cases, { typed: 'mira', where: 'all' })).toEqual(['a', 'c'])
  expect(shown(cases, { typed: 'mira jon', where: 'all' })).toEqual([])
  expect(shown(cases, { visit: 'judged' })).toEqual(['b'])
})

property.prop([fc.array(fc.string({ maxLength: 4 }), { maxLength: 20 }), fc.string({ maxLength: 5 })], { seed: 7 })(
  'typing more never shows more, and nothing is shown twice',
  (names, typed) => {
    const entries = names.map((name, i) => entry(`${i} ${name}`, { words: name.toLowerCase() }))
    const all = shown(entries, { typed })
    const fewer = shown(entries, { typed: `${typed} a` })
    expect(new Set(all).size).toBe(all.length)
    expect(fewer.every((id) => all.includes(id))).toBe(true)
  },
)

test.each([
  ['2026-03-14', '2026-03-14', 'today'],
  ['2026-03-13', '2026-03-14', '1 day'],
  ['2026-02-26', '2026-03-15', '17 days'],
  ['2028-02-28', '2028-03-01', '2 days'],
  ['2026-03-16', '2026-03-14', 'in 2 days'],
  ['no day', '2026-03-14', 'not known'],
])('a card that came on %s is on %s said to be there: %s', (from, to, words) => {
  expect(stayWords(from, to)).toBe(words)
})

property.prop([fc.integer({ min: 0, max: 40_000 }), fc.integer({ min: 0, max: 4000 })], { seed: 7 })(
  'days are counted by the calendar',
  (first, more) => {
    const day = (n: number): string => new Date(n * 86_400_000).toISOString().slice(0, 10)
    expect(daysBetween(day(first), day(first + more))).toBe(more)
  },
)

test('the last change is told finely on its day and by calendar days after it', () => {
  const now = new Date(2026, 2, 14, 9, 30).getTime()
  const words = (back: number): string => agoWords(now - back, now, dayOf)
  expect(words(20_000)).toBe('just now')
  expect(words(5 * 60_000)).toBe('5 min ago')
  expect(words(3 * 3_600_000)).toBe('3 h ago')
  expect(words(10 * 3_600_000)).toBe('yesterday')
  expect(words(50 * 3_600_000)).toBe('2 days ago')
})

const promised = [
  entry('late', { dueOn: '2026-03-08', changedAt: 1 }),
  entry('today', { dueOn: '2026-03-10', changedAt: 2 }),
  entry('soon', { dueOn: '2026-03-13', changedAt: 3 }),
  entry('later', { dueOn: '2026-03-14', changedAt: 4 }),
  entry('given back', { dueOn: '2026-03-01', visit: 'handed back', changedAt: 5 }),
  entry('unpromised', { changedAt: 6 }),
]

test('sorted by due day, what is overdue comes first and what nobody waits for last', () => {
  expect(shown(promised, { order: 'due' })).toEqual(['late', 'today', 'soon', 'later', 'unpromised', 'given back'])
})

test('overdue and due soon are told by the day, and a card that was handed back is neither', () => {
  expect(shown(promised, { visit: 'overdue' })).toEqual(['late'])
  expect(shown(promised, { visit: 'due soon', order: 'due' })).toEqual(['late', 'today', 'soon'])
})

test.each([
  ['2026-03-08', 'overdue 2 days'],
  ['2026-03-09', 'overdue 1 day'],
  ['2026-03-10', 'today'],
  ['2026-03-11', 'tomorrow'],
  ['2026-04-01', 'in 22 days'],
])('on 10 March a card that is due on %s is %s', (dueOn, words) => {
  const due = dueOf(entry('a', { dueOn }), '2026-03-10')
  expect(due && dueWords(due)).toBe(words)
})

test('a code finds its case with and without its hyphen, in small letters and with spaces', () => {
  const code = codeFor('a')
  const withCode = [entry('a', { code, words: `x ${code.toLowerCase()}` }), entry('b', { words: 'x' })]
  for (const typed of [code, codeWords(code), codeWords(code).toLowerCase(), code.split('').join(' ')])
    expect(shown(withCode, { typed })).toEqual(['a'])
})
