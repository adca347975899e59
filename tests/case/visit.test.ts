/** How far a visit has come, told from what was entered. What each state is called is ours; the order is the card's way. */
import { expect, test } from 'vitest'
import {
  CASE_VERSION,
  type Case,
  caseSchema,
  furthestStation,
  stations,
  visitState,
  visitStates,
} from '../../src/case/index.ts'

const fresh = caseSchema.parse({ format: 'liftmap-case', version: CASE_VERSION, title: 'x', board: { path: 'b.json' } })
const after = (change: Partial<Record<keyof Case, unknown>>, from: Case = fresh): Case =>
  caseSchema.parse({ ...from, ...change })

const ohms = { line: { kind: 'rail', name: '+12V' }, quantity: 'ohms', reading: { kind: 'open' }, typed: 'OL' }
const volts = { ...ohms, quantity: 'volts', reading: { kind: 'value', value: 12 }, typed: '12' }
const at = { x: 1, y: 1 }
const residue = { kind: 'residue', id: 'r', side: 'top', at, radiusMm: 1 }
const spill = { kind: 'spill', id: 's', side: 'top', at, sdMm: 1, substance: 'water', amount: { volumeMl: 1 } }
const lift = { action: 'lift', refs: ['U1'], outcome: 'done' }

/** What is entered at each station, in the order of the visit. */
const entries: readonly (readonly [string, Partial<Record<keyof Case, unknown>>])[] = [
  ['cold-measuring', { measurements: [ohms] }],
  ['powered-measuring', { measurements: [ohms, volts] }],
  ['memory-run', { reports: [{ name: 'first', text: 'x' }] }],
  ['inspection', { marks: [residue] }],
  ['spill', { marks: [residue, spill] }],
  ['suspects', { checks: [{ check: 'look', at: 'U1', found: false }] }],
  ['plan', { passes: [lift] }],
  [
    'proof',
    {
      reports: [
        { name: 'first', text: 'x' },
        { name: 'again', text: 'x', run: 'retest' },
      ],
    },
  ],
  ['hand-back', { handBack: { outcome: 'repaired' } }],
]

test('a fresh case has arrived, and nothing more', () => {
  expect([furthestStation(fresh), visitState(fresh)]).toEqual(['arrival', 'arrived'])
})

test('a visit goes from station to station and never seems to go back', () => {
  let present = fresh
  let state = 0
  for (const [station, change] of entries) {
    present = after(change, present)
    expect(furthestStation(present)).toBe(station)
    expect(visitStates.indexOf(visitState(present))).toBeGreaterThanOrEqual(state)
    state = visitStates.indexOf(visitState(present))
  }
  expect(visitState(present)).toBe('handed back')
  expect(entries.map(([station]) => station)).toEqual(stations.slice(1))
})

test.each([
  ['measured alone is looked over', { measurements: [ohms] }, 'looked over'],
  ['a spill that was marked is looked over', { marks: [spill] }, 'looked over'],
  [
    'a memory run can be judged, wherever it was looked at since',
    { reports: [{ name: 'a', text: 'x' }], marks: [spill] },
    'judged',
  ],
  ['a noted pass is work', { passes: [lift] }, 'in work'],
  [
    'a part said to be over its floor life is no work yet',
    { floorLife: [{ ref: 'U1', state: 'within' }] },
    'looked over',
  ],
  [
    'words for the owner without an outcome do not hand it back',
    { passes: [lift], handBack: { done: 'lifted U1' } },
    'in work',
  ],
  ['a retest proves', { reports: [{ name: 'a', text: 'x', run: 'retest' }] }, 'proving'],
  [
    'an outcome hands it back, whatever else is missing',
    { handBack: { outcome: 'not worth repairing' } },
    'handed back',
  ],
])('%s', (_, change, state) => {
  expect(visitState(after(change))).toBe(state)
})
