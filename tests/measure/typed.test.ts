/** Entry that forgives: what people type or dictate at a meter. */
import { fc, test as prop } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import { sayFault, speak } from '../../src/base/index.ts'
import { type Quantity, readTyped, sayReading, typedReading } from '../../src/measure/index.ts'

const valueOf = (text: string, quantity: Quantity = 'ohms'): number | string => {
  const read = readTyped(text, quantity)
  if (!read.ok) return `refused: ${read.faults[0]?.todo ?? read.faults[0]?.expected ?? ''}`
  return read.value.reading.kind === 'value' ? read.value.reading.value : read.value.reading.kind
}

describe('resistances', () => {
  // IEC 60062 letter and digit code: the examples of resistance values that go with the standard (R47 … 4M7)
  test.each([
    ['R47', 0.47],
    ['4R7', 4.7],
    ['470R', 470],
    ['4K7', 4700],
    ['47K', 47_000],
    ['47K3', 47_300],
    ['470K', 470_000],
    ['4M7', 4_700_000],
  ])('RKM code %s is %f ohms', (text, ohms) => expect(valueOf(text)).toBe(ohms))

  // The multipliers L (10^-3), R, K, M, G of IEC 60062 and further examples of the code: R10, R300, 1K0, 2M2, from memory of
  // the standard’s table; small letters are common practice
  test.each([
    ['R10', 0.1],
    ['R300', 0.3],
    ['1K0', 1000],
    ['2M2', 2_200_000],
    ['1G5', 1.5e9],
    ['10L5', 0.0105],
    ['2k2', 2200],
    ['4r7', 4.7],
    ['4m7', 0.0047],
  ])('%s is %f ohms', (text, ohms) => expect(valueOf(text)).toBe(ohms))

  test.each([
    ['0.38', 0.38],
    ['0,38', 0.38],
    ['.38', 0.38],
    ['380m', 0.38],
    ['380 mΩ', 0.38],
    ['380 m\u2126', 0.38],
    ['380 milliohms', 0.38],
    ['380 milli ohms.', 0.38],
    ['2.2k', 2200],
    ['2,2 kOhm', 2200],
    ['2.2 kilo ohms', 2200],
    ['2.2 kilohms.', 2200],
    ['1M', 1e6],
    ['1 megohm', 1e6],
    ['1.5 MΩ', 1.5e6],
    ['4 meg', 4e6],
    ['4 megaohms', 4e6],
    ['4 Mega ohms', 4e6],
    ['2 GΩ', 2e9],
    ['2 gigaohms', 2e9],
    ['2 Giga ohms', 2e9],
    ['50 µΩ', 5e-5],
    ['62', 62],
    ['62.', 62],
    ['62 ohms.', 62],
    ['62 R', 62],
    ['0', 0],
    ['0 Ω', 0],
    ['1e3', 1000],
    ['3.8E-01', 0.38],
    ['+1.23456789E+02', 123.456789],
    ['1 200', 1200],
    ['1\u202f200 000', 1_200_000],
    ["1'200.5", 1200.5],
    ['1,234,567', 1_234_567],
    ['1.234.567', 1_234_567],
    ['1,234.5', 1234.5],
    ['1.234,5', 1234.5],
    ['1.200', 1.2],
    ['0,380', 0.38],
    ['1,348 kΩ', 1348],
    ['1000000', 1e6],
  ])('%s is %f', (text, ohms) => expect(valueOf(text)).toBe(ohms))

  test.each(['OL', 'O.L', 'O.L.', '0L', '.OL', 'ol', 'over', 'Overload.', 'open', 'Open circuit', '∞', 'infinity'])(
    '%s is open',
    (text) => expect(valueOf(text)).toBe('open'),
  )

  test.each(['short', 'Short.', 'shorted', 'dead short', 'short circuit'])('%s is a short without a figure', (text) =>
    expect(valueOf(text)).toBe('short'),
  )

  test.each([
    ['12 V', /That is a voltage/],
    ['870mV', /That is a voltage/],
    ['0.5 A', /That is a current/],
    ['22 °C', /That is a temperature/],
    ['1,200', /decimal one or stand for thousands: type 1\.200 or 1200/],
    ['-3', /may still be charged/],
    ['1 20', /such as/],
    ['0 380', /such as/],
    ['000 380', /such as/],
    ['1..2', /such as/],
    ['1,2,3', /such as/],
    ['twelve', /such as/],
    ['2 2k', /such as/],
    ['4 kMΩ', /such as/],
    ['4 MkΩ', /such as/],
    ['4 mGΩ', /such as/],
    ['4 GkΩ', /such as/],
    ['k', /such as/],
    ['', /such as/],
    ['<0.1', /such as/],
    ['1e99', /No meter shows/],
    ['1e999', /No meter shows/],
    ['NaN', /such as/],
  ])('%s is refused with a sentence', (text, sentence) => expect(valueOf(text)).toMatch(sentence))

  test('a refusal says what stood there', () => {
    const read = readTyped('12 V', 'ohms')
    if (read.ok) throw new Error('taken')
    expect(read.faults.map(sayFault)).toEqual([
      'the entry: found "12 V", expected ohms, such as 0.38, 380m, 2k2, OL or short. That is a voltage; this field takes resistance to ground, in ohms.',
    ])
  })
})

