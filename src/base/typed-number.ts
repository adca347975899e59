/** A typed number with its separators told apart: decimal point or comma, thousands, exponent. One rule for every field. */
import { decimalSign } from './manner.ts'
import { say } from './message.ts'

export type PlainNumber =
  | { readonly ok: true; readonly digits: string; readonly exponent: number }
  | { readonly ok: false; readonly todo: string | undefined }

const no = (todo?: string): PlainNumber => ({ ok: false, todo })

const GROUPED = /^[1-9]\d{0,2}(?:[ '’]\d{3})+$/u

/**
 * One point is always a decimal one, as meters show it. One comma is a decimal one, but where exactly three digits
 * follow one to three that do not begin with 0 it may as well stand for thousands: then it is refused, unless
 * `neverThousands`. Several equal separators stand for thousands, and of two kinds the last is the decimal one.
 * @param text digits, separators, perhaps a sign and an exponent
 * @returns digits with at most one point and a sign, and the power of ten apart, so that `Number(digits + 'e' + …)` is exact
 */
export function plainNumber(text: string, neverThousands: boolean): PlainNumber {
  const [, sign = '', body = '', exponent = '0'] = /^([+-]?)([^e]*)(?:e([+-]?\d{1,3}))?$/i.exec(text) ?? []
  const compact = ungrouped(body)
  if (compact === undefined) return no()
  const points = compact.split('.').length - 1
  const commas = compact.split(',').length - 1
  const done = (digits: string): PlainNumber =>
    /^\d*\.?\d*$/.test(digits) && /\d/.test(digits)
      ? { ok: true, digits: `${sign}${digits.replace(/^\./, '0.').replace(/\.$/, '')}`, exponent: Number(exponent) }
      : no()
  if (points + commas <= 1) {
    if (commas === 1 && !neverThousands && /^[1-9]\d{0,2},\d{3}$/.test(compact)) return no(ambiguous(compact))
    return done(compact.replace(',', '.'))
  }
  if (points === 0 || commas === 0) {
    return /^[1-9]\d{0,2}(?:[.,]\d{3})+$/.test(compact) ? done(compact.replaceAll(/[.,]/g, '')) : no()
  }
  const decimal = compact.lastIndexOf('.') > compact.lastIndexOf(',') ? '.' : ','
  const [whole = '', rest = '', ...more] = compact.split(decimal)
  if (more.length > 0 || !/^[1-9]\d{0,2}(?:[.,]\d{3})+$/.test(whole)) return no()
  return done(`${whole.replaceAll(/[.,]/g, '')}.${rest}`)
}

/** Shows which number is meant, or says what to type instead where the text alone does not settle it. */
export type TypedNumber =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly todo: string | undefined }

/**
 * What a person types into a field for a number, by the rule of `plainNumber`: `1.5`, `1,5`, `1 200`, `1.234,5`, `−3`.
 * @param text with spaces around it, a minus of any kind
 * @returns its value; refuses what is no number, and `1,200`, which may be 1.2 or 1200 where decimals stand behind a point
 */
export function readTypedNumber(text: string, { neverThousands = decimalSign() === ',' } = {}): TypedNumber {
  const tidy = text
    .replaceAll(/[\u2212\u2013]/g, '-')
    .replaceAll(/[\s\u00a0\u202f]+/g, ' ')
    .trim()
  const number = plainNumber(tidy, neverThousands)
  if (!number.ok) return number
  const value = Number(`${number.digits}e${number.exponent}`)
  return Number.isFinite(value) ? { ok: true, value } : { ok: false, todo: undefined }
}

const ambiguous = (text: string): string =>
  say('The comma may be a decimal one or stand for thousands: type {decimal} or {whole}.', {
    decimal: text.replace(',', '.'),
    whole: text.replace(',', ''),
  })

/** Groups of three digits set apart by spaces or apostrophes are joined; other spaces are none of a number. */
function ungrouped(body: string): string | undefined {
  if (!/[ '’]/u.test(body)) return body
  const [, whole = '', rest = ''] = /^([\d '’]+)([.,]\d+)?$/u.exec(body.trim()) ?? []
  return GROUPED.test(whole) ? `${whole.replaceAll(/[ '’]/gu, '')}${rest}` : undefined
}
