/** What a counts file is refused or doubted for, in whole sentences; which stories count as the true one; ids that are learnt. */
import { expect, test } from 'vitest'
import {
  accuracyOf,
  type BoardCounts,
  countCards,
  countsFileOf,
  doubtOf,
  minuteFigures,
  noBoardCounts,
  readCounts,
  refusalOf,
  shareFigures,
} from '../../src/rehearsal/index.ts'
import { defaultAssumptions } from '../../src/suspects/index.ts'
import { card, foretold, part } from './support.ts'

const some = countCards([card({ parts: [part({ ref: 'U1' })] }), card({ board: 'board-b' })])
const faultsOf = (change: object) => {
  const read = readCounts(JSON.stringify({ ...countsFileOf(some, 'with boards'), ...change }))
  return read.ok ? [] : read.faults
}
const record = (own: BoardCounts, ...pools: readonly BoardCounts[]) => ({
  own,
  pools: pools.map((pool, i) => ({ ...pool, name: `shop ${i}` })),
})

test('a file of another kind says where such files are opened, a newer one what to do', () => {
  expect(faultsOf({ format: 'liftmap-case' }).map(({ todo }) => todo)).toEqual([
    'This is no file of counts. Cases, boards and reports are opened from the sheet.',
  ])
  expect(faultsOf({ version: 2 })).toEqual([
    {
      path: '$.version',
      found: '2',
      expected: 'at most 1',
      todo: 'These counts were saved by a newer Liftmap. Update this one and take them in again.',
    },
  ])
  expect(faultsOf({ version: 'one' }).map(({ path }) => path)).toEqual(['$.version'])
})

test('figures that nobody learns are named where they stand, shares and minutes, of all cards and of a board', () => {
  const strange = {
    cards: 0,
    shares: { 'cost.minutesPerCoreLift': { hits: 0, tries: 1 } },
    minutes: { 'prior.die': { lifts: 1, minutes: 1 } },
  }
  const faults = faultsOf({ all: strange, boards: { 'board "a"': strange } })
  const expected = 'a figure that this Liftmap learns'
  const todo = 'The file may be of another version of Liftmap; have it exported anew.'
  expect(faults).toEqual(
    ['$.all', '$.boards["board \\"a\\""]'].flatMap((path) => [
      { path: `${path}.shares["cost.minutesPerCoreLift"]`, found: 'cost.minutesPerCoreLift', expected, todo },
      { path: `${path}.minutes["prior.die"]`, found: 'prior.die', expected, todo },
    ]),
  )
})

test('boards that hold more than all of them together do not add up', () => {
  expect(faultsOf({ all: { ...some.all, cards: 1 } })).toEqual([
    {
      path: '$.boards',
      found: 'more than all boards together',
      expected: 'at most the counts of $.all',
      todo: 'The file does not add up; have it exported anew.',
    },
  ])
})

test('what is not taken in, and what could count twice, is said whole', () => {
  expect(refusalOf(noBoardCounts, record(some))).toBe(
    'There is nothing in this file: no closed card was counted when it was made.',
  )
  expect(refusalOf(some, record(some))).toBe(
    'These are this shop’s own counts: taken in, every card would count twice.',
  )
  const later = countCards([card({ parts: [part({ ref: 'U1' })] }), card({ board: 'board-b' }), card()])
  expect(doubtOf(later, record(noBoardCounts, some))).toBe(
    'All that “shop 0” counts could be in this file too. If both are of the same shop, remove “shop 0”, else its cards count twice.',
  )
  expect(doubtOf(some, record(noBoardCounts, later))).toBe(
    'All that this file counts could be in “shop 0” too. If both are of the same shop, remove this one again, else its cards count twice.',
  )
})

