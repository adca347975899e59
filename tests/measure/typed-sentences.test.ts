/** What is said of an entry that can't be taken, whole, and both sides of each limit. Limits stand in `practice.json`: stated, no source. */
import { describe, expect, test } from 'vitest'
import { sayFault } from '../../src/base/index.ts'
import { type Quantity, readTyped, sayMeasured, sayReading } from '../../src/measure/index.ts'

/** The value, or what is asked. */
const taken = (text: string, quantity: Quantity): unknown => {
  const read = readTyped(text, quantity)
  if (!read.ok) return read.faults[0]?.todo
  return read.value.reading.kind === 'value' ? read.value.reading.value : read.value.reading.kind
}
const TAKES = {
  ohms: 'this field takes resistance to ground, in ohms.',
  diode: 'this field takes the diode mode, in mV.',
  volts: 'this field takes a voltage, in volts.',
}

describe('the unit of something else', () => {
  test.each([
    ['12 V', 'voltage'],
    ['12 VDC', 'voltage'],
    ['12 kVac', 'voltage'],
    ['12 kV', 'voltage'],
    ['12 volts', 'voltage'],
    ['2 A', 'current'],
    ['2 mA', 'current'],
    ['2 µA', 'current'],
    ['2 amps', 'current'],
    ['22 pF', 'capacitance'],
    ['22 nF', 'capacitance'],
    ['22 µF', 'capacitance'],
    ['22 farad', 'capacitance'],
    ['50 Hz', 'frequency'],
    ['50 kHz', 'frequency'],
    ['50 hertz', 'frequency'],
    ['22 °C', 'temperature'],
    ['22 C', 'temperature'],
    ['72 °F', 'temperature'],
    ['22 degrees', 'temperature'],
    ['22 celsius', 'temperature'],
    ['5 %', 'percentage'],
    ['5 percent', 'percentage'],
  ])('%s in the field for ohms', (text, name) => {
    expect(taken(text, 'ohms')).toBe(`That is a ${name}; ${TAKES.ohms}`)
  })

  test.each([
    ['470 Ω', 'volts', `That is a resistance; ${TAKES.volts}`],
    ['470 kΩ', 'volts', `That is a resistance; ${TAKES.volts}`],
    ['4R7', 'volts', `That is a resistance; ${TAKES.volts}`],
    ['470 ohms', 'volts', `That is a resistance; ${TAKES.volts}`],
    ['62 Ω', 'diode', `That is a resistance; ${TAKES.diode} Was the meter in ohms?`],
    ['5k', 'diode', `That is a resistance; ${TAKES.diode} Was the meter in ohms?`],
    ['1 A', 'diode', `That is a current; ${TAKES.diode}`],
    ['1 A', 'volts', `That is a current; ${TAKES.volts}`],
    // a diode mode shows 4 V at most, so that only a lower voltage may be one in the wrong column
    ['0.5 V', 'ohms', `That is a voltage; ${TAKES.ohms} Was the meter in diode mode?`],
    ['4 V', 'ohms', `That is a voltage; ${TAKES.ohms} Was the meter in diode mode?`],
    ['4.1 V', 'ohms', `That is a voltage; ${TAKES.ohms}`],
    ['-0.5 V', 'ohms', `That is a voltage; ${TAKES.ohms}`],
    ['0.5 foo', 'ohms', undefined],
    ['0.5 avocado', 'ohms', undefined],
  ] as const)('%s in the field for %s', (text, quantity, words) => expect(taken(text, quantity)).toBe(words))
})

const BELOW =
  'Below zero: red goes on ground and black on the point, and the rail may still be charged. Let it drain, then read again.'
const CHARGED = 'No resistance is below zero: the rail may still be charged. Let it drain, then measure again.'
const PREFIX = 'No rail of a card has so much: look at the prefix.'

