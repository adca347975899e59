/** Reading one number of up to 64 bits from a cell. The byte kernel in `rows/scan.ts` must agree with what stands here. */
import type { NumberBase } from '../recipe.ts'

/** An unsigned 64-bit number as two halves; each half is an int32 bit pattern. */
export interface Word {
  readonly high: number
  readonly low: number
}

const MAX_WORD = (1n << 64n) - 1n
/** Decimal numbers of up to so many digits are exact in a double. */
const EXACT_DECIMAL_DIGITS = 15
const MAX_DIGITS = 80
/** An address in two halves: `0x1:2345f000`. */
const SPLIT = /^0[xX][0-9a-fA-F]{1,8}:[0-9a-fA-F]{8}$/
/** Marks that may stand around a number: brackets, and a colon, comma or the like after it. */
const OPENING = '([{<"\''
const CLOSING = ')]}>"\':;,.'

/**
 * Reads a cell as an unsigned number of at most 64 bits.
 * @param text the cell; brackets and punctuation around the number do not count; `_` between digits neither
 * @returns undefined where it is no such number
 */
export function readWord(text: string, base: NumberBase): Word | undefined {
  const bare = stripMarks(text)
  if (base === 'bytes') return bytesWord(bare)
  const whole = SPLIT.test(bare) ? bare.replace(':', '') : bare
  const digits = whole.includes('_') ? whole.replaceAll('_', '') : whole
  if (digits.length === 0 || digits.length > MAX_DIGITS) return undefined
  if (digits.length > 2 && digits.startsWith('0') && (digits[1] === 'x' || digits[1] === 'X')) return hexWord(digits, 2)
  if (base === 'prefixed') return /^[0-9a-f]+h$/i.test(digits) ? hexWord(digits.slice(0, -1), 0) : undefined
  if (base === 'decimal') return decimalWord(digits)
  const last = digits.charAt(digits.length - 1)
  if ((last === 'h' || last === 'H') && digits.length > 1) return hexWord(digits.slice(0, -1), 0)
  return base === 'hex' || /[a-fA-F]/.test(digits) ? hexWord(digits, 0) : decimalWord(digits)
}

/** `5d 55 aa 55`: the byte at the lowest address stands first. */
function bytesWord(text: string): Word | undefined {
  const digits = text.replace(/^0x/i, '').replaceAll(/[\s_-]/g, '')
  if (digits.length % 2 !== 0 || digits.length > 16 || !/^[0-9a-f]+$/i.test(digits)) return undefined
  return hexWord((digits.match(/../g) ?? []).toReversed().join(''), 0)
}

function hexWord(digits: string, from: number): Word | undefined {
  let high = 0
  let low = 0
  for (let i = from; i < digits.length; i++) {
    const digit = hexDigit(digits.charCodeAt(i))
    if (digit < 0 || high >>> 28 !== 0) return undefined
    high = (high << 4) | (low >>> 28)
    low = (low << 4) | digit
  }
  return { high, low }
}

function hexDigit(code: number): number {
  if (code >= 48 && code <= 57) return code - 48
  const letter = code | 32
  return letter >= 97 && letter <= 102 ? letter - 87 : -1
}

function decimalWord(digits: string): Word | undefined {
  if (!/^[0-9]+$/.test(digits)) return undefined
  if (digits.length <= EXACT_DECIMAL_DIGITS) {
    const value = Number(digits)
    return { high: Math.floor(value / 4_294_967_296) | 0, low: (value % 4_294_967_296) | 0 }
  }
  const value = BigInt(digits)
  if (value > MAX_WORD) return undefined
  return { high: Number(value >> 32n) | 0, low: Number(value & 0xffff_ffffn) | 0 }
}

/** Both halves as one number; exact below 2^53, and above that still large. */
export const wordToNumber = (word: Word): number => (word.high >>> 0) * 4_294_967_296 + (word.low >>> 0)

/** Both halves as one number from 0 up to 2^64 - 1, exact. */
export const wordToBigInt = (word: Word): bigint => (BigInt(word.high >>> 0) << 32n) | BigInt(word.low >>> 0)

function stripMarks(text: string): string {
  let from = 0
  let to = text.length
  while (from < to && OPENING.includes(text.charAt(from))) from++
  while (to > from && CLOSING.includes(text.charAt(to - 1))) to--
  return text.slice(from, to)
}
