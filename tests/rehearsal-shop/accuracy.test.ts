/** How right Liftmap was: stories, lists and probabilities held against what was found. */
import { expect, test } from 'vitest'
import { accuracyOf, type ClosedCard } from '../../src/rehearsal/index.ts'
import { card, foretold, part } from './support.ts'

const story = (probability: number, ...causes: readonly [string, string, ...string[]][]) => ({
  probability,
  causes: causes.map(([kind, at, ...refs]) => ({ kind, at, refs })),
})

test('without closed cards nothing is claimed', () => {
  const { cards, first, calibrationError, months } = accuracyOf([])
  expect({ cards, first, calibrationError, months }).toEqual({
    cards: 0,
    first: { hits: 0, tries: 0, interval: undefined },
    calibrationError: undefined,
    months: [],
  })
})

test('a card counts only where its cause is known and what had been said was kept', () => {
  const kept = foretold()
  const { cards } = accuracyOf([card({ foretold: kept }), card(), card({ known: false, foretold: kept })])
  expect(cards).toBe(1)
})

const dieOfU1 = (stories: ReturnType<typeof story>[]): ClosedCard =>
  card({ parts: [part({ ref: 'U1' })], foretold: foretold({ stories }) })

test('the first story is right where it names every true cause and none beside', () => {
  const right = story(0.5, ['die', 'U1', 'U1'])
  const other = story(0.3, ['joints', 'U1/A0', 'U1'])
  const more = story(0.2, ['die', 'U1', 'U1'], ['core', 'G1', 'G1'])
  const cases = [dieOfU1([right]), dieOfU1([other, more, right]), dieOfU1([other, more])]
  const { first, firstThree } = accuracyOf(cases)
  expect(first).toMatchObject({ hits: 1, tries: 3 })
  expect(firstThree).toMatchObject({ hits: 2, tries: 3 })
  expect(first.interval?.low).toBeGreaterThan(0)
})

test.each([
  [
    'the core’s joints under a patch',
    { parts: [part({ ref: 'G1', kind: 'core', was: 'joints' })] },
    'core',
    'G1',
    'G1',
  ],
  ['a liquid told of or not', { others: [{ what: 'liquid', at: undefined }] }, 'unreported-spill', 'somewhere', 'G1'],
  ['a rail by its branch', { others: [{ what: 'rail', at: 'VMEM' }] }, 'rail-branch', 'branch x of rail VMEM', 'U1'],
  ['a track by its lane', { others: [{ what: 'track', at: 'U1.A0' }] }, 'corridor', 'U1.A0', 'U1'],
  ['a stage', { parts: [part({ ref: 'Q1', kind: 'other' })] }, 'power-stage', 'Q1', 'Q1'],
] as const)('a story that names %s is right', (_, truth, kind, at, ref) => {
  const told = foretold({ stories: [story(1, [kind, at, ref])] })
  expect(accuracyOf([card({ ...truth, foretold: told })]).first).toMatchObject({ hits: 1, tries: 1 })
})

test.each([
  ['another rail', { others: [{ what: 'rail', at: 'VMEM' }] }, 'rail', 'rail VCORE', 'G1'],
  ['another package', { parts: [part({ ref: 'U1' })] }, 'die', 'U2', 'U2'],
  ['joints in place of the die', { parts: [part({ ref: 'U1' })] }, 'joints', 'U1/A0', 'U1'],
] as const)('a story that names %s is wrong', (_, truth, kind, at, ref) => {
  const told = foretold({ stories: [story(1, [kind, at, ref])] })
  expect(accuracyOf([card({ ...truth, foretold: told })]).first).toMatchObject({ hits: 0, tries: 1 })
})

test('a sound card is no try for stories, and parts that were lifted for nothing are counted', () => {
  const parts = [part({ ref: 'U1', was: 'fine' })]
  const told = foretold({ lift: ['U1'], parts: [{ ref: 'U1', probability: 0.7 }] })
  const { first, needless, missed, liftedForNothing } = accuracyOf([card({ parts, foretold: told })])
  expect(first.tries).toBe(0)
  expect(needless).toMatchObject({ hits: 1, tries: 1 })
  expect(liftedForNothing).toMatchObject({ hits: 1, tries: 1 })
  expect(missed.tries).toBe(0)
})

test('a part that needed lifting and stood on no list was missed', () => {
  const parts = [part({ ref: 'U1' }), part({ ref: 'U2', was: 'under' })]
  const told = foretold({ lift: ['U1'], parts: [{ ref: 'U1', probability: 0.9 }] })
  expect(accuracyOf([card({ parts, foretold: told })]).missed).toMatchObject({ hits: 1, tries: 2 })
})

test('of a card that was not repaired only what was looked into counts, of a repaired one every part', () => {
  const told = foretold({ parts: ['U1', 'U2', 'U3'].map((ref) => ({ ref, probability: 0.25 })) })
  const worked = { parts: [part({ ref: 'U1' }), part({ ref: 'U2', was: 'unknown' })], foretold: told }
  const tries = (cards: readonly ClosedCard[]) => accuracyOf(cards).reliability.map((bin) => bin.tries)
  expect(tries([card({ ...worked, repaired: false })])).toEqual([0, 0, 1, 0, 0, 0, 0, 0, 0, 0])
  expect(tries([card(worked)])).toEqual([0, 0, 2, 0, 0, 0, 0, 0, 0, 0])
})

test('the curve sets what was said against what was, and its error is the mean distance weighted by parts', () => {
  const told = foretold({
    parts: [
      { ref: 'U1', probability: 1 },
      { ref: 'U2', probability: 0.92 },
      { ref: 'U3', probability: 0.04 },
      { ref: 'U4', probability: 0 },
    ],
  })
  const { reliability, calibrationError } = accuracyOf([card({ parts: [part({ ref: 'U1' })], foretold: told })])
  expect(reliability[9]).toMatchObject({ hits: 1, tries: 2, from: 0.9, to: 1 })
  expect(reliability[9]?.said).toBeCloseTo(0.96, 12)
  expect(reliability[0]).toMatchObject({ hits: 0, tries: 2 })
  // (|0.96 − 0.5| · 2 + |0.02 − 0| · 2) / 4
  expect(calibrationError).toBeCloseTo(0.24, 12)
})

test('months stand in their order, cards without a day last', () => {
  const right = dieOfU1([story(0.5, ['die', 'U1', 'U1'])])
  const cards = [
    { ...right, month: '2026-04' },
    { ...dieOfU1([]), month: '2026-03' },
    { ...right, month: '2026-03' },
  ]
  const { months } = accuracyOf([...cards, { ...right, month: undefined }])
  expect(months.map(({ month, cards: n, first }) => [month, n, first.hits])).toEqual([
    ['2026-03', 2, 1],
    ['2026-04', 1, 1],
    [undefined, 1, 1],
  ])
})
