/** Laws of the record: whatever cards came in, in whatever order, from however many shops. */
import { fc, test as lawTest } from '@fast-check/vitest'
import { expect, test } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
import {
  addBoardCounts,
  assumptionsFrom,
  basisFor,
  countCards,
  learntBeta,
  learntFigures,
  noBoardCounts,
  betaMean,
  shareFigures,
  minuteFigures,
  shopWeights,
} from '../../src/rehearsal/index.ts'
import { defaultAssumptions, shippedAssumptions, withAssumptions } from '../../src/suspects/index.ts'
import { anyCard, card, memoryRefs, part, places } from './support.ts'

/** That a card of the tests' board has something wrong with it, by the shipped priors. */
const anyWrong =
  1 -
  Object.entries({ ...places, 'unreported-spill': 1 }).reduce(
    (none, [kind, count]) => none * (1 - Number(shippedAssumptions['prior']?.[kind]?.value)) ** count,
    1,
  )

const cards = fc.array(anyCard, { maxLength: 12 })
const recordOf = (own: ReturnType<typeof countCards>) => ({ own, pools: [] })

test('no cards leave the shipped figures', () => {
  const overrides = assumptionsFrom(recordOf(noBoardCounts), 'board-a')
  expect(overrides).toEqual({})
  expect(withAssumptions(overrides)).toEqual(defaultAssumptions)
})

test('there are figures of every kind to be learnt', () => {
  const sections = new Set([...shareFigures, ...minuteFigures].map(({ section }) => section))
  expect([...sections].toSorted()).toEqual(['check', 'cost', 'cure', 'evidence', 'prior', 'risk'])
  expect(shareFigures.length).toBeGreaterThan(40)
  expect(minuteFigures).toHaveLength(3)
})

lawTest.prop([cards])('every figure that is counted is one that ships', (some) => {
  const known = new Set([...shareFigures, ...minuteFigures].map(({ id }) => id))
  const { shares, minutes } = countCards(some).all
  expect([...Object.keys(shares), ...Object.keys(minutes)].filter((id) => !known.has(id))).toEqual([])
})

lawTest.prop([cards, fc.infiniteStream(fc.integer())])('the order of the cards does not matter', (some, keys) => {
  const shuffled = some
    .map((each) => ({ each, key: keys.next().value }))
    .toSorted((a, b) => a.key - b.key)
    .map(({ each }) => each)
  expect(countCards(shuffled)).toEqual(countCards(some))
})

lawTest.prop([cards, cards])('pooling two shops is adding their counts', (ours, theirs) => {
  const together = countCards([...ours, ...theirs])
  expect(addBoardCounts(countCards(ours), countCards(theirs))).toEqual(together)
  const shared = { own: countCards(ours), pools: [{ name: 'theirs', ...countCards(theirs) }] }
  expect(assumptionsFrom(shared, 'board-a')).toEqual(assumptionsFrom(recordOf(together), 'board-a'))
})

lawTest.prop([cards])('a learnt share lies between what ships and what was seen, and inside 0 and 1', (some) => {
  for (const { figure, learnt, seen, scale, sd } of learntFigures(countCards(some).all)) {
    const share = (scale * seen.hits) / seen.tries
    expect(scale).toBeGreaterThan(0)
    expect(scale).toBeLessThanOrEqual(1)
    expect(learnt).toBeGreaterThanOrEqual(Math.min(figure.shipped, share) - 1e-12)
    expect(learnt).toBeLessThanOrEqual(Math.max(figure.shipped, share) + 1e-12)
    if (figure.section !== 'cost') {
      expect(learnt).toBeGreaterThanOrEqual(0)
      expect(learnt).toBeLessThanOrEqual(1)
      expect(sd).toBeGreaterThan(0)
    }
  }
})

