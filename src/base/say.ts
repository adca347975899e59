/** Chances, money, lists, minutes and lengths in words: one rule each, for screen, record and command line. */
import { decimals, grouped, plainly } from './manner.ts'
import { say, spoken } from './message.ts'

/**
 * `0.934` becomes `93 %`; below one and above 99 a digit more stands: `0.2 %`, `99.6 %`. What is computed is never
 * certain, so that it ends at `over 99.9 %`; nothing at all is `0 %`.
 * @param probability from 0 to 1
 */
export function percent(probability: number): string {
  const value = probability * 100
  if (value <= 0) return '0 %'
  if (value < 0.1) return say('under {least} %', { least: 0.1 })
  if (value > 99.9) return say('over {most} %', { most: 99.9 })
  return value < 1 || value > 99 ? `${decimals(value, 1)} %` : `${Math.round(value)} %`
}

/** A share that was counted, where all or none is a fact: `15` of `15` are `100 %`. Nothing counted: `–`. */
export function percentOf(hits: number, tries: number): string {
  if (tries === 0) return '–'
  return hits === tries ? '100 %' : percent(hits / tries)
}

/** A bound, rounded up so that it stays one: `0.2209` becomes `22.1 %`, `0.00284` becomes `0.29 %`. */
export function percentAtMost(bound: number): string {
  const value = Math.min(100, bound * 100)
  const digits = value >= 1 ? 1 : 2
  // What is a hair above a digit by its binary form is that digit.
  return `${plainly(Math.ceil(value * 10 ** digits - 1e-9) / 10 ** digits)} %`
}

/** `1` stays, `1200` becomes `1,200`; at most three decimals. */
export const numberWords = (value: number): string => grouped(Number(value.toFixed(3)), 0, 3)

/** `1 ball`, `1,200 balls`: the number with its noun. The plural is the singular with an s unless it is given. */
export const counted = (n: number, one: string, many = `${one}s`): string => `${numberWords(n)} ${n === 1 ? one : many}`

/** `a`, `a and b`, `a, b and c`. */
export function joined(names: readonly string[]): string {
  const [last = '', before] = [names.at(-1), names.slice(0, -1).join(', ')]
  return names.length <= 1 ? last : say('{before} and {last}', { before, last })
}

/** At most so many of the names, then how many more: `a, b and 3 more`. */
export const someOf = (names: readonly string[], most = 6): string =>
  names.length <= most
    ? joined(names)
    : say('{names} and {more} more', { names: names.slice(0, most).join(', '), more: names.length - most })

/** `45` becomes `45 min`, `150` becomes `2 h 30 min`. */
export function minutesWords(minutes: number): string {
  const whole = Math.round(minutes)
  const hours = Math.floor(whole / 60)
  const rest = whole % 60
  if (hours === 0) return `${rest} min`
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`
}

/** An amount that was agreed or paid: two decimals, with the currency where there is one. */
export const money = (amount: number, currency: string): string =>
  `${grouped(amount, 2)}${currency === '' ? '' : ` ${currency}`}`

/** An amount that was estimated: whole, with the shop's currency where it is known. */
export const roughMoney = (amount: number, currency = ''): string =>
  `${grouped(Math.round(amount) || 0, 0)}${currency === '' ? '' : `\u00a0${currency}`}`

/** A length to at most one decimal, without a trailing zero: `12 mm`, `0.8 mm`. */
export const millimetres = (mm: number): string => `${plainly(Number(mm.toFixed(1)))} mm`

/** A length as it is written on a drawing: whole from 20 mm on, without its unit. */
export const drawnMm = (mm: number): string => plainly(mm >= 20 ? Math.round(mm) : Math.round(mm * 10) / 10)

/** The first letter large: `rail VMEM` becomes `Rail VMEM`. */
export const sentenceCase = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`

/** The first letter small, for a sentence within another; only English writes all words there small. */
export const clauseCase = (text: string): string =>
  spoken() === 'en' ? `${text.charAt(0).toLowerCase()}${text.slice(1)}` : text

/** A name within a sentence: `Coolant` becomes `coolant`; other languages keep their large letters. */
export const smallName = (text: string): string => (spoken() === 'en' ? text.toLowerCase() : text)

/** The first letter large and a full stop behind, unless one stands there. */
export const asSentence = (text: string): string => `${sentenceCase(text)}${text.endsWith('.') ? '' : '.'}`
