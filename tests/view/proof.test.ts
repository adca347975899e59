/** The proof on the screen: which region shows what, dots inside of their polygon, and what the list of stations says. */
import fc from 'fast-check'
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { loadBoard } from '../../src/board/index.ts'
import { CASE_VERSION, type Case, loadCase } from '../../src/case/index.ts'
import { dotsIn } from '../../src/base/index.ts'
import { middleOf, type ProofKind, proofKinds, proofRegions } from '../../src/view/sheet/pure/proofRegions.ts'
import { createProofOfCase } from '../../src/view/stores/proofOfCase.ts'
import { proofState } from '../../src/view/stations/proof/state.ts'
import { moreWords, proofLanesOf } from '../../src/view/stations/proof/proofWords.ts'
import { createTallyOfCase } from '../../src/view/stores/derive.ts'

const loaded = loadBoard(JSON.parse(readFileSync(new URL('../../boards/bowline-8.json', import.meta.url), 'utf8')))
if (!loaded.ok) throw new Error('the board of this test did not load')
const model = loaded.value
const [a, b] = model.lanes
if (a === undefined || b === undefined) throw new Error('the board has lanes')

const reportsOf = (reports: readonly object[]): Case['reports'] => {
  const read = loadCase({
    format: 'liftmap-case',
    version: CASE_VERSION,
    title: 'a card',
    board: { path: 'bowline-8.json' },
    reports,
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.value.reports
}
const table = (...rows: [string, number][]) => rows.map(([lane, errors]) => ({ lane, errors }))
const none = new Map<string, never>()

function proofFor(reports: Case['reports']) {
  const tally = createTallyOfCase('first')(model, reports, none)
  return createProofOfCase()(model, reports, none, tally)
}

describe('regions', () => {
  test('both ends of a lane show what became of it', () => {
    const regions = proofRegions(model, new Map<string, ProofKind>([[a.id, 'gone']]))
    expect(regions.get(a.memoryRegion)).toBe('gone')
    if (a.coreRegion !== undefined) expect(regions.get(a.coreRegion)).toBe('gone')
    expect(regions.size).toBe(new Set([a.memoryRegion, a.coreRegion].filter(Boolean)).size)
  })

  test('where lanes share a region the gravest shows, in whatever order they come', () => {
    const shared = { ...b, memoryRegion: a.memoryRegion }
    const sharing = { ...model, laneById: new Map([...model.laneById, [b.id, shared]]) }
    fc.assert(
      fc.property(fc.constantFrom(...proofKinds), fc.constantFrom(...proofKinds), (one, other) => {
        const gravest = proofKinds.find((kind) => kind === one || kind === other)
        for (const lanes of [
          [[a.id, one] as const, [b.id, other] as const],
          [[b.id, other] as const, [a.id, one] as const],
        ]) {
          expect(proofRegions(sharing, new Map(lanes)).get(a.memoryRegion)).toBe(gravest)
        }
      }),
      { seed: 91 },
    )
  })

  test('a lane that the board lacks is left out', () => {
    expect(proofRegions(model, new Map<string, ProofKind>([['nowhere', 'fresh']])).size).toBe(0)
  })
})

describe('dots and middles', () => {
  const box = fc.record({
    x: fc.integer({ min: -200, max: 200 }),
    y: fc.integer({ min: -200, max: 200 }),
    w: fc.integer({ min: 13, max: 150 }),
    h: fc.integer({ min: 13, max: 150 }),
  })
  const cornersOf = ({ x, y, w, h }: { x: number; y: number; w: number; h: number }) => [
    { x, y },
    { x: x + w, y },
    { x: x + w, y: y + h },
    { x, y: y + h },
  ]

  test('lie inside, on a lattice of the given spacing, about one a square of it', () => {
    fc.assert(
      fc.property(box, (area) => {
        const dots = dotsIn(cornersOf(area), 6)
        for (const { x, y } of dots) {
          expect(x).toBeGreaterThanOrEqual(area.x)
          expect(x).toBeLessThanOrEqual(area.x + area.w)
          expect(y).toBeGreaterThan(area.y - 1e-9)
          expect(y).toBeLessThan(area.y + area.h + 1e-9)
          expect(Math.abs(x / 6 - Math.round(x / 6))).toBeLessThan(1e-9)
        }
        expect(dots.length).toBeGreaterThanOrEqual(Math.floor(area.w / 6) * Math.floor(area.h / 6))
        expect(dots.length).toBeLessThanOrEqual((Math.floor(area.w / 6) + 1) * (Math.floor(area.h / 6) + 1))
      }),
      { seed: 92 },
    )
  })

  test('the middle of an L is its centre of area, and of a line the mean of its ends', () => {
    const l = [
      { x: 0, y: 0 },
      { x: 4, y: 0 },
      { x: 4, y: 2 },
      { x: 2, y: 2 },
      { x: 2, y: 4 },
      { x: 0, y: 4 },
    ]
    // By hand: 8 at (2, 1) and 4 at (1, 3) weigh out at (20/12, 20/12).
    expect(middleOf(l).x).toBeCloseTo(20 / 12, 12)
    expect(middleOf(l).y).toBeCloseTo(20 / 12, 12)
    expect(
      middleOf([
        { x: 1, y: 1 },
        { x: 3, y: 5 },
      ]),
    ).toEqual({ x: 2, y: 3 })
  })
})

describe('what is shown', () => {
  const first = { name: 'first', table: table([a.id, 9], [b.id, 4]) }

  test('a lane that passes and passed before is drawn as ever; others by their verdict', () => {
    const lanes = proofLanesOf(
      proofFor(reportsOf([first, { name: 'r', run: 'retest', table: table([a.id, 0], [b.id, 2]), coversAll: true }])),
    )
    expect([...lanes]).toEqual([
      [a.id, 'gone'],
      [b.id, 'still'],
    ])
  })

  test('what changes neither tallies nor passes gives the same proof again', () => {
    const proofOfCase = createProofOfCase()
    const reports = reportsOf([first])
    const tally = createTallyOfCase('first')(model, reports, none)
    expect(proofOfCase(model, reports, new Map(), tally)).toBe(proofOfCase(model, reports, new Map(), tally))
  })

  test('noting passes of a retest leaves the tally of the first run the same object', () => {
    const tallyOf = createTallyOfCase('first')
    const before = reportsOf([first, { name: 'r', run: 'retest', table: [] }])
    const after = before.map((report) => (report.run === 'retest' ? { ...report, testPasses: 4 } : report))
    expect(tallyOf(model, after, none)).toBe(tallyOf(model, before, none))
  })

  test('a lane’s bits and trend are put in words', () => {
    const rows = (bits: readonly number[]) => bits.map((bit) => ({ lane: a.id, bit, errors: 1 }))
    const { lanes } = proofFor(
      reportsOf([
        { name: 'first', table: rows([0, 1, 2]) },
        { name: 'r', run: 'retest', table: rows([1, 6]) },
      ]),
    )
    const lane = lanes.find(({ id }) => id === a.id)
    expect(lane && moreWords(lane)).toBe('fewer errors; bit 6 new; bit 1 still; bits 0, 2 gone')
  })

  test('the list of stations says what fails, what was not tested again, how many runs there were', () => {
    const state = (...retests: object[]) => {
      const reports = reportsOf([first, ...retests.map((report) => ({ run: 'retest', ...report }))])
      const { state: filled, words, lacks } = proofState({ reports }, proofFor(reports))
      return { filled, words, lacks }
    }
    expect(state()).toEqual({ filled: 'empty', words: 'not tested again yet', lacks: undefined })
    expect(state({ name: 'r', table: [], coversAll: true, testPasses: 8 })).toEqual({
      filled: 'done',
      words: '8 runs without an error',
      lacks: undefined,
    })
    expect(state({ name: 'r', table: table([a.id, 0]), testPasses: 1 })).toMatchObject({
      filled: 'partly',
      words: '1 run without an error',
      lacks: `${model.lanes.length - 1} lanes not tested again`,
    })
    expect(state({ name: 'r', table: table([b.id, 3]), coversAll: true })).toMatchObject({
      filled: 'partly',
      words: '1 lane fails after the work',
      lacks: 'errors remain',
    })
    const [, , c] = model.lanes
    expect(state({ name: 'r', table: table([c?.id ?? '', 3]), coversAll: true })).toMatchObject({
      lacks: 'one of them is new',
    })
  })
})
