/** What a plan tells besides its steps, in whole sentences; the chances and money are worked by hand. */
import { describe, expect, test } from 'vitest'
import { foundWords, type Nozzle, outcomeWords, type PlanInput, replan } from '../../src/plan/index.ts'
import { unwrap } from '../support/board-fixture.ts'
import { exposureOn, exposuresOf, heatAt, type PlainPart, plainBoard, planned } from './plan-fixture.ts'

function liftAll(parts: readonly PlainPart[], more: Partial<PlanInput> = {}): PlanInput {
  const lift = parts.map(({ ref }) => ref)
  const exposures = exposuresOf(Object.fromEntries(lift.map((ref) => [ref, {}])))
  return { model: plainBoard(parts), lift, exposures, successProbability: 1, ...more }
}
const GUESS = 'The risk to neighbours is a stated guess: it ranks the orders and is no forecast for one card.'
const said = (input: PlanInput): readonly string[] => planned(input).notes.filter((note) => note !== GUESS)
const U2: PlainPart = { ref: 'U2', x: 50, heatCount: 0 }
const U3: PlainPart = { ref: 'U3', x: 150, heatCount: 0 }

describe('glue', () => {
  test('of one part, with its chance', () => {
    expect(said(liftAll([{ ...U2, bonding: 'edge' }]))).toEqual([
      'U2 is glued: a pad comes off with a chance of about 10 % (stated, no source); it is in the chance of success.',
    ])
  })
  test('of two: 1 − 0.9 · 0.7 = 37 %', () => {
    expect(
      said(
        liftAll([
          { ...U2, bonding: 'edge' },
          { ...U3, bonding: 'underfill' },
        ]),
      ),
    ).toEqual([
      'U2 and U3 are glued: a pad comes off with a chance of about 37 % (stated, no source); it is in the chance of success.',
    ])
  })
  test('is none of what came off already, nor of what is back', () => {
    const log = [
      { action: 'lift', refs: ['U2'], outcome: 'done' },
      { action: 'refit', refs: ['U2'], outcome: 'done' },
    ]
    const glued = liftAll([{ ...U2, bonding: 'edge' }, U3])
    for (const done of [log.slice(0, 1), log])
      expect(unwrap(replan(glued, done)).answer.notes.join(' ')).not.toContain('glued')
  })
})

describe('melts', () => {
  test('beyond the limit of those that are used again: two before, and lift, balls, refit', () => {
    const RISK = "beyond 3 melts: packages are classed for three (J-STD-020), so using it again is the shop's own risk."
    expect(said(liftAll([{ ...U2, heatCount: 2 }, U3]))).toEqual([`U2 ends ${RISK}`])
    expect(
      said(
        liftAll([
          { ...U2, heatCount: 1 },
          { ...U3, heatCount: 2 },
        ]),
      ),
    ).toEqual([`U2 and U3 end ${RISK.replace('using it', 'using them')}`])
  })
  test('just at the limit, or of a part that is replaced, are none to speak of', () => {
    expect(said(liftAll([U2, { ...U3, heatCount: 3 }]))).toEqual([])
  })
  test('that nobody knows are told, with what is taken', () => {
    const settings = { heat: { unknownHeatCount: 0 } }
    expect(said(liftAll([{ ref: 'U2', x: 50 }, U3, { ref: 'U4', x: 250 }], { settings }))).toEqual([
      'How often U2 and U4 melted before is not known; 0 times is taken.',
    ])
    expect(said(liftAll([{ ref: 'U2', x: 50 }], { settings, heatCounts: new Map([['U2', 0]]) }))).toEqual([])
  })
})

