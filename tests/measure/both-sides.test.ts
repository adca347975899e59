/**
 * Every limit of the measuring sheet from both sides. The usual resistances to ground are the trade's habit, and the other figures
 * of `practice.json` are stated or habit as well (common practice, no source, where none is named); each is worked out beside it.
 */
import { describe, expect, test } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import {
  type GoodReadings,
  inrushSeconds,
  judgePower,
  type Leads,
  learnRanges,
  lineKey,
  lineStates,
  lineVerdicts,
  longestInrushSeconds,
  type Measurement,
  measuringLines,
  measuringRules,
  type PoweredState,
  type Quantity,
  readTyped,
  type Supply,
  supplyOrder,
  useOfRail,
} from '../../src/measure/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { lineOf, measured } from './measured.ts'
import { well as wellAtZero } from './well-card.ts'

const bowline = shippedBoard('bowline-8')

type RailPatch = Readonly<Record<string, Partial<Omit<BoardModel['rails'][number], 'name'>>>>
/** The board with rails that differ; `bare` leaves out what its file says they read. */
function withRails(patch: RailPatch, bare = false): BoardModel {
  const rails = bowline.rails.map((rail) => {
    const { ohmsToGround, diodeToGround, ...rest } = rail
    const own = { ...(ohmsToGround && { ohmsToGround }), ...(diodeToGround && { diodeToGround }) }
    return { ...rest, ...(bare ? {} : own), ...patch[rail.name] }
  })
  return { ...bowline, rails }
}
const unknowing = withRails({}, true)

interface More {
  readonly model?: BoardModel
  readonly quantity?: Quantity
  readonly goodReadings?: readonly GoodReadings[]
  readonly state?: PoweredState
}
function kindOf(
  typed: Readonly<Record<string, string>>,
  name: string,
  { model = bowline, quantity = 'ohms', goodReadings = [], state }: More = {},
): string | undefined {
  const measurements = measured(typed, quantity).map(
    (each): Measurement => (state === undefined ? each : { ...each, state }),
  )
  return lineVerdicts(model, { measurements, goodReadings }, quantity, 'before').find(
    ({ line }) => lineKey(line.line) === lineKey(lineOf(name)),
  )?.verdict.kind
}
const good = (name: string, values: readonly number[], quantity: Quantity = 'ohms'): GoodReadings => ({
  line: lineOf(name),
  quantity,
  values: [...values],
})

