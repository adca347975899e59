/** Whom to ask by now, from the list of cases alone; and the shop's details as a browser keeps them. */
import { expect, test } from 'vitest'
import { askAfter, type Case, dueOn, plainShop, weeksSince } from '../../src/case/index.ts'
import { summaryOf } from '../../src/view/shelf/summary.ts'
import { shopDetailsIn } from '../../src/view/stores/shopDetails.ts'
import { dueOf } from '../../src/view/shop-record/due.ts'
import { openFull } from '../support/recordCase.ts'

const { caseFile } = await openFull()
const back = (change: Partial<Case> = {}): Case => ({
  ...caseFile,
  demo: false,
  handBack: { ...caseFile.handBack, outcome: 'repaired', on: '2026-02-20' },
  ...change,
})
const said = (...answers: readonly ('works' | 'same fault back' | 'other fault' | 'not reached')[]) => ({
  followUps: answers.map((answer) => ({ on: '2026-04-03', answer, note: '' })),
})

test('six weeks after 20 February 2026 is 3 April: February has 28 days, March 31', () => {
  expect(dueOn('2026-02-20', 6)).toBe('2026-04-03')
  expect(weeksSince('2026-02-20', '2026-04-02')).toBe(5)
  expect(weeksSince('2026-02-20', '2026-04-03')).toBe(6)
})

test('a mended card is asked about until somebody answers; not one that was not mended, or has no day', () => {
  expect(askAfter(back())).toBe('2026-02-20')
  expect(askAfter(back(said('not reached')))).toBe('2026-02-20')
  for (const answer of ['works', 'same fault back', 'other fault'] as const)
    expect(askAfter(back(said(answer)))).toBeUndefined()
  expect(
    askAfter(back({ handBack: { ...caseFile.handBack, outcome: 'not repaired', on: '2026-02-20' } })),
  ).toBeUndefined()
  expect(askAfter(back({ handBack: { ...caseFile.handBack, outcome: 'repaired', on: undefined } }))).toBeUndefined()
})

test('the list of cases knows it without opening one; a demo is not asked about', () => {
  expect(summaryOf(back(), 'a board').askAfter).toBe('2026-02-20')
  expect(summaryOf(back({ demo: true }), 'a board')).not.toHaveProperty('askAfter')
})

test('due are those that went back so many weeks ago or more, the longest ago first', () => {
  const entry = (id: string, on: string | undefined) => ({
    ...summaryOf(back({ handBack: { ...caseFile.handBack, outcome: 'repaired', on } }), 'a board'),
    id,
    createdAt: 0,
    changedAt: 0,
    archived: false,
    rev: 1,
    newer: false,
  })
  const all = [
    entry('late', '2026-02-21'),
    entry('due', '2026-02-20'),
    entry('long', '2025-11-02'),
    entry('none', undefined),
  ]
  expect(dueOf(all, 6, '2026-04-03').map(({ id }) => id)).toEqual(['long', 'due'])
})

test('the shop’s details last in the browser, and another tab’s are read again', () => {
  const kept = new Map<string, string>()
  const storage = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  }
  const [first, second] = [shopDetailsIn(storage), shopDetailsIn(storage)]
  first.setState({ taxPct: 19, lastInvoice: { year: 2026, number: 17 } })
  expect(second.getState().taxPct).toBe(0)
  expect(second.readAgain()).toMatchObject({ taxPct: 19, lastInvoice: { year: 2026, number: 17 } })
  expect(shopDetailsIn(storage).getState().taxPct).toBe(19)
})

test('details that can’t be read, and a browser that keeps nothing, are those of a plain shop', () => {
  const broken = { getItem: () => '{"taxPct": "much"}', setItem: () => undefined }
  expect(shopDetailsIn(broken).getState()).toEqual(plainShop)
  const forbidden = {
    getItem: () => {
      throw new Error('forbidden')
    },
    setItem: () => {
      throw new Error('forbidden')
    },
  }
  const shop = shopDetailsIn(forbidden)
  shop.setState({ taxPct: 7 })
  expect(shop.getState().taxPct).toBe(7)
})
