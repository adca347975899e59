/** What owners say weeks later, as Beta counts by hand. */
import { expect, test } from 'vitest'
import { assumptionsFrom, type ClosedCard, countCards, countsOf, learntFigures } from '../../src/rehearsal/index.ts'
import { learnableCures, withAssumptions } from '../../src/suspects/index.ts'
import { card, part } from './support.ts'

const reballed = (held: boolean | undefined): ClosedCard =>
  card({ held, known: held !== false, parts: [part({ ref: 'U1', was: 'joints', refitted: 'the same' })] })
const cureOf = (cards: readonly ClosedCard[]) =>
  learntFigures(countCards(cards).all).find(({ figure }) => figure.id === 'cure.reballJoints')

test('a card that still works is one hit of one try of its remedy, the same fault back one miss', () => {
  expect(countsOf(reballed(true)).shares['cure.reballJoints']).toEqual({ hits: 1, tries: 1 })
  expect(countsOf(reballed(false)).shares['cure.reballJoints']).toEqual({ hits: 0, tries: 1 })
})

test('a card whose owner nobody asked says nothing of what lasts', () => {
  expect(countsOf(reballed(undefined)).shares).not.toHaveProperty(['cure.reballJoints'])
})

// 0.95 ships and is worth 50 tries: Beta(47.5, 2.5). Three hits: Beta(50.5, 2.5). One of them back: Beta(49.5, 3.5).
test('new balls: 0.95 becomes 50.5 / 53 after three that hold, and 49.5 / 53 where one of the three comes back', () => {
  expect(learnableCures.reballJoints).toBe(0.95)
  expect(cureOf([reballed(true), reballed(true), reballed(true)])?.learnt).toBeCloseTo(50.5 / 53, 12)
  expect(cureOf([reballed(true), reballed(true), reballed(false)])?.learnt).toBeCloseTo(49.5 / 53, 12)
})

test('what is learnt stands in place of what ships, and nothing else changes', () => {
  const record = { own: countCards([reballed(true), reballed(false)]), pools: [] }
  const { cures } = assumptionsFrom(record, undefined)
  // Beta(47.5 + 1, 2.5 + 1)
  expect(cures?.reballJoints).toBeCloseTo(48.5 / 52, 12)
  expect(Object.keys(cures ?? {})).toEqual(['reballJoints'])
  expect(withAssumptions({ cures: cures ?? {} }).cures).toEqual(cures)
})

test.each([
  ['a bad package, a new one', { was: 'bad', refitted: 'a new one' }, false, 'cure.replaceDie'],
  ['what lay under it, put back', { was: 'under', refitted: 'the same' }, false, 'cure.reballBeneath'],
  ['liquid metal under it, put back', { was: 'under', refitted: 'the same' }, true, 'cure.reballBeneathMetal'],
  ['what lay under it, a new one', { was: 'under', refitted: 'a new one' }, false, 'cure.replaceBeneath'],
] as const)('%s', (_, change, metal, id) => {
  const counts = countsOf(card({ held: true, metal, parts: [part({ ref: 'U1', ...change })] }))
  expect(Object.keys(counts.shares).filter((each) => each.startsWith('cure.'))).toEqual([id])
})

test('a rail that was put right', () => {
  expect(countsOf(card({ held: true, others: [{ what: 'rail', at: 'VMEM' }] })).shares['cure.repairBeside']).toEqual({
    hits: 1,
    tries: 1,
  })
})

test.each([
  [
    'two causes',
    [part({ ref: 'U1', was: 'joints', refitted: 'the same' }), part({ ref: 'U2', refitted: 'a new one' })],
  ],
  ['a bad package that was put back', [part({ ref: 'U1', was: 'bad', refitted: 'the same' })]],
  ['a part that was to blame and is not on again', [part({ ref: 'U1', was: 'joints' })]],
])('%s: nobody can say which remedy held', (_, parts) => {
  const { shares } = countsOf(card({ held: true, parts }))
  expect(Object.keys(shares).filter((id) => id.startsWith('cure.'))).toEqual([])
})

test('a part that was fine beside the one that was to blame takes nothing away', () => {
  const parts = [
    part({ ref: 'U1', was: 'joints', refitted: 'the same' }),
    part({ ref: 'U2', was: 'fine', refitted: 'the same' }),
  ]
  expect(countsOf(card({ held: true, parts })).shares['cure.reballJoints']).toEqual({ hits: 1, tries: 1 })
})