describe('usual resistances to ground, where the board file says none', () => {
  // 12 V: short < 5, usual 1 to 50 kΩ; 5 V: < 2, above 500; 3.3 V: < 2, 200 to 10 k; 1.8 V: < 1, 50 to 2 k; memory: < 2, 20 to 150;
  // core: < 0.05, 0.2 to 2; its second supply: < 0.1, 0.3 to 20; 0.9 V of the host's bus: < 0.5, 5 to 50.
  const two = withRails(
    { VCORE: { stages: ['S1', 'S2', 'S3'] }, '0V9': { stages: ['S10', 'S11'], feeds: ['U1'] } },
    true,
  )
  const five = withRails({ '3V3': { nominalV: 5 } }, true)
  const logic = withRails({ '3V3': { nominalV: 1.8 } }, true)
  test.each<[string, BoardModel, string, readonly (readonly [string, string])[]]>([
    [
      '12 V',
      unknowing,
      '12V',
      [
        ['4.99', 'short'],
        ['5', 'unusual'],
        ['999', 'unusual'],
        ['1k', 'usual'],
        ['50k', 'usual'],
        ['50.1k', 'unusual'],
      ],
    ],
    [
      '5 V',
      five,
      '3V3',
      [
        ['1.99', 'short'],
        ['2', 'unusual'],
        ['499', 'unusual'],
        ['500', 'usual'],
        ['900k', 'usual'],
      ],
    ],
    [
      '3.3 V',
      unknowing,
      '3V3',
      [
        ['1.99', 'short'],
        ['2', 'unusual'],
        ['199', 'unusual'],
        ['200', 'usual'],
        ['10k', 'usual'],
        ['10.1k', 'unusual'],
      ],
    ],
    [
      '1.8 V',
      logic,
      '3V3',
      [
        ['0.99', 'short'],
        ['1', 'unusual'],
        ['49.9', 'unusual'],
        ['50', 'usual'],
        ['2k', 'usual'],
        ['2.01k', 'unusual'],
      ],
    ],
    [
      'memory',
      unknowing,
      'VMEM',
      [
        ['1.99', 'short'],
        ['2', 'unusual'],
        ['19.9', 'unusual'],
        ['20', 'usual'],
        ['150', 'usual'],
        ['151', 'unusual'],
      ],
    ],
    [
      'core',
      two,
      'VCORE',
      [
        ['0.049', 'short'],
        ['0.05', 'unusual'],
        ['0.199', 'unusual'],
        ['0.2', 'usual'],
        ['2', 'usual'],
        ['2.01', 'unusual'],
      ],
    ],
    [
      'second core',
      two,
      '0V9',
      [
        ['0.099', 'short'],
        ['0.1', 'unusual'],
        ['0.29', 'unusual'],
        ['0.3', 'usual'],
        ['20', 'usual'],
        ['20.1', 'unusual'],
      ],
    ],
    [
      '0.9 V',
      unknowing,
      '0V9',
      [
        ['0.49', 'short'],
        ['0.5', 'unusual'],
        ['4.99', 'unusual'],
        ['5', 'usual'],
        ['50', 'usual'],
        ['50.1', 'unusual'],
      ],
    ],
  ])('%s', (_, model, rail, expected) => {
    expect(expected.map(([typed]) => [typed, kindOf({ [rail]: typed }, rail, { model })])).toEqual(expected)
  })

  test.each([
    // no row of the table: a short is what reads under 0.5 Ω
    [9, '0.5'],
    [4.4, '0.5'],
    [4.5, '2'],
    [5.5, '2'],
    [5.6, '0.5'],
    [2.9, '0.5'],
    [3, '2'],
    [3.6, '2'],
    [3.7, '0.5'],
    [1.69, '0.5'],
    [1.7, '1'],
    [2.6, '1'],
    [2.7, '0.5'],
    [14, '5'],
    [14.1, '0.5'],
  ] as const)('a rail of %d V is short under %s Ω', (nominalV, ohms) => {
    const model = withRails({ '3V3': { nominalV } }, true)
    expect(kindOf({ '3V3': ohms }, '3V3', { model })).not.toBe('short')
    expect(kindOf({ '3V3': String(Number(ohms) * 0.99) }, '3V3', { model })).toBe('short')
  })
})

describe('far below and below the board’s own range', () => {
  // suspicious: 12 V < 200, 3.3 V < 100, VPP < 20, memory < 10, 0.9 V < 3; a core has none: half of where its range begins
  test.each([
    ['12V', '199', '200'],
    ['3V3', '99.9', '100'],
    ['VPP', '19.9', '20'],
    ['VMEM', '9.99', '10'],
    ['0V9', '2.99', '3'],
    ['VCORE', '0.0999', '0.1'],
  ] as const)('%s is far below at %s Ω, below at %s Ω', (rail, far, below) => {
    expect([kindOf({ [rail]: far }, rail), kindOf({ [rail]: below }, rail)]).toEqual(['low', 'below'])
  })
  test('in diode mode too: half of where the range begins', () => {
    const goodReadings = [good('VMEM', [0.4, 0.4, 0.4, 0.4, 0.4], 'diode')]
    // least spread 20 mV: 380 to 420 mV, half of it 190
    const of = (typed: string) => kindOf({ VMEM: typed }, 'VMEM', { quantity: 'diode', goodReadings })
    expect(['189', '190', '379', '380', '420', '421'].map(of)).toEqual([
      'low',
      'below',
      'below',
      'in-range',
      'in-range',
      'above',
    ])
  })
  test('sixteen packages side by side leak twice as much as eight: half of every figure', () => {
    const model = shippedBoard('sheet-bend-16')
    const of = (typed: string) => kindOf({ VMEM: typed }, 'VMEM', { model })
    expect(['0.99', '1', '4.99', '5', '9.99', '10'].map(of)).toEqual([
      'short',
      'low',
      'low',
      'below',
      'below',
      'in-range',
    ])
  })
})

