/** What people type or dictate at a meter, as a reading: plain numbers, prefixes, RKM code (IEC 60062), words. */
import { type Fault, type Result, bad, good, plainNumber, showValue, say } from '../base/index.ts'
import { rule } from './practice.ts'
import { typedReading, WITHOUT_FIGURE } from './say.ts'
import type { Quantity, Reading } from './schema.ts'
import { diodeOutOfReason, plainDiodeNumber } from './typed-diode.ts'

export interface TypedReading {
  readonly reading: Reading
  /** As the field shows it once it is settled: `380 mΩ`, `open`. */
  readonly words: string
}

const OPEN =
  /^(?:[+-]?\.?[o0]\.?l\.?|over(?:load|range|\s*limit)?|open(?:\s*(?:circuit|line|loop))?|inf(?:inite|inity)?|∞)$/i
const SHORT = /^(?:(?:dead\s*)?short(?:ed|\s*circuit)?)$/i

/**
 * @param text such as `0.38`, `0,38`, `380m`, `2k2`, `4R7`, `12,1 V`, `1 200`, `1e3`, `OL`, `open`, `short`, in diode mode `545`; trailing full
 *   stops, as voice typing adds them, are no part of it
 * @returns a reading in ohms or volts, diode mode in volts; refuses what is no reading, a unit of another quantity, a comma that may be a
 *   decimal one or one of thousands, in diode mode a figure that may be volts or millivolts, resistance below zero, and
 *   more than any meter or rail has
 */
export function readTyped(text: string, quantity: Quantity): Result<TypedReading> {
  const plain = tidied(text)
  if (OPEN.test(plain) || isWord(plain, 'open')) return settled({ kind: 'open' }, quantity)
  if (SHORT.test(plain) || isWord(plain, 'short')) {
    if (quantity !== 'volts') return settled({ kind: 'short' }, quantity)
    return refused(text, quantity, say('A short is no voltage: type what the meter shows, such as 0.'))
  }
  const parts = split(plain)
  if (parts === undefined) return refused(text, quantity, undefined)
  const scale = scaleOf(parts.letters, quantity)
  if (typeof scale === 'string') {
    return refused(
      text,
      quantity,
      isDiodeVoltage(parts, quantity) ? say('{scale} Was the meter in diode mode?', { scale }) : scale,
    )
  }
  if (scale === undefined) return refused(text, quantity, undefined)
  const number = plainNumber(parts.number, scale.exponent > 0 || quantity !== 'ohms')
  if (!number.ok) return refused(text, quantity, number.todo)
  if (quantity === 'diode' && parts.letters === '' && number.exponent === 0) {
    const asked = plainDiodeNumber(number.digits)
    return 'todo' in asked
      ? refused(text, quantity, asked.todo)
      : settled({ kind: 'value', value: asked.volt }, quantity)
  }
  const value = Number(`${number.digits}e${number.exponent + scale.exponent}`)
  const wrong = outOfReason(value, quantity)
  return wrong === undefined ? settled({ kind: 'value', value }, quantity) : refused(text, quantity, wrong)
}

const settled = (reading: Reading, quantity: Quantity): Result<TypedReading> =>
  good({ reading, words: typedReading(reading, quantity) })

/** As the language that is spoken has it. */
const isWord = (text: string, kind: keyof typeof WITHOUT_FIGURE): boolean =>
  text.toLowerCase() === WITHOUT_FIGURE[kind].toLowerCase()

const EXPECTED: Readonly<Record<Quantity, string>> = {
  ohms: say('ohms, such as 0.38, 380m, 2k2, OL or short'),
  diode: say('diode mode, such as 545, 0.545 V, 545 mV or OL'),
  volts: say('volts, such as 12.1, 1,35 V, 3V3 or 870 mV'),
}

function refused(text: string, quantity: Quantity, todo: string | undefined): Result<never> {
  const fault: Fault = { path: 'the entry', found: showValue(text.trim()), expected: EXPECTED[quantity] }
  return bad(todo === undefined ? fault : { ...fault, todo })
}

/** One kind of space, minus, ohm sign and micro sign; no spaces or full stops at the ends. */
function tidied(text: string): string {
  return text
    .normalize('NFKC')
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[\s\u00a0\u202f]+/g, ' ')
    .trim()
    .replace(/(?<![oO0])[.!;,\s]+$/, '')
    .replace(/(?<=[0-9])[.!;,\s]+$/, '')
}

interface Split {
  /** Digits with separators, sign and exponent. */
  readonly number: string
  /** Prefix and unit, as they were written. */
  readonly letters: string
}

