/** Diode mode, red on ground: what is typed, what it is held against, and what it says about power and to the suspects. */
import { describe, expect, test } from 'vitest'
import { goodReadingsOf } from '../../src/case/index.ts'
import {
  connectMeter,
  type GoodReadings,
  judgePower,
  lineKey,
  lineStates,
  lineVerdicts,
  measurementSchema,
  type Quantity,
  readTyped,
} from '../../src/measure/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { simulatedMeter } from '../support/simulated-meter.ts'
import { lineOf, measured } from './measured.ts'

const bowline = shippedBoard('bowline-8')

const typedAs = (text: string, quantity: Quantity = 'diode'): string => {
  const read = readTyped(text, quantity)
  return read.ok ? read.value.words : `asks: ${read.faults[0]?.todo ?? read.faults[0]?.expected ?? ''}`
}

describe('what is typed', () => {
  // Meters show the diode test in millivolts without a point, or in volts with three decimals or more: common practice, no source
  test.each([
    ['545', '545 mV'],
    ['545.2', '545.2 mV'],
    ['545 mV', '545 mV'],
    ['545m', '545 mV'],
    ['0.545 V', '545 mV'],
    ['0,545 V', '545 mV'],
    ['0V545', '545 mV'],
    ['0.545', '545 mV'],
    ['.545', '545 mV'],
    ['1,204', '1204 mV'],
    ['0', '0 mV'],
    ['3', '3 mV'],
    ['OL', 'open'],
    ['.OL', 'open'],
    ['short', 'short'],
  ])('%s is %s', (text, words) => expect(typedAs(text)).toBe(words))

  test.each([
    ['0.5', /Is 0\.5 in volts or in millivolts\? Type 0\.5 V or 0\.5 mV\./],
    ['62 Ω', /That is a resistance; this field takes the diode mode, in mV\. Was the meter in ohms\?/],
    ['2k2', /That is a resistance.*in ohms\?/],
    ['12k', /That is a resistance/],
    ['12000', /is it in ohms\?/],
    ['12 V', /is it a voltage under power\?/],
    ['-545', /red goes on ground/],
    ['1 A', /That is a current/],
    ['abc', /diode mode, such as 545/],
  ])('%s is asked about', (text, sentence) => expect(typedAs(text)).toMatch(sentence))

  test('a voltage in the field for ohms is asked about as one of diode mode', () => {
    expect(typedAs('0.545 V', 'ohms')).toMatch(/That is a voltage.*Was the meter in diode mode\?/)
    expect(typedAs('545 mV', 'ohms')).toMatch(/Was the meter in diode mode\?/)
  })

  test('a reading keeps its quantity in the case file', () => {
    const [reading] = measured({ 'S1 pwm': '545' }, 'diode')
    expect(measurementSchema.parse(reading)).toEqual(reading)
    expect(reading?.reading).toEqual({ kind: 'value', value: 0.545 })
  })

  // SCPI-1999 has no DIODe in its core; meters that measure it take MEASure:DIODe?, from memory
  test('a bench meter is asked for its diode test, and a charge below zero is refused', async () => {
    const { line, show, heard } = simulatedMeter()
    const met = await connectMeter(line, { replyMs: 1, readingMs: 1 })
    if (!met.ok) throw new Error('no meter')
    show('OL', 'OL', '+5.45000000E-01')
    const read = await met.value.read('diode')
    expect(read.ok && read.value).toEqual({ kind: 'value', value: 0.545 })
    expect(heard).toContain('MEAS:DIOD?')
    show('OL', 'OL', '-3.00000000E-01')
    expect((await met.value.read('diode')).ok).toBe(false)
  })

  test('a meter that knows no diode test gives no figure of another kind', async () => {
    const { line } = simulatedMeter({ noMeasure: true })
    const met = await connectMeter(
      { ...line, send: (text) => line.send(text.replace('DIOD', 'NONE')) },
      { replyMs: 1, readingMs: 1 },
    )
    expect(met.ok && (await met.value.read('diode')).ok).toBe(false)
  })
})

const kindOf = (
  typed: Readonly<Record<string, string>>,
  name: string,
  goodReadings: readonly GoodReadings[] = [],
): string | undefined =>
  lineVerdicts(bowline, { measurements: measured(typed, 'diode'), goodReadings }, 'diode', 'before').find(
    ({ line }) => lineKey(line.line) === lineKey(lineOf(name)),
  )?.verdict.kind

const good = (name: string, millivolts: readonly number[]): GoodReadings => ({
  line: lineOf(name),
  quantity: 'diode',
  values: millivolts.map((each) => each / 1000),
})