describe('ranges of good cards', () => {
  const rangeOf = (values: readonly number[], quantity: Quantity = 'ohms') =>
    learnRanges([good('VMEM', values, quantity)]).get(`${quantity} rail VMEM`)?.range
  test('never narrower than a fifth: five cards at 100 Ω give 100 / 1.2 to 100 · 1.2', () => {
    expect(rangeOf([100, 100, 100, 100, 100])).toEqual({ low: 83, high: 120 })
  })
  test('never wider than five times: cards that agree on nothing, 1 to 10,000 Ω', () => {
    expect(rangeOf([1, 10, 100, 1000, 10_000])).toEqual({ low: 20, high: 500 })
  })
  test('volts never narrower than 10 mV on either side, diode mode 20 mV', () => {
    expect(rangeOf([1.35, 1.35, 1.35, 1.35, 1.35], 'volts')).toEqual({ low: 1.34, high: 1.36 })
    expect(rangeOf([0.4, 0.4, 0.4, 0.4, 0.4], 'diode')).toEqual({ low: 0.38, high: 0.42 })
  })
  test('an even number has its median between the two in the middle', () => {
    expect(learnRanges([good('VMEM', [60, 64, 70, 100])]).get('ohms rail VMEM')?.median).toBe(67)
  })
})

describe('stages beside their siblings', () => {
  const beside = (others: readonly string[], typed: string, point = 'pwm', quantity: Quantity = 'ohms') =>
    kindOf(
      { ...Object.fromEntries(others.map((text, i) => [`S${i + 2} ${point}`, text])), [`S1 ${point}`]: typed },
      `S1 ${point}`,
      { quantity },
    )
  const three = ['10k', '10k', '10k']

  // within a fifth; more than five times as much is no longer joined
  test.each([
    ['7.99k', 'unlike-low'],
    ['8k', 'alike'],
    ['12k', 'alike'],
    ['12.1k', 'unlike-high'],
    ['50k', 'unlike-high'],
    ['50.1k', 'open'],
  ])('%s beside three at 10 kΩ is %s', (typed, kind) => expect(beside(three, typed)).toBe(kind))

  test.each([
    ['7.99k', 'unlike-low'],
    ['8k', 'alike'],
    ['12.5k', 'alike'],
    ['12.6k', 'unlike-high'],
  ])('%s beside one at 10 kΩ is %s: a fifth of the greater', (typed, kind) => expect(beside(['10k'], typed)).toBe(kind))

  test('contact alone differs by 80 mΩ: a node at 0.18 Ω beside 0.1 Ω is alike, at 0.19 Ω it is not', () => {
    const nodes = ['0.1', '0.1', '0.1']
    expect(beside(nodes, '0.179', 'switch')).toBe('alike')
    expect(beside(nodes, '0.19', 'switch')).toBe('unlike-high')
  })
  test('in diode mode within 30 mV, whatever they read', () => {
    const pins = ['545', '545', '545']
    expect([514, 516, 574, 576].map((mv) => beside(pins, String(mv), 'pwm', 'diode'))).toEqual([
      'unlike-low',
      'alike',
      'alike',
      'unlike-high',
    ])
  })
  test('under power a pulsed pin wanders by 0.1 V', () => {
    const pins = ['0.3', '0.3', '0.3']
    expect(['0.19', '0.21', '0.39', '0.41'].map((text) => beside(pins, text, 'pwm', 'volts'))).toEqual([
      'unlike-low',
      'alike',
      'alike',
      'unlike-high',
    ])
  })

  // short below: input 5, driver supply 2, enable and PWM 5 Ω; switch nodes by their rail, a core's 0.05 Ω
  test.each([
    ['input', '4.99', '5'],
    ['driver', '1.99', '2'],
    ['enable', '4.99', '5'],
    ['pwm', '4.99', '5'],
    ['switch', '0.049', '0.05'],
  ])('%s is short at %s Ω, and not at %s Ω', (point, short, not) => {
    expect(beside([], short, point)).toBe('short')
    expect(beside([], not, point)).not.toBe('short')
  })
  test.each(['input', 'driver'])('without siblings a %s reads usual from 100 Ω on', (point) => {
    expect([beside([], '99.9', point), beside([], '100', point)]).toEqual(['unusual', 'usual'])
  })
  // clamps of pins conduct from 0.3 to 0.6 V
  test('without siblings the clamp of a pin is usual from 300 to 600 mV', () => {
    expect(['299', '300', '600', '601'].map((mv) => beside([], mv, 'pwm', 'diode'))).toEqual([
      'unusual',
      'usual',
      'usual',
      'unusual',
    ])
  })
})

// 1 mA of the meter over the short level: 2 Ω of a memory rail are 2 mV, 5 Ω of a pin 5 mV
test.each([
  ['VMEM', '2', 'short'],
  ['VMEM', '3', 'no-range'],
  ['S1 pwm', '5', 'short'],
  ['S1 pwm', '6', 'unusual'],
])('diode mode of %s at %s mV is %s', (name, typed, kind) => {
  expect(kindOf({ [name]: typed }, name, { quantity: 'diode' })).toBe(kind)
})

