/** Under power: what a core is expected to read by state, the order in which rails come up, the supply at its limit. */
import { describe, expect, test } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import { caseSchema } from '../../src/case/index.ts'
import {
  bringUpOf,
  inrushSeconds,
  judgePower,
  lineStates,
  lineVerdicts,
  type Measurement,
  type PoweredState,
  supplyOrder,
} from '../../src/measure/index.ts'
import { SHIPPED, shippedBoard } from '../support/read-board.ts'
import { measured } from './measured.ts'

const bowline = shippedBoard('bowline-8')
const upTo = { '12V': '12.1', '3V3': '3.3', VPP: '1.8', VCORE: '0.8' }

const broughtUp = (typed: Readonly<Record<string, string>>, model: BoardModel = bowline) =>
  bringUpOf(model, lineVerdicts(model, { measurements: measured(typed, 'volts'), goodReadings: [] }, 'volts', 'before'))
const statesOf = (typed: Readonly<Record<string, string>>, cold: Readonly<Record<string, string>> = {}) =>
  Object.fromEntries(lineStates(bowline, [...measured(cold), ...measured(typed, 'volts')], []).rails)

describe('what a core is expected to read', () => {
  const coreAt = (text: string, state?: PoweredState): string | undefined => {
    const measurements = measured({ VCORE: text }, 'volts').map(
      (each): Measurement => (state === undefined ? each : { ...each, state }),
    )
    return lineVerdicts(bowline, { measurements, goodReadings: [] }, 'volts', 'before').find(
      ({ line }) => line.line.name === 'VCORE',
    )?.verdict.kind
  }

  // nominal 0.9 V; idle from two thirds of nominal, at high clocks up to a quarter more: common practice, no source
  test.each([
    ['0.65', 'idle', 'usual'],
    ['0.65', 'load', 'unusual'],
    ['1.08', 'load', 'usual'],
    ['1.08', 'idle', 'unusual'],
    ['0.65', undefined, 'usual'],
    ['1.08', undefined, 'usual'],
    ['0.4', undefined, 'unusual'],
    ['1.35', 'load', 'above'],
    ['0.02', 'idle', 'no-voltage'],
  ] as const)('%s V in state %s is %s', (text, state, kind) => expect(coreAt(text, state)).toBe(kind))

  test('other rails are held to the board’s tolerance, whatever the card does', () => {
    const measurements = measured({ VMEM: '1.2' }, 'volts').map((each): Measurement => ({ ...each, state: 'idle' }))
    const verdicts = lineVerdicts(bowline, { measurements, goodReadings: [] }, 'volts', 'before')
    expect(verdicts.find(({ line }) => line.line.name === 'VMEM')?.verdict.kind).toBe('below')
  })
})

describe('what good cards say of a core', () => {
  const values = [0.71, 0.72, 0.73, 0.72, 0.72]
  const goodReadings = [{ line: { kind: 'rail' as const, name: 'VCORE' }, quantity: 'volts' as const, values }]
  const coreAt = (text: string): string | undefined =>
    lineVerdicts(bowline, { measurements: measured({ VCORE: text }, 'volts'), goodReadings }, 'volts', 'before').find(
      ({ line }) => line.line.name === 'VCORE',
    )?.verdict.kind

  // nominal 0.9 V: the habit of the trade would let 0.585 to 1.125 V pass
  test.each([
    ['0.72', 'in-range'],
    ['0.95', 'above'],
    ['0.65', 'below'],
    ['1.35', 'above'],
    ['0.02', 'no-voltage'],
  ])('%s V beside good cards of 0.71 to 0.73 V is %s', (text, kind) => expect(coreAt(text)).toBe(kind))

  test('what no core is given is said so, whatever good cards read', () => {
    const high = goodReadings.map((each) => ({ ...each, values: [1.3, 1.3, 1.3, 1.3, 1.3] }))
    const verdict = lineVerdicts(
      bowline,
      { measurements: measured({ VCORE: '1.3' }, 'volts'), goodReadings: high },
      'volts',
      'before',
    ).find(({ line }) => line.line.name === 'VCORE')?.verdict
    expect(verdict?.sentence).toBe('1.3 V is more than a core is given in any state: take the power off.')
  })
})