const PLAIN = /^([+-]?(?:\d[\d., '’]*|[.,]\d+)(?:e[+-]?\d{1,3})?)\s*([a-zΩμµ°%]*(?: [a-zΩ]+)?)$/iu
const CODED = /^([+-]?)(\d{0,6})\s?(R|K|M|G|L|V|m|Ω)\s?(\d{1,6})$/iu

/** `2k2` and `R47` become 2.2 with `k` and 0.47 with `R`: the letter stands where the decimal point would. */
function split(text: string): Split | undefined {
  const coded = CODED.exec(text)
  if (coded !== null) {
    const [, sign = '', whole = '', letter = '', rest = ''] = coded
    return { number: `${sign}${whole === '' ? '0' : whole}.${rest}`, letters: codedLetter(letter) }
  }
  const [, number, letters] = PLAIN.exec(text) ?? []
  return number === undefined ? undefined : { number: number.trim(), letters: (letters ?? '').trim() }
}

/** IEC 60062: L stands for 10⁻³ of an ohm. Small `m` is no letter of that code, but says the same to everybody. */
const codedLetter = (letter: string): string => (/^l$/i.test(letter) ? 'mΩ' : letter)

interface Scale {
  readonly exponent: number
}

const OHM = '(?:Ω|ohms?|r)'
const VOLT = '(?:v|volts?)(?: ?dc)?'

const PREFIXES: readonly (readonly [RegExp, number])[] = [
  [/^(?:μ|µ|u|micro ?)$/i, -6],
  [/^(?:m|milli ?)$/, -3],
  [/^(?:milli ?)$/i, -3],
  [/^(?:k|kilo? ?)$/i, 3],
  [/^(?:M|[Mm]eg(?:a ?)?)$/, 6],
  [/^(?:g|giga ?)$/i, 9],
]

/** @returns a sentence where the unit is one of another quantity; undefined where the letters are no unit at all */
function scaleOf(letters: string, quantity: Quantity): Scale | string | undefined {
  const own = new RegExp(`^(.*?) ?${quantity === 'ohms' ? OHM : VOLT}$`, 'iu').exec(letters)
  const prefix = own?.[1] ?? letters
  const exponent = prefix === '' ? 0 : PREFIXES.find(([form]) => form.test(prefix))?.[1]
  if (exponent !== undefined && !(quantity === 'diode' && exponent > 0)) return { exponent }
  return otherUnit(letters, quantity)
}

const RESISTANCE = say('That is a resistance')

const TAKES: Readonly<Record<Quantity, string>> = {
  ohms: say('resistance to ground, in ohms'),
  diode: say('the diode mode, in mV'),
  volts: say('a voltage, in volts'),
}

function other(words: string, quantity: Quantity): string {
  const said = say('{words}; this field takes {takes}.', { words, takes: TAKES[quantity] })
  return quantity === 'diode' && words === RESISTANCE ? say('{said} Was the meter in ohms?', { said }) : said
}

function otherUnit(letters: string, quantity: Quantity): string | undefined {
  const found = OTHER_UNITS.find(([form]) => form.test(letters))
  return found === undefined ? undefined : other(found[1], quantity)
}

const OTHER_UNITS: readonly (readonly [RegExp, string])[] = [
  [/^[munkμµ]?v(?:dc|ac)?$|volts?/i, say('That is a voltage')],
  [/^[munkgμµ]?(?:Ω|r)$|ohms?|^[kmg]$/i, RESISTANCE],
  [/^[munμµ]?a$|amp/i, say('That is a current')],
  [/^[munpμµ]?f$|farad/i, say('That is a capacitance')],
  [/^[mk]?hz$|hertz/i, say('That is a frequency')],
  [/^°?c$|^°?f$|celsius|degree/i, say('That is a temperature')],
  [/^%|percent/i, say('That is a percentage')],
]

/** In the field for ohms: so little a voltage that it may belong into the column beside it. */
function isDiodeVoltage({ number, letters }: Split, quantity: Quantity): boolean {
  const scale = scaleOf(letters, 'diode')
  const plain = plainNumber(number, true)
  if (quantity !== 'ohms' || typeof scale !== 'object' || !plain.ok) return false
  return diodeOutOfReason(Number(`${plain.digits}e${plain.exponent + scale.exponent}`)) === undefined
}

function outOfReason(value: number, quantity: Quantity): string | undefined {
  if (!Number.isFinite(value)) return say('No meter shows such a number.')
  if (quantity === 'diode') return diodeOutOfReason(value)
  if (quantity === 'volts') {
    return Math.abs(value) > rule('railMostV') ? say('No rail of a card has so much: look at the prefix.') : undefined
  }
  if (value < 0) {
    return say('No resistance is below zero: the rail may still be charged. Let it drain, then measure again.')
  }
  return value > rule('meterMostOhm') ? say('No meter shows so much: type OL.') : undefined
}
