/** Closed cards for tests of the shop's own record: made up, on a board of four packages with two command fields each. */
import * as fc from 'fast-check'
import type { ClosedCard, Foretold, WorkedPart } from '../../src/rehearsal/index.ts'

export const memoryRefs = ['U1', 'U2', 'U3', 'U4']
export const lanesOf = (ref: string): string[] => ['A0', 'A1', 'B0', 'B1'].map((lane) => `${ref}.${lane}`)

export const places = {
  die: 4,
  joints: 16,
  'command-joints': 4,
  corridor: 16,
  rail: 2,
  'rail-branch': 1,
  'power-stage': 3,
  core: 1,
  'core-patch': 1,
}

export const railParts: ClosedCard['railParts'] = new Map([
  ['VMEM', { stages: ['Q1', 'Q2'], feeds: memoryRefs }],
  ['VCORE', { stages: ['Q3'], feeds: ['G1'] }],
])

export const part = (change: Partial<WorkedPart> & { readonly ref: string }): WorkedPart => ({
  kind: 'memory',
  was: 'bad',
  harmed: false,
  minutes: undefined,
  lifts: 1,
  refitted: undefined,
  under: undefined,
  look: undefined,
  lanes: lanesOf(change.ref),
  commandLanes: [lanesOf(change.ref).slice(0, 2), lanesOf(change.ref).slice(2)],
  failing: lanesOf(change.ref),
  ...change,
})

export const card = (change: Partial<ClosedCard> = {}): ClosedCard => ({
  board: 'board-a',
  month: '2026-03',
  repaired: true,
  held: undefined,
  metal: false,
  known: true,
  places,
  parts: [],
  others: [],
  spillReported: false,
  noAccidentTold: false,
  slipMarks: 0,
  rails: [],
  stages: [],
  railParts,
  branches: new Map([['branch west of rail VMEM', { rail: 'VMEM', feeds: ['U1', 'U2'] }]]),
  checks: [],
  foretold: undefined,
  ...change,
})

export const foretold = (change: Partial<Foretold> = {}): Foretold => ({
  lift: [],
  stories: [],
  parts: [],
  failing: [],
  ...change,
})

const truth = fc.constantFrom('bad', 'joints', 'under', 'fine', 'unknown' as const)

const workedPart: fc.Arbitrary<WorkedPart> = fc
  .record({
    ref: fc.constantFrom(...memoryRefs),
    was: truth,
    harmed: fc.boolean(),
    minutes: fc.option(fc.integer({ min: 0, max: 300 }), { nil: undefined }),
    lifts: fc.integer({ min: 0, max: 3 }),
    refitted: fc.constantFrom('the same', 'a new one', undefined),
    under: fc.constantFrom('reached', 'clean', undefined),
    look: fc.constantFrom('residue', 'clean', undefined),
    failing: fc.integer({ min: 0, max: 4 }),
  })
  .map(({ failing, ...rest }) => part({ ...rest, failing: lanesOf(rest.ref).slice(0, failing) }))

/** Any closed card, with what was measured, looked at and answered. */
export const anyCard: fc.Arbitrary<ClosedCard> = fc
  .record({
    board: fc.constantFrom('board-a', 'board-b'),
    known: fc.boolean(),
    held: fc.constantFrom(true, false, undefined),
    metal: fc.boolean(),
    parts: fc.uniqueArray(workedPart, { selector: ({ ref }) => ref, maxLength: 4 }),
    others: fc.array(
      fc.record({
        what: fc.constantFrom('rail', 'track', 'slip', 'liquid' as const),
        at: fc.constantFrom('VMEM', undefined),
      }),
      { maxLength: 2 },
    ),
    spillReported: fc.boolean(),
    slipMarks: fc.integer({ min: 0, max: 2 }),
    rails: fc.uniqueArray(fc.record({ name: fc.constantFrom('VMEM', 'VCORE'), bad: fc.boolean() }), {
      selector: ({ name }) => name,
    }),
    stages: fc.uniqueArray(fc.record({ name: fc.constantFrom('Q1', 'Q2', 'Q3'), bad: fc.boolean() }), {
      selector: ({ name }) => name,
    }),
    checks: fc.array(
      fc.record({
        check: fc.constantFrom('press', 'x-ray', 'warm-cool'),
        at: fc.constantFrom(...memoryRefs),
        found: fc.boolean(),
      }),
      { maxLength: 4 },
    ),
  })
  .map((change) => card(change))