describe('before and behind a fuse', () => {
  const slot: Supply = { name: 'slot', rail: '12V', joined: true }
  const beforeFuse = (typed: string): string | undefined => {
    const read = readTyped(typed, 'ohms')
    if (!read.ok) throw new Error(typed)
    const own: Measurement = {
      line: { kind: 'supply', name: 'slot' },
      quantity: 'ohms',
      phase: 'before',
      reading: read.value.reading,
      typed,
    }
    return lineVerdicts(
      bowline,
      { measurements: [...measured({ '12V': '2k' }), own], goodReadings: [], supplies: [slot] },
      'ohms',
      'before',
    ).find(({ line }) => line.line.kind === 'supply' && line.line.name === 'slot')?.verdict.kind
  }
  test.each([
    ['999', 'unlike-low'],
    ['1k', 'alike'],
    ['10k', 'alike'],
    ['10.1k', 'open'],
  ])('%s beside 2 kΩ is %s: half of it leaks, more than five times is an open fuse', (typed, kind) => {
    expect(beforeFuse(typed)).toBe(kind)
  })
})

describe('voltages', () => {
  const volts = (typed: string, more: More = {}, rail = '3V3') =>
    kindOf({ [rail]: typed }, rail, { quantity: 'volts', ...more })
  test('under a tenth of nominal a rail is not on: 0.33 V of 3.3 V', () => {
    expect([volts('0.329'), volts('0.331')]).toEqual(['no-voltage', 'below'])
  })
  test('without a tolerance 5 % are a hint: 3.135 to 3.465 V', () => {
    const rails = bowline.rails.map((rail) => {
      const { tolerancePct: _, ...rest } = rail
      return rail.name === '3V3' ? rest : rail
    })
    const model = { ...bowline, rails }
    expect(['3.134', '3.135', '3.465', '3.466'].map((text) => volts(text, { model }))).toEqual([
      'unusual',
      'usual',
      'usual',
      'unusual',
    ])
  })
  // nominal 0.9 V: idle 0.65 · 0.9 = 0.585 to 1.1 · 0.9 = 0.99; load 0.85 · 0.9 = 0.765 to 1.25 · 0.9 = 1.125; never over 1.4 · 0.9 = 1.26
  test.each([
    ['0.584', 'idle', 'unusual'],
    ['0.585', 'idle', 'usual'],
    ['0.99', 'idle', 'usual'],
    ['0.991', 'idle', 'unusual'],
    ['0.764', 'load', 'unusual'],
    ['0.765', 'load', 'usual'],
    ['1.12', 'load', 'usual'],
    ['1.14', 'load', 'unusual'],
    ['0.584', undefined, 'unusual'],
    ['0.585', undefined, 'usual'],
    ['1.12', undefined, 'usual'],
    ['1.14', undefined, 'unusual'],
    ['1.259', 'load', 'unusual'],
    ['1.261', 'load', 'above'],
  ] as const)('a core of 0.9 V at %s V, %s, is %s', (typed, state, kind) => {
    expect(volts(typed, state === undefined ? {} : { state }, 'VCORE')).toBe(kind)
  })
})

