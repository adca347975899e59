/** Readings in settled words: `380 mΩ`, `2.2 kΩ`, `1.35 V`, `545 mV` in diode mode, `open`. */
import { decimalSign, say } from '../base/index.ts'
import type { Measurement, PoweredState, Quantity, Reading } from './schema.ts'

/** Figures with more digits are rounded to so many: no bench meter reads more on a card. */
const DIGITS = 6

/** A reading in words, its value in the unit of its quantity: ohms, volts, or volts told as millivolts for diode mode. */
export const sayReading = (reading: Reading, quantity: Quantity): string => inManner(typedReading(reading, quantity))

/** The same as a field holds it: with a decimal point, so that it is read again as the number that it is. */
export const typedReading = (reading: Reading, quantity: Quantity): string =>
  reading.kind === 'value' ? PLAIN[quantity](reading.value) : WITHOUT_FIGURE[reading.kind]

/** With what the card did meanwhile, where that was noted: `1.02 V under load`. */
export function sayMeasured({ reading, quantity, state }: Pick<Measurement, 'reading' | 'quantity' | 'state'>): string {
  const words = sayReading(reading, quantity)
  return state === undefined ? words : `${words} ${STATE_WORDS[state]}`
}

/** With the decimal sign that the manner has. */
const inManner = (words: string): string => words.replace('.', decimalSign())

export const WITHOUT_FIGURE = { short: say('short'), open: say('open') } as const

export const STATE_WORDS: Readonly<Record<PoweredState, string>> = { idle: say('idle'), load: say('under load') }

const plainOhms = (ohm: number): string =>
  said(ohm, 'Ω', [
    [9, 'G'],
    [6, 'M'],
    [3, 'k'],
    [0, ''],
    [-3, 'm'],
    [-6, 'µ'],
  ])

const plainVolts = (volt: number): string =>
  Math.abs(volt) < 0.1
    ? said(volt, 'V', [
        [-3, 'm'],
        [-6, 'µ'],
      ])
    : said(volt, 'V', [[0, '']])

const plainMillivolts = (volt: number): string => (volt === 0 ? '0 mV' : said(volt, 'V', [[-3, 'm']]))

const PLAIN: Readonly<Record<Quantity, (value: number) => string>> = {
  ohms: plainOhms,
  diode: plainMillivolts,
  volts: plainVolts,
}

/** @param ohm not negative; `0.38` becomes `380 mΩ` */
export const sayOhms = (ohm: number): string => inManner(plainOhms(ohm))

/** From 0.1 V on in volts, below it in millivolts. */
export const sayVolts = (volt: number): string => inManner(plainVolts(volt))

/** As diode mode is told: always in millivolts. */
export const sayMillivolts = (volt: number): string => inManner(plainMillivolts(volt))

/** `48 to 80 Ω`, `200 mΩ to 2 Ω`: the unit once where both have it. */
export function sayRange(low: number, high: number, quantity: Quantity): string {
  const inWords = (value: number): string => inManner(PLAIN[quantity](value))
  const [first = '', unit] = inWords(low).split(' ')
  const last = inWords(high)
  return last.endsWith(` ${unit}`)
    ? say('{first} to {last}', { first, last })
    : say('{low} to {last}', { low: inWords(low), last })
}

/** The point is moved in the text, not by arithmetic, so that reading it again gives the same number. */
function said(value: number, unit: string, prefixes: readonly (readonly [number, string])[]): string {
  if (value === 0) return `0 ${unit}`
  const [mantissa = '', exponentText = '0'] = Math.abs(value)
    .toExponential(DIGITS - 1)
    .split('e')
  const exponent = Number(exponentText)
  const last = prefixes.at(-1) ?? ([0, ''] as const)
  const [power, prefix] = prefixes.find(([least]) => exponent >= least) ?? last
  const digits = mantissa.replace('.', '').replace(/0+$/, '')
  return `${value < 0 ? '-' : ''}${placed(digits, exponent - power)} ${prefix}${unit}`
}

/** Digits with the decimal point after digit number `exponent`, counted from 0; zeros where there are none. */
function placed(digits: string, exponent: number): string {
  if (exponent < 0) return `0.${'0'.repeat(-exponent - 1)}${digits}`
  const whole = digits.slice(0, exponent + 1).padEnd(exponent + 1, '0')
  const rest = digits.slice(exponent + 1)
  return rest === '' ? whole : `${whole}.${rest}`
}