describe('the order in which rails come up', () => {
  test.each(SHIPPED)('on %s no rail comes before one that feeds its stages', (name) => {
    const model = shippedBoard(name)
    const order = supplyOrder(model)
    expect(new Set(order)).toEqual(new Set(model.rails))
    for (const [i, rail] of order.entries()) {
      for (const later of order.slice(i + 1)) expect(rail.stages.some((ref) => later.feeds.includes(ref))).toBe(false)
    }
  })

  // JESD79-4: VPP comes no later than VDD (from memory); the rest is common practice, no source
  test('the input first, then 3.3 V, VPP, the core, the memory', () => {
    expect(supplyOrder(bowline).map(({ name }) => name)).toEqual(['12V', '3V3', 'VPP', 'VCORE', 'VMEM', '0V9'])
  })

  test('what the board says of feeding goes before habit', () => {
    const rails = bowline.rails.map((rail) =>
      rail.name === 'VMEM' ? { ...rail, feeds: [...rail.feeds, 'S12'] } : rail,
    )
    const names = supplyOrder({ ...bowline, rails }).map(({ name }) => name)
    expect(names.indexOf('VMEM')).toBeLessThan(names.indexOf('VPP'))
  })

  test('rails that feed each other in a ring still come out once each', () => {
    const rails = bowline.rails.map((rail) => (rail.name === 'VPP' ? { ...rail, feeds: ['S8'] } : rail))
    const ring = rails.map((rail) => (rail.name === 'VMEM' ? { ...rail, feeds: ['S12'] } : rail))
    expect(supplyOrder({ ...bowline, rails: ring })).toHaveLength(rails.length)
  })

  test('the first that is missing is named, and those after it may only wait', () => {
    const found = broughtUp({ ...upTo, VMEM: '0', '0V9': '0.01' })
    expect(found?.first?.rail).toBe('VMEM')
    expect(found?.order.map(({ state }) => state)).toEqual(['up', 'up', 'up', 'up', 'missing', 'waits'])
    expect(found?.sentence).toBe('VMEM is the first that did not come up. 0V9 may only wait for it.')
  })

  test('nothing is first while what comes before it was not read', () => {
    const found = broughtUp({ '12V': '12', VMEM: '0' })
    expect(found?.first).toBeUndefined()
    expect(found?.sentence).toBe('VMEM did not come up. Read first what comes before it: 3V3, VPP and VCORE.')
  })

  test('an input that is down says nothing about the rails behind it', () => {
    const found = broughtUp({ '12V': '6', '3V3': '0', VPP: '0' })
    expect(found?.first).toBeUndefined()
    expect(found?.sentence).toContain('The rails behind it tell nothing')
  })

  test('without an input on the board a first rail that is down may be a card without power', () => {
    const model = { ...bowline, rails: bowline.rails.filter(({ name }) => name !== '12V') }
    expect(broughtUp({ '3V3': '0' }, model)?.first).toBeUndefined()
  })

  test('all up is said so, and nothing read is nothing', () => {
    expect(broughtUp({ ...upTo, VMEM: '1.35', '0V9': '0.9' })?.sentence).toBe('Every rail came up.')
    expect(broughtUp({})).toBeUndefined()
  })

  /** As a board file gives it that states no tolerance: what is common is a hint then. */
  const untold = {
    ...bowline,
    rails: bowline.rails.map((rail) => {
      const { tolerancePct: _, ...bare } = rail
      return bare
    }),
  }

  // nominal 1.35 V; 5 % where the board tells none: common practice, no source
  test('without a stated tolerance a rail that is far too low has not come up, and is the first', () => {
    const found = broughtUp({ ...upTo, VMEM: '0.5', '0V9': '0.9' }, untold)
    expect(found?.order.map(({ rail, state }) => [rail, state]).slice(4)).toEqual([
      ['VMEM', 'low'],
      ['0V9', 'up'],
    ])
    expect(found?.sentence).toBe('VMEM is the first that came up too low.')
  })

  test.each([
    ['with its tolerance', bowline],
    ['without a stated tolerance', untold],
  ])('a rail %s at more than twice its voltage is too high, which is not up', (_, model) => {
    const found = broughtUp({ ...upTo, VMEM: '3', '0V9': '0.9' }, model)
    expect(found?.order.find(({ rail }) => rail === 'VMEM')?.state).toBe('above')
    expect(found?.first).toBeUndefined()
    expect(found?.sentence).toBe('VMEM reads too high: look at it first. Every other rail came up.')
  })

  test('one that is too high waits for nothing, and does not hide the first that is missing', () => {
    const found = broughtUp({ ...upTo, VCORE: '0', VMEM: '3', '0V9': '0' })
    expect(found?.order.map(({ state }) => state)).toEqual(['up', 'up', 'up', 'missing', 'above', 'waits'])
    expect(found?.sentence).toBe(
      'VMEM reads too high: look at it first. VCORE is the first that did not come up. 0V9 may only wait for it.',
    )
  })

  test('with the probes swapped a rail counts as not read', () => {
    const found = broughtUp({ ...upTo, VMEM: '-1.35', '0V9': '0' })
    expect(found?.order.find(({ rail }) => rail === 'VMEM')?.state).toBe('not-read')
    expect(found?.first).toBeUndefined()
    expect(found?.sentence).toBe('0V9 did not come up. Read first what comes before it: VMEM.')
    expect(broughtUp({ VMEM: '-1.35' })).toBeUndefined()
  })
})