lawTest.prop([
  fc.double({ min: 0, max: 1, noNaN: true }),
  fc.double({ min: 0.1, max: 500, noNaN: true }),
  fc.nat(400),
  fc.nat(400),
])('one more hit never lowers a share, one more miss never raises it', (shipped, weight, hits, misses) => {
  const share = (h: number, m: number): number => betaMean(learntBeta(shipped, weight, { hits: h, tries: h + m }))
  const now = share(hits, misses)
  expect(share(hits + 1, misses)).toBeGreaterThanOrEqual(now)
  expect(share(hits, misses + 1)).toBeLessThanOrEqual(now)
})

test('a board with enough cards counts alone, one with fewer leans on all boards', () => {
  const enough = shopWeights.boardCards.value
  const ofA = Array.from({ length: enough }, () => card({ parts: [part({ ref: 'U1' })] }))
  const ofB = Array.from({ length: enough - 1 }, () => card({ board: 'board-b' }))
  const record = recordOf(countCards([...ofA, ...ofB]))
  expect(basisFor(record, 'board-a').board).toBe('board-a')
  expect(basisFor(record, 'board-a').counts.cards).toBe(enough)
  expect(basisFor(record, 'board-b')).toMatchObject({ board: undefined, counts: { cards: 2 * enough - 1 } })
  expect(basisFor(record, 'toString').board).toBeUndefined()
})

test('fifty cards move a prior half-way to what was seen among cards that had failed', () => {
  const every = Array.from({ length: 50 }, () => card({ parts: [part({ ref: 'U1' })] }))
  const { prior } = assumptionsFrom(recordOf(countCards(every)), undefined)
  // one of four dies a card, where so many cards have something wrong at all
  expect(prior?.die).toBeCloseTo((defaultAssumptions.prior.die + 0.25 * anyWrong) / 2, 12)
})

test('of cards that come in because they failed, the priors come to how often each place fails of itself', () => {
  const random = seededRandom(20260309)
  // dies alone fail, as often as all causes together by the shipped priors: (1 − p)^4 = 1 − anyWrong
  const often = 1 - (1 - anyWrong) ** (1 / 4)
  const drawn = Array.from({ length: 12_000 }, () =>
    memoryRefs.flatMap((ref) => (random.next() < often ? [part({ ref, harmed: random.next() < 0.2 })] : [])),
  )
  const came = drawn.filter((parts) => parts.length > 0).map((parts) => card({ parts }))
  const { prior, risk } = assumptionsFrom(recordOf(countCards(came)), undefined)
  // four standard deviations of as many dies, and what fifty cards and tries still hold back
  const sd = Math.sqrt((often * (1 - often)) / (4 * drawn.length))
  expect(Math.abs((prior?.die ?? 0) - often)).toBeLessThan(4 * sd + often * (50 / came.length))
  expect(prior?.core).toBeLessThan(0.001)
  expect(Math.abs((risk?.memoryDamage ?? 0) - 0.2)).toBeLessThan(
    4 * Math.sqrt((0.2 * 0.8) / came.length) + 0.18 * (50 / came.length),
  )
})

test('checks are learnt within the bounds of the catalogue, however often they were right', () => {
  const always = Array.from({ length: 3000 }, () =>
    card({
      parts: [part({ ref: 'U1', was: 'joints', failing: ['U1.A0'] })],
      checks: [
        { check: 'press', at: 'U1', found: true },
        { check: 'press', at: 'U2', found: false },
      ],
    }),
  )
  const { checks } = assumptionsFrom(recordOf(countCards(always)), undefined)
  // (0.55 · 50 + 3000) / 3050 = 0.9926 and 0.03 · 50 / 3050 = 0.0005 lie outside
  expect(checks?.['press']).toEqual({ finds: { joints: 0.99 }, falseAlarm: 0.001 })
})

test('minutes are the mean of noted lifts with the shipped ones worth ten', () => {
  const noted = Array.from({ length: 10 }, () => card({ parts: [part({ ref: 'U1', minutes: 55 })] }))
  expect(assumptionsFrom(recordOf(countCards(noted)), undefined).cost?.minutesPerMemoryLift).toBeCloseTo(
    (73 + 55) / 2,
    12,
  )
})
