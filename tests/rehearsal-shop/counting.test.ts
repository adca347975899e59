/** What one closed card adds to the counts, case by case. */
import { expect, test } from 'vitest'
import { countsOf } from '../../src/rehearsal/index.ts'
import { card, part } from './support.ts'

test('a die that was the cause is one hit of all dies of the card', () => {
  const { cards, shares } = countsOf(card({ parts: [part({ ref: 'U1', was: 'bad' })] }))
  expect(cards).toBe(1)
  expect(shares['prior.die']).toEqual({ hits: 1, tries: 4 })
  expect(shares['prior.joints']).toEqual({ hits: 0, tries: 16 })
  expect(shares['prior.core']).toEqual({ hits: 0, tries: 1 })
  expect(shares['prior.unreported-spill']).toEqual({ hits: 0, tries: 1 })
  expect(shares).not.toHaveProperty(['prior.slip'])
})

test.each([
  ['every lane of the part', ['A0', 'A1', 'B0', 'B1'], 1, 0],
  ['every lane behind one of its command fields', ['A0', 'A1'], 1, 0],
  ['those and another lane', ['A0', 'A1', 'B1'], 1, 1],
  ['one lane', ['B1'], 0, 1],
  ['two lanes behind two command fields', ['A0', 'B1'], 0, 2],
  ['no lane that a test showed', [], 0, 1],
])('bad joints of a part that fails in %s', (_, failing, command, lanes) => {
  const worked = part({ ref: 'U1', was: 'joints', failing: failing.map((lane) => `U1.${lane}`) })
  const { shares } = countsOf(card({ parts: [worked] }))
  expect(shares['prior.command-joints']).toEqual({ hits: command, tries: 4 })
  expect(shares['prior.joints']).toEqual({ hits: lanes, tries: 16 })
})

test.each(['memory', 'core', 'other'] as const)(
  'a part of kind %s that was fine, or of which nothing is known, is no cause',
  (kind) => {
    for (const was of ['fine', 'unknown'] as const) {
      const { shares } = countsOf(card({ parts: [part({ ref: kind === 'other' ? 'Q1' : 'U1', kind, was })] }))
      const priors = Object.entries(shares).filter(([id]) => id.startsWith('prior.'))
      expect(priors.length).toBeGreaterThan(8)
      expect(priors.map(([id, { hits }]) => [id, hits])).toEqual(priors.map(([id]) => [id, 0]))
    }
  },
)

test('a stage that made a rail is the cause of what fails on it; another part that made none is no cause', () => {
  const hitsOf = (ref: string) => countsOf(card({ parts: [part({ ref, kind: 'other' })] })).shares['prior.power-stage']
  expect(hitsOf('Q3')).toEqual({ hits: 1, tries: 3 })
  expect(hitsOf('X9')).toEqual({ hits: 0, tries: 3 })
})

test('liquid that nobody had reported counts once a card, however many parts it was under', () => {
  const parts = [part({ ref: 'U1', was: 'under' }), part({ ref: 'U2', was: 'under' })]
  expect(countsOf(card({ parts })).shares['prior.unreported-spill']).toEqual({ hits: 1, tries: 1 })
  for (const known of [{ spillReported: true }, { noAccidentTold: true }])
    expect(countsOf(card({ parts, ...known })).shares).not.toHaveProperty(['prior.unreported-spill'])
})

test('a slip counts of the slips that were marked', () => {
  const others = [{ what: 'slip', at: undefined }] as const
  expect(countsOf(card({ others, slipMarks: 2 })).shares['prior.slip']).toEqual({ hits: 1, tries: 2 })
})

test('a card whose cause is not known teaches no prior, but its lifts, minutes and looks count', () => {
  const worked = part({
    ref: 'U1',
    was: 'unknown',
    lifts: 2,
    harmed: true,
    minutes: 40.4,
    under: 'reached',
    look: 'clean',
  })
  expect(countsOf(card({ known: false, parts: [worked] }))).toEqual({
    cards: 0,
    shares: {
      'risk.memoryDamage': { hits: 1, tries: 2 },
      'evidence.residueWhereReached': { hits: 0, tries: 1 },
      'evidence.cleanOverlooksReached': { hits: 1, tries: 1 },
    },
    minutes: { 'cost.minutesPerMemoryLift': { lifts: 1, minutes: 40 } },
  })
})

