/** Counts as a file: what is in it, what is refused, and that nothing counts twice. */
import { fc, test as lawTest } from '@fast-check/vitest'
import { expect, test } from 'vitest'
import {
  type BoardCounts,
  countCards,
  countsFileOf,
  doubtOf,
  noBoardCounts,
  readCounts,
  refusalOf,
} from '../../src/rehearsal/index.ts'
import { anyCard, card, part } from './support.ts'

const some = countCards([card({ parts: [part({ ref: 'U1' })] }), card({ board: 'board-b' })])
const textOf = (counts: BoardCounts, names: 'with boards' | 'without boards' = 'without boards'): string =>
  JSON.stringify(countsFileOf(counts, names))
const record = (own: BoardCounts, ...pools: readonly BoardCounts[]) => ({
  own,
  pools: pools.map((pool, i) => ({ ...pool, name: `shop ${i}` })),
})

lawTest.prop([fc.array(anyCard, { maxLength: 6 })])('what is written is read back the same', (cards) => {
  const counts = countCards(cards)
  expect(readCounts(textOf(counts, 'with boards'))).toEqual({ ok: true, value: counts })
  expect(readCounts(textOf(counts))).toEqual({ ok: true, value: { all: counts.all, boards: {} } })
})

lawTest.prop([fc.array(anyCard, { minLength: 1, maxLength: 6 })])(
  'no ref, day, lane or board name is in it',
  (cards) => {
    const text = textOf(countCards(cards))
    for (const secret of ['U1', 'U2', 'Q1', 'VMEM', '2026', 'board-a', 'A0']) expect(text).not.toContain(secret)
  },
)

const faultOf = (change: object): string => {
  const read = readCounts(JSON.stringify({ ...countsFileOf(some, 'with boards'), ...change }))
  return read.ok ? 'read' : read.faults.map(({ path, found, expected }) => `${path}: ${found}, ${expected}`).join('\n')
}

test('another kind of file, a newer version, a figure nobody knows and sums that do not add up are refused with words', () => {
  expect(faultOf({ format: 'liftmap-case' })).toBe('$.format: "liftmap-case", liftmap-counts')
  expect(faultOf({ version: 2 })).toBe('$.version: 2, at most 1')
  expect(faultOf({ owner: 'somebody' })).toContain('no such field')
  expect(faultOf({ all: { cards: 2, shares: { 'prior.dye': { hits: 0, tries: 4 } }, minutes: {} } })).toContain(
    '$.all.shares["prior.dye"]: prior.dye, a figure that this Liftmap learns',
  )
  expect(faultOf({ all: { ...some.all, shares: { 'prior.die': { hits: 5, tries: 4 } } } })).toContain('at most as many')
  expect(faultOf({ all: { ...some.all, cards: 1 } })).toContain('$.boards: more than all boards together')
  expect(faultOf({ all: { ...some.all, cards: -1 } })).toContain('at least 0')
  expect(readCounts('{').ok).toBe(false)
})

test('the same file is taken in once, whether it names boards or not', () => {
  const ours = countCards([card({ board: 'board-c' })])
  expect(refusalOf(some, record(ours))).toBeUndefined()
  expect(refusalOf(some, record(ours, some))).toBe(
    'These very counts are here already, as “shop 0”: taken in again, every card would count twice.',
  )
  expect(refusalOf({ all: some.all, boards: {} }, record(ours, some))).toContain('“shop 0”')
})

test('a shop’s own counts and an empty file are not taken in', () => {
  expect(refusalOf(some, record(some))).toContain('this shop’s own counts')
  expect(refusalOf(noBoardCounts, record(some))).toContain('nothing in this file')
})

test('a file that could be a later one of the same shop raises a doubt, one that could not does not', () => {
  const later = countCards([card({ parts: [part({ ref: 'U1' })] }), card({ board: 'board-b' }), card()])
  expect(doubtOf(later, record(noBoardCounts, some))).toContain('All that “shop 0” counts could be in this file too')
  expect(doubtOf(some, record(noBoardCounts, later))).toContain('could be in “shop 0” too')
  const other = countCards([card({ parts: [part({ ref: 'U2', was: 'joints' })] })])
  expect(doubtOf(other, record(noBoardCounts, countCards([card({ parts: [part({ ref: 'U1' })] })])))).toBeUndefined()
})