test.each<[string, Quantity, unknown]>([
  ['1e12', 'ohms', 1e12],
  ['1.1e12', 'ohms', 'No meter shows so much: type OL.'],
  ['1e999', 'ohms', 'No meter shows such a number.'],
  ['-1e999', 'volts', 'No meter shows such a number.'],
  ['0', 'ohms', 0],
  ['-0.1', 'ohms', CHARGED],
  ['1000', 'volts', 1000],
  ['1001', 'volts', PREFIX],
  ['-1000', 'volts', -1000],
  ['-1001', 'volts', PREFIX],
  ['short', 'volts', 'A short is no voltage: type what the meter shows, such as 0.'],
  ['short', 'diode', 'short'],
  ['open', 'diode', 'open'],
  // whole numbers are millivolts, three decimals volts, and what is 4 or more can be no volts
  ['4000', 'diode', 4],
  ['4001', 'diode', 'No diode mode shows 4001 mV: is it in ohms? Then it goes into the field for ohms.'],
  ['4', 'diode', 0.004],
  ['4.5', 'diode', 0.0045],
  ['3', 'diode', 0.003],
  ['3.9', 'diode', 'Is 3.9 in volts or in millivolts? Type 3.9 V or 3.9 mV.'],
  ['0.45', 'diode', 'Is 0.45 in volts or in millivolts? Type 0.45 V or 0.45 mV.'],
  ['0.450', 'diode', 0.45],
  ['0', 'diode', 0],
  ['-1', 'diode', BELOW],
  ['-1 mV', 'diode', BELOW],
  ['0 V', 'diode', 0],
  ['4 V', 'diode', 4],
  ['4.01 V', 'diode', 'No diode mode shows so much: is it a voltage under power?'],
  ['-OL', 'ohms', 'open'],
  ['+O.L.', 'ohms', 'open'],
  ['overrange', 'ohms', 'open'],
  ['over limit', 'ohms', 'open'],
  ['open line', 'ohms', 'open'],
  ['open loop', 'ohms', 'open'],
  ['inf', 'ohms', 'open'],
  ['infinite', 'ohms', 'open'],
  ['openly', 'ohms', undefined],
  ['reopen', 'ohms', undefined],
  ['shorty', 'ohms', undefined],
  ['not short', 'ohms', undefined],
  ['–3 V', 'volts', -3],
  ['-2k2', 'volts', PREFIX],
  ['-2V2', 'volts', -2.2],
  ['62,', 'ohms', 62],
  ['62 ;', 'ohms', 62],
  ['OL.', 'ohms', 'open'],
  ['4 u', 'ohms', 4e-6],
  ['4 micro ohms', 'ohms', 4e-6],
  ['4 Milli ohms', 'ohms', 0.004],
  ['12 volts dc', 'volts', 12],
])('%s as %s', (text, quantity, expected) => expect(taken(text, quantity)).toEqual(expected))

test('a refusal says what each field takes', () => {
  const said = (quantity: Quantity) => {
    const read = readTyped(' abc ', quantity)
    return read.ok ? '' : read.faults.map(sayFault).join()
  }
  expect(said('ohms')).toBe('the entry: found "abc", expected ohms, such as 0.38, 380m, 2k2, OL or short.')
  expect(said('diode')).toBe('the entry: found "abc", expected diode mode, such as 545, 0.545 V, 545 mV or OL.')
  expect(said('volts')).toBe('the entry: found "abc", expected volts, such as 12.1, 1,35 V, 3V3 or 870 mV.')
})

describe('a figure in settled words', () => {
  // six digits at most; the prefix leaves one to three digits before the point
  test.each<[number, Quantity, string]>([
    [1e9, 'ohms', '1 GΩ'],
    [1.5e12, 'ohms', '1500 GΩ'],
    [999_999, 'ohms', '999.999 kΩ'],
    [999_999.9, 'ohms', '1 MΩ'],
    [1000, 'ohms', '1 kΩ'],
    [999, 'ohms', '999 Ω'],
    [1, 'ohms', '1 Ω'],
    [0.999, 'ohms', '999 mΩ'],
    [0.001, 'ohms', '1 mΩ'],
    [0.000_999, 'ohms', '999 µΩ'],
    [1e-7, 'ohms', '0.1 µΩ'],
    [1e-9, 'ohms', '0.001 µΩ'],
    [100, 'ohms', '100 Ω'],
    [0.1, 'volts', '0.1 V'],
    [0.0999, 'volts', '99.9 mV'],
    [-0.0999, 'volts', '-99.9 mV'],
    [-0.1, 'volts', '-0.1 V'],
    [0.0005, 'volts', '500 µV'],
    [0.545, 'diode', '545 mV'],
    [1.2, 'diode', '1200 mV'],
    [0.0005, 'diode', '0.5 mV'],
    [0, 'diode', '0 mV'],
  ])('%f in %s is %s', (value, quantity, words) => expect(sayReading({ kind: 'value', value }, quantity)).toBe(words))

  test('says what the card did meanwhile, where that was noted', () => {
    const reading = { kind: 'value', value: 1.02 } as const
    expect(sayMeasured({ reading, quantity: 'volts', state: 'load' })).toBe('1.02 V under load')
    expect(sayMeasured({ reading, quantity: 'volts', state: 'idle' })).toBe('1.02 V idle')
    expect(sayMeasured({ reading, quantity: 'volts' })).toBe('1.02 V')
  })
})