test('residue where nothing lay under the part was taken for some', () => {
  const worked = part({ ref: 'U1', under: 'clean', look: 'residue' })
  expect(countsOf(card({ parts: [worked] })).shares['evidence.residueElsewhere']).toEqual({ hits: 1, tries: 1 })
})

test('a look counts only beside what lay under the part, and that only beside a look', () => {
  for (const change of [{ look: 'residue' }, { look: 'clean' }, { under: 'clean' }, { under: 'reached' }] as const) {
    const { shares } = countsOf(card({ parts: [part({ ref: 'U1', ...change })] }))
    expect(Object.keys(shares).filter((id) => /residue|overlooks/i.test(id))).toEqual([])
  }
})

test('a rail that measured bad counts where nothing that makes it was at fault', () => {
  const rails = [
    { name: 'VMEM', bad: true },
    { name: 'VCORE', bad: false },
  ]
  const elsewhere = (change: Parameters<typeof card>[0]) =>
    countsOf(card({ rails, ...change })).shares['evidence.railBadElsewhere']
  expect(elsewhere({})).toEqual({ hits: 1, tries: 2 })
  expect(elsewhere({ others: [{ what: 'rail', at: 'VMEM' }] })).toEqual({ hits: 0, tries: 1 })
  expect(elsewhere({ others: [{ what: 'rail', at: 'branch west of rail VMEM' }] })).toEqual({ hits: 0, tries: 1 })
  const stage = part({ ref: 'Q1', kind: 'other', lanes: [], failing: [] })
  expect(elsewhere({ parts: [stage] })).toEqual({ hits: 0, tries: 1 })
  expect(elsewhere({ others: [{ what: 'liquid', at: undefined }] })).toBeUndefined()
  expect(elsewhere({ others: [{ what: 'rail', at: undefined }] })).toBeUndefined()
})

test('a stage counts as one of the stages, a branch as one of the branches', () => {
  const stage = part({ ref: 'Q1', kind: 'other', lanes: [], failing: [] })
  expect(countsOf(card({ parts: [stage] })).shares['prior.power-stage']).toEqual({ hits: 1, tries: 3 })
  const { shares } = countsOf(card({ others: [{ what: 'rail', at: 'branch west of rail VMEM' }] }))
  expect(shares['prior.rail-branch']).toEqual({ hits: 1, tries: 1 })
  expect(shares['prior.rail']).toEqual({ hits: 0, tries: 2 })
})

test('stages that measured unlike their siblings are held against the stage, its rail, or nothing', () => {
  const stages = [
    { name: 'Q1', bad: true },
    { name: 'Q3', bad: true },
  ]
  const { shares } = countsOf(card({ stages, parts: [part({ ref: 'Q1', kind: 'other', lanes: [], failing: [] })] }))
  expect(shares['evidence.stageBadIfStage']).toEqual({ hits: 1, tries: 1 })
  expect(shares['evidence.stageBadElsewhere']).toEqual({ hits: 1, tries: 1 })
  const ofRail = countsOf(card({ stages, others: [{ what: 'rail', at: 'VMEM' }] })).shares
  expect(ofRail['evidence.stageBadIfRail']).toEqual({ hits: 1, tries: 1 })
})

test('a check counts for the one kind that it met, as a false alarm where it met none, and not where it met several', () => {
  const checks = [
    { check: 'press', at: 'U1', found: true },
    { check: 'press', at: 'U2', found: true },
    { check: 'press', at: 'U3', found: false },
  ]
  const { shares } = countsOf(
    card({ checks, parts: [part({ ref: 'U1', was: 'joints', failing: ['U1.A0'] }), part({ ref: 'U3', was: 'bad' })] }),
  )
  expect(shares['check.press.finds.joints']).toEqual({ hits: 1, tries: 1 })
  expect(shares['check.press.finds.die']).toEqual({ hits: 0, tries: 1 })
  expect(shares['check.press.falseAlarm']).toEqual({ hits: 1, tries: 1 })
  const both = countsOf(
    card({
      checks: checks.slice(0, 1),
      parts: [part({ ref: 'U1', was: 'bad' })],
      others: [{ what: 'liquid', at: undefined }],
    }),
  ).shares
  expect(Object.keys(both).filter((id) => id.startsWith('check.'))).toEqual([])
})

test('of an answer that was given twice the last one counts', () => {
  const checks = [
    { check: 'press', at: 'U2', found: true },
    { check: 'press', at: 'U2', found: false },
  ]
  expect(countsOf(card({ checks })).shares['check.press.falseAlarm']).toEqual({ hits: 0, tries: 1 })
})