describe('what it says to the stories', () => {
  test('the first missing rail is open, one that sags is low, those that wait say nothing', () => {
    expect(statesOf({ ...upTo, VMEM: '0', '0V9': '0' })).toEqual({
      '12V': 'fine',
      '3V3': 'fine',
      VPP: 'fine',
      VMEM: 'open',
    })
    expect(statesOf({ ...upTo, VMEM: '0.9' })['VMEM']).toBe('low')
  })

  test('it outweighs a cold reading that is well, and not one that is low', () => {
    expect(statesOf({ ...upTo, VMEM: '0' }, { VMEM: '62' })['VMEM']).toBe('open')
    expect(statesOf({ ...upTo, VMEM: '1.35' }, { VMEM: '1' })['VMEM']).toBe('low')
    expect(statesOf({ ...upTo, VMEM: '0' }, { VMEM: '1' })['VMEM']).toBe('low')
  })

  test('a reading below zero is no evidence, and neither is one that is too high', () => {
    const up = { '12V': 'fine', '3V3': 'fine', VPP: 'fine' }
    expect(statesOf({ ...upTo, VMEM: '-1.35' })).toEqual(up)
    expect(statesOf({ ...upTo, VMEM: '3' })).toEqual(up)
  })

  test('without the rails before it, or with the input down, it says nothing', () => {
    expect(statesOf({ VMEM: '0' })).toEqual({})
    expect(statesOf({ '12V': '6', VMEM: '0' })).toEqual({})
  })
})

describe('the bench supply at its limit', () => {
  // Q = C · V = I · t: 3 mF, 12 V, 1 A take 36 ms
  test('capacitors fill in tens of milliseconds', () => {
    expect(inrushSeconds(1, 12)).toBeCloseTo(0.036, 6)
    expect(inrushSeconds(0.5, 12)).toBeCloseTo(0.072, 6)
  })

  const judged = (atLimit: 'never' | 'for a moment' | 'stays' | 'unknown', phase: 'before' | 'after' = 'before') =>
    judgePower(bowline, { measurements: [], goodReadings: [], phase, powered: { limitA: 0.5, atLimit } })

  test('one that stays there speaks against power, one that leaves it does not', () => {
    expect(judged('stays').verdict).toBe('not-safe')
    expect(judged('stays').reasons[0]?.sentence).toBe(
      'The supply stayed at its limit of 0.5 A when the card had power: measure cold what draws it down.',
    )
    for (const atLimit of ['never', 'for a moment', 'unknown'] as const) {
      expect(judged(atLimit).reasons.some(({ weight }) => weight === 'against')).toBe(false)
    }
  })

  test('after the work it is told, and decides nothing', () => {
    expect(judged('stays', 'after').reasons.find(({ sentence }) => sentence.includes('limit'))?.weight).toBe('note')
  })

  test('a case of before opens with nothing known of it', () => {
    const bare = { format: 'liftmap-case', title: 'x', board: { path: 'x.json' }, powered: { picture: 'no' } }
    const { powered } = caseSchema.parse({ ...bare, version: caseSchema.shape.version.value })
    expect(powered).toMatchObject({ picture: 'no', atLimit: 'unknown', state: 'unknown' })
  })
})