type Truth = Parameters<typeof card>[0]
const hits = (truth: Truth, ...causes: readonly [string, string, ...string[]][]) => {
  const stories = [{ probability: 1, causes: causes.map(([kind, at, ...refs]) => ({ kind, at, refs })) }]
  return accuracyOf([card({ ...truth, foretold: foretold({ stories }) })]).first.hits
}
const joints = { parts: [part({ ref: 'U1', was: 'joints', failing: ['U1.A0'] })] } as const
const slip = { others: [{ what: 'slip', at: undefined }] } as const
const rail = { others: [{ what: 'rail', at: 'VMEM' }] } as const
const track = { others: [{ what: 'track', at: 'U1.A0' }] } as const
const under = { parts: [part({ ref: 'U1', was: 'under' })] } as const

test.each<[string, Truth, [string, string, ...string[]], number]>([
  ['command joints of the same part', joints, ['command-joints', 'U1/CK', 'U1'], 1],
  ['joints of another part', joints, ['joints', 'U2/A0', 'U2'], 0],
  ['the die with such joints', joints, ['die', 'U1', 'U1'], 0],
  [
    'the core itself, of joints under it',
    { parts: [part({ ref: 'G1', kind: 'core', was: 'joints' })] },
    ['core-patch', 'G1', 'G1'],
    1,
  ],
  ['a patch, of a bad core', { parts: [part({ ref: 'G1', kind: 'core' })] }, ['core-patch', 'G1', 'G1'], 1],
  ['a die, of a bad core', { parts: [part({ ref: 'G1', kind: 'core' })] }, ['die', 'G1', 'G1'], 0],
  ['a spill that was told of', under, ['spill', 'north of G1', 'U1'], 1],
  ['a slip, of a spill', under, ['slip', 's1'], 0],
  ['a slip wherever it was', slip, ['slip', 's1'], 1],
  ['a spill, of a slip', slip, ['spill', 'north of G1'], 0],
  ['the rail by its name', rail, ['rail', 'rail VMEM'], 1],
  ['any rail, where nobody said which', { others: [{ what: 'rail', at: undefined }] }, ['rail', 'rail VCORE'], 1],
  ['a track, of a rail', rail, ['corridor', 'rail VMEM'], 0],
  ['another track', track, ['corridor', 'U1.A1'], 0],
  ['any track, where nobody said which', { others: [{ what: 'track', at: undefined }] }, ['corridor', 'U2.B0'], 1],
  ['a rail, of a track', track, ['rail', 'U1.A0'], 0],
  ['another stage', { parts: [part({ ref: 'Q1', kind: 'other' })] }, ['power-stage', 'Q3', 'Q3'], 0],
])('a story of %s', (_, truth, cause, expected) => {
  expect(hits(truth, cause)).toBe(expected)
})

test('a story must tell every cause, and none beside; one without causes tells none', () => {
  const both = { ...joints, ...slip }
  expect(hits(both, ['joints', 'U1/A0', 'U1'])).toBe(0)
  expect(hits(both, ['joints', 'U1/A0', 'U1'], ['slip', 's1'])).toBe(1)
  expect(hits(slip, ['joints', 'U1/A0', 'U1'], ['slip', 's1'])).toBe(0)
  expect(hits(slip)).toBe(0)
})

test('what is learnt: each prior but that of an entered spill, each risk and time of a lift; of evidence nothing that hangs on a slip, a branch or a small part', () => {
  const named = (section: string) =>
    shareFigures.flatMap((figure) => (figure.section === section ? [figure.id.replace(`${section}.`, '')] : []))
  const { prior, risk, cost, evidence } = defaultAssumptions
  expect(named('prior')).toEqual(Object.keys(prior).filter((name) => name !== 'spill'))
  expect(named('risk')).toEqual(Object.keys(risk))
  expect(minuteFigures.map(({ id }) => id)).toEqual(Object.keys(cost).map((name) => `cost.${name}`))
  const learnt = named('evidence')
  expect(Object.keys(evidence)).toEqual(expect.arrayContaining(learnt))
  expect(Object.keys(evidence).filter((name) => !learnt.includes(name))).toEqual(
    Object.keys(evidence).filter((name) => /Slip|Branch|SmallPart|railShort/.test(name)),
  )
  expect(named('check')).toContain('press.finds.joints')
  expect(named('check')).toContain('press.falseAlarm')
  expect(named('cure')).toContain('reballJoints')
})