describe('what it is held against', () => {
  // siblings within 10 to 20 mV, an outlier beyond 30 mV, 0 or OL a short or an open: common practice, no source
  test.each([
    ['545', 'alike'],
    ['565', 'alike'],
    ['500', 'unlike-low'],
    ['590', 'unlike-high'],
    ['OL', 'open'],
    ['0', 'short'],
  ])('a pin at %s mV beside siblings at 545 mV is %s', (typed, kind) => {
    expect(kindOf({ 'S2 pwm': '545', 'S3 pwm': '548', 'S4 pwm': '541', 'S1 pwm': typed }, 'S1 pwm')).toBe(kind)
  })

  test('ohms are no siblings of millivolts', () => {
    const measurements = [...measured({ 'S2 pwm': '12k' }), ...measured({ 'S1 pwm': '545' }, 'diode')]
    const of = lineVerdicts(bowline, { measurements, goodReadings: [] }, 'diode', 'before')
    expect(of.find(({ measurement }) => measurement !== undefined)?.verdict.kind).toBe('usual')
  })

  test('a rail has no reference until five good cards give one, apart from their ohms', () => {
    expect(kindOf({ VMEM: '120' }, 'VMEM')).toBe('no-range')
    const cards = good('VMEM', [120, 122, 118, 121, 119])
    expect(kindOf({ VMEM: '125' }, 'VMEM', [cards])).toBe('in-range')
    expect(kindOf({ VMEM: '95' }, 'VMEM', [cards])).toBe('below')
    expect(kindOf({ VMEM: '40' }, 'VMEM', [cards])).toBe('low')
    expect(kindOf({ VMEM: '95' }, 'VMEM', [{ ...cards, quantity: 'ohms' }])).toBe('no-range')
  })

  test('good cards are learnt from by quantity and by point', () => {
    const card = (text: string) => ({
      goodCard: true,
      measurements: [...measured({ 'S1 pwm': text }, 'diode'), ...measured({ 'S1 pwm': '12k', 'S1 enable': '80k' })],
    })
    const learnt = goodReadingsOf([card('545'), card('550')])
    expect(learnt.map(({ line, quantity, values }) => [lineKey(line), quantity, values])).toEqual([
      ['stage S1 pwm', 'diode', [0.545, 0.55]],
      ['stage S1 pwm', 'ohms', [12_000, 12_000]],
      ['stage S1 enable', 'ohms', [80_000, 80_000]],
    ])
  })

  test('a core reads next to nothing by nature: no short is made of it', () => {
    expect(kindOf({ VCORE: '0' }, 'VCORE')).toBe('no-range')
    expect(kindOf({ VMEM: '0' }, 'VMEM')).toBe('short')
  })
})

describe('what it says', () => {
  const rails = { '12V': '2k2', VCORE: '0.6', VMEM: '62', '3V3': '1k', '0V9': '12', VPP: '300' }
  const stages = ['S1', 'S2', 'S3', 'S4', 'S5', 'S6', 'S7', 'S10', 'S11']
  const cold = measured({ ...rails, ...Object.fromEntries(stages.map((ref) => [`${ref} input`, '2k'])) })
  const judged = (typed: Readonly<Record<string, string>>, goodReadings: GoodReadings[] = []) =>
    judgePower(bowline, {
      measurements: [...cold, ...measured(typed, 'diode')],
      goodReadings,
      leads: { kind: 'zeroed' },
      phase: 'before',
    })

  test('it never forbids power by itself, and what is off leaves it not known', () => {
    expect(judged({}).verdict).toBe('safe')
    expect(judged({ VMEM: '0' }).verdict).toBe('not-known')
    expect(judged({ VMEM: '40' }, [good('VMEM', [120, 122, 118, 121, 119])]).verdict).toBe('not-known')
    expect(judged({ 'S1 pwm': '545', 'S2 pwm': '545', 'S3 pwm': '300' }).verdict).toBe('not-known')
  })

  test('diode mode does not stand in for the ohms of a rail', () => {
    const measurements = measured({ VMEM: '120' }, 'diode')
    const { missing } = judgePower(bowline, { measurements, goodReadings: [], phase: 'before' })
    expect(missing.map(({ name }) => name)).toContain('VMEM')
  })

  test('a pin that stands out makes its stage suspect, and good cards outweigh the habit of ohms', () => {
    const pins = measured({ 'S1 pwm': '545', 'S2 pwm': '545', 'S3 pwm': '300', 'S4 pwm': 'OL' }, 'diode')
    const { stages: states } = lineStates(bowline, pins, [])
    expect([states.get('S1'), states.get('S3'), states.get('S4')]).toEqual(['fine', 'low', 'open'])
    const both = [...measured({ VMEM: '62' }), ...measured({ VMEM: '40' }, 'diode')]
    expect(lineStates(bowline, both, []).rails.get('VMEM')).toBe('fine')
    expect(lineStates(bowline, both, [good('VMEM', [120, 122, 118, 121, 119])]).rails.get('VMEM')).toBe('low')
  })
})