describe('voltages', () => {
  // 3V3 is how IEC 60062 would write 3.3 V; the letter in place of the point is common practice for volts
  test.each([
    ['3V3', 3.3],
    ['1v8', 1.8],
    ['12,1 V', 12.1],
    ['12.1', 12.1],
    ['12.1 volts.', 12.1],
    ['1,348', 1.348],
    ['870 mV', 0.87],
    ['870 millivolts', 0.87],
    ['-0.2', -0.2],
    ['0', 0],
    ['12 VDC', 12],
  ])('%s is %f volts', (text, volts) => expect(valueOf(text, 'volts')).toBe(volts))

  test('over range is open, a short is no voltage, and ohms are refused', () => {
    expect(valueOf('OL', 'volts')).toBe('open')
    expect(valueOf('short', 'volts')).toMatch(/no voltage/)
    expect(valueOf('2k2 Ω', 'volts')).toMatch(/such as/)
    expect(valueOf('470 Ω', 'volts')).toMatch(/That is a resistance/)
    expect(valueOf('4R7', 'volts')).toMatch(/That is a resistance/)
    expect(valueOf('12 kV', 'volts')).toMatch(/prefix/)
  })
})

describe('settled words', () => {
  test.each([
    [0.38, '380 mΩ'],
    [2200, '2.2 kΩ'],
    [62, '62 Ω'],
    [1e6, '1 MΩ'],
    [0, '0 Ω'],
    [0.00005, '50 µΩ'],
    [999.9999, '1 kΩ'],
    [123.456789, '123.457 Ω'],
  ])('%f ohms', (value, words) => expect(sayReading({ kind: 'value', value }, 'ohms')).toBe(words))

  test.each([
    [1.35, '1.35 V'],
    [0.9, '0.9 V'],
    [0.087, '87 mV'],
    [-0.2, '-0.2 V'],
    [0, '0 V'],
  ])('%f volts', (value, words) => expect(sayReading({ kind: 'value', value }, 'volts')).toBe(words))

  const sixDigits = (least: number, most: number) =>
    fc
      .tuple(fc.integer({ min: 0, max: 999_999 }), fc.integer({ min: least, max: most }))
      .map(([digits, power]) => Number(`${digits}e${power}`))

  prop.prop([sixDigits(-12, 4)], { seed: 4, numRuns: 1000 })(
    'reading settled ohms again gives the value back',
    (value) => {
      expect(valueOf(typedReading({ kind: 'value', value }, 'ohms'))).toBe(value)
    },
  )

  prop.prop([sixDigits(-9, -3), fc.boolean()], { seed: 4, numRuns: 1000 })(
    'reading settled volts again gives the value back',
    (size, negative) => {
      const value = negative && size > 0 ? -size : size
      expect(valueOf(typedReading({ kind: 'value', value }, 'volts'), 'volts')).toBe(value)
    },
  )

  prop.prop([fc.string({ maxLength: 12 })], { seed: 4, numRuns: 3000 })('nothing that is typed throws', (text) => {
    for (const quantity of ['ohms', 'volts'] as const) {
      const read = readTyped(text, quantity)
      if (read.ok && read.value.reading.kind === 'value') expect(Number.isFinite(read.value.reading.value)).toBe(true)
    }
  })

  test('open and short are read again as themselves', () => {
    for (const kind of ['open', 'short'] as const) expect(valueOf(typedReading({ kind }, 'ohms'))).toBe(kind)
  })

  test('where a comma stands before decimals it is shown, and the field keeps the point: 1,234 Ω may be typed for either', () => {
    speak('de', {})
    try {
      const reading = { kind: 'value', value: 1.234 } as const
      expect(sayReading(reading, 'ohms')).toBe('1,234 Ω')
      expect(typedReading(reading, 'ohms')).toBe('1.234 Ω')
      expect(sayReading({ kind: 'value', value: 0.5455 }, 'diode')).toBe('545,5 mV')
    } finally {
      speak('en', {})
    }
  })
})