describe('one nozzle over several', () => {
  const nozzles: Nozzle[] = [{ name: 'wide', shape: 'square', sizeMm: 40 }]
  const row = liftAll(
    ['U2', 'U3', 'U10'].map((ref, i) => ({ ref, x: 50 + 11 * i, heatCount: 0 })),
    { nozzles },
  )
  test('for which no heat was solved: pairs first, by number', () => {
    expect(said(row)).toEqual([
      'One nozzle would cover U2 with U3, U2 with U10, U3 with U10 and U2 with U3 with U10, but no heat was solved for that, so it was not considered.',
    ])
  })
  test('that does not work with this equipment', () => {
    expect(said({ ...row, nozzles: [], groupsThatFail: [['U10', 'U2']] })).toEqual([
      'One nozzle would cover U2 with U10, but no setting of this equipment lifts them together inside of every limit.',
    ])
  })
  test('eight by name, the rest by number', () => {
    const five = liftAll(
      ['U2', 'U3', 'U4', 'U5', 'U6'].map((ref, i) => ({ ref, x: 50 + 11 * i, heatCount: 0 })),
      { nozzles: [{ name: 'wide', shape: 'square', sizeMm: 90 }] },
    )
    // ten pairs, ten of three, five of four: 25
    expect(said(five)[0]).toContain(
      'U2 with U3, U2 with U4, U2 with U5, U2 with U6, U3 with U4, U3 with U5, U3 with U6, U4 with U5 and 17 more, but',
    )
  })
})

describe('dear neighbours', () => {
  // a melt at 0.002 + 0.01 at lift and refit: 0.024 of the price, so 24 of 1000, 48 of 2000; lifting it too costs 20.5
  const beside = (count: number): PlanInput => {
    const others = Array.from({ length: count }, (_, i) => ({ ref: `U${i + 3}`, price: 1000 + 100 * i }))
    const model = plainBoard([U2, ...others.map((part, i) => ({ ...part, x: 80 + 12 * i, heatCount: 0 }))])
    const neighbours = others.map(({ ref }) => heatAt(ref, 220))
    return { ...liftAll([U2]), model, exposures: new Map([['U2', { ...exposureOn('U2', {}), neighbours }]]) }
  }
  const HARM = 'shield it, use a smaller nozzle, or consider lifting it too.'
  test('are told dearest first, with the harm of both passes', () => {
    expect(said(beside(3))).toEqual([
      `U5 is not on the list, but the passes expose it to harm worth 28.80: ${HARM}`,
      `U4 is not on the list, but the passes expose it to harm worth 26.40: ${HARM}`,
      `U3 is not on the list, but the passes expose it to harm worth 24.00: ${HARM}`,
    ])
  })
  test('eight at most', () => {
    expect(said(beside(9)).map((note) => note.split(' ')[0])).toEqual([
      'U11',
      'U10',
      'U9',
      'U8',
      'U7',
      'U6',
      'U5',
      'U4',
    ])
  })
})

describe('what hangs on the other side', () => {
  const hanging = (...refs: string[]): PlanInput => {
    const parts = refs.map((ref, i) => ({ ref, x: 100 + 30 * i, side: 'bottom' as const, heatCount: 0 }))
    const neighbours = refs.map((ref) => heatAt(ref, 220))
    const exposures = new Map([['U2', { ...exposureOn('U2', {}), neighbours }]])
    return { ...liftAll([U2]), model: plainBoard([U2, ...parts]), exposures }
  }
  const REST = 'on the other side and may melt: support or shield them, for a molten part that hangs can shift or fall.'
  test('one, and two by number', () => {
    expect(said(hanging('U7'))).toEqual([`U7 hangs ${REST}`])
    expect(said(hanging('U10', 'U7'))).toEqual([`U7 and U10 hang ${REST}`])
  })
})

test('what was done and found has its words', () => {
  expect(outcomeWords).toEqual({ done: 'done', failed: 'failed', skipped: 'skipped' })
  expect(foundWords).toEqual({
    clean: 'clean',
    wet: 'wet',
    metal: 'metal',
    corroded: 'corroded',
    'torn-pad': 'torn pad',
  })
})