describe('before power', () => {
  const well = { ...wellAtZero, VCORE: '0.6' }
  const verdictOf = (typed: Readonly<Record<string, string>>, leads?: Leads, goodReadings: GoodReadings[] = []) =>
    judgePower(bowline, {
      measurements: measured({ ...well, ...typed }),
      goodReadings,
      phase: 'before',
      ...(leads === undefined ? {} : { leads }),
    }).verdict

  test('two wires read up to 0.5 Ω by themselves, and 0.1 Ω after the leads were taken off', () => {
    expect([verdictOf({ VCORE: '0.499' }), verdictOf({ VCORE: '0.5' })]).toEqual(['not-known', 'safe'])
    const off: Leads = { kind: 'two-wire', ohm: 0.3 }
    expect(verdictOf({ VCORE: '0.51' }, off)).toBe('safe')
    // a core that may read as little as 10 mΩ, so that what is left of 0.4 Ω lies inside of its range
    const model = withRails({ VCORE: { ohmsToGround: { lowOhm: 0.01, highOhm: 2, from: 'a good card' } } })
    const states = (typed: string) => lineStates(model, measured({ VCORE: typed }), [], off).rails.get('VCORE')
    expect([states('0.399'), states('0.401')]).toEqual([undefined, 'fine'])
  })
  test('ten times the top of its range is a slip of the unit or a rail that is cut: 20 Ω of a core', () => {
    const zeroed: Leads = { kind: 'zeroed' }
    expect([verdictOf({ VCORE: '20' }, zeroed), verdictOf({ VCORE: '20.1' }, zeroed)]).toEqual(['safe', 'not-known'])
  })
  test('good cards that read under half of the board’s own range are doubted: 10 Ω of 20 Ω', () => {
    const zeroed: Leads = { kind: 'zeroed' }
    const at = (ohm: number) => verdictOf({ VMEM: String(ohm) }, zeroed, [good('VMEM', [ohm, ohm, ohm, ohm, ohm])])
    expect([at(9.99), at(10)]).toEqual(['not-known', 'safe'])
  })
  // Q = C · V = I · t: 3 mF to 12 V take 36 mC, at 1 A 36 ms
  test('capacitors of 3 mF fill to 12 V within 36 ms at 1 A, 72 ms at 0.5 A; for longer than 1 s it is a load', () => {
    expect(measuringRules.inputNominalV.value).toBe(12)
    expect(measuringRules.firstPowerLimitA.value).toBe(1)
    expect(inrushSeconds(1, 12)).toBeCloseTo(0.036, 9)
    expect(inrushSeconds(0.5, 12)).toBeCloseTo(0.072, 9)
    expect(longestInrushSeconds()).toBe(1)
  })
})

describe('which rail comes first, by its voltage alone', () => {
  // 5 V first (from 4 V on), then 3.3 V (2.7), then 1.8 V (1.7), then the rest: each pair stands in the board file the other way round
  test.each([
    [4, 3.9],
    [2.7, 2.6],
    [1.7, 1.6],
  ])('%d V before %d V', (first, later) => {
    const [some] = bowline.rails
    if (some === undefined) throw new Error('no rail')
    const rail = (name: string, nominalV: number) => ({ ...some, name, nominalV, stages: [], feeds: [], points: [] })
    const order = (...rails: BoardModel['rails']) => supplyOrder({ ...bowline, rails }).map(({ name }) => name)
    expect(order(rail('later', later), rail('first', first))).toEqual(['first', 'later'])
    expect(order(rail('one', first), rail('other', first + 0.01))).toEqual(['one', 'other'])
  })
  test('what is 10 V or more is an input, whatever it feeds', () => {
    const at = (nominalV: number): string => {
      const model = withRails({ VMEM: { nominalV } })
      const rail = model.rails.find(({ name }) => name === 'VMEM')
      return rail === undefined ? '' : useOfRail(model, rail)
    }
    expect([at(10), at(9.99)]).toEqual(['input', 'memory'])
  })
})

describe('the inductor of a stage', () => {
  const nextTo = (mm: number): string => {
    const stage = bowline.partByRef.get('S1')
    const coil = bowline.parts.find(({ kind }) => kind === 'inductor')
    if (stage === undefined || coil === undefined) throw new Error('a stage and an inductor')
    const at = { x: stage.placement.at.x + mm, y: stage.placement.at.y }
    const own = { ...coil, ref: 'L99', side: stage.side, placement: { ...coil.placement, at } }
    const parts = [...bowline.parts.filter(({ kind }) => kind !== 'inductor'), own]
    const model = { ...bowline, parts, partByRef: new Map(parts.map((part) => [part.ref, part])) }
    const line = measuringLines(model, 'ohms').find((each) => each.line.name === 'S1' && each.line.point === 'switch')
    return line?.points.map(({ words }) => words).join() ?? ''
  }
  test('stands within 15 mm of it', () => {
    expect([nextTo(15), nextTo(15.1)]).toEqual(['L99 beside it', 'S1'])
  })
})

describe('what nobody can have read is asked about', () => {
  const takes = (text: string, quantity: Quantity): boolean => readTyped(text, quantity).ok
  test.each<[Quantity, string, string]>([
    ['diode', '4000', '4001'],
    ['diode', '4 V', '4.1 V'],
    ['volts', '1000', '1001'],
    ['volts', '-1000', '-1001'],
    ['ohms', '1000G', '1001G'],
  ])('%s: %s is taken, %s is not', (quantity, taken, refused) => {
    expect([takes(taken, quantity), takes(refused, quantity)]).toEqual([true, false])
  })
})
