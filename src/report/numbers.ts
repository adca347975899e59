/** Reading one number of up to 64 bits from a cell. The byte kernel in `scan.ts` must agree with what stands here. */
import type { NumberBase } from './recipe.ts'

/** An unsigned 64-bit number as two halves; each half is an int32 bit pattern. */
export interface Word {
  readonly high: number
  readonly low: number
}

const MAX_WORD = (1n << 64n) - 1n
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
  const digits = bare.includes('_') ? bare.replaceAll('_', '') : bare
  const value = valueOf(digits, base)
  if (value === undefined || value > MAX_WORD) return undefined
  return { high: Number(value >> 32n) | 0, low: Number(value & 0xffff_ffffn) | 0 }
}

/** Both halves as one number; exact below 2^53, and above that still large. */
export const wordToNumber = (word: Word): number => (word.high >>> 0) * 4_294_967_296 + (word.low >>> 0)

export const wordToBigInt = (word: Word): bigint => (BigInt(word.high >>> 0) << 32n) | BigInt(word.low >>> 0)

function valueOf(digits: string, base: NumberBase): bigint | undefined {
  if (digits.length === 0 || digits.length > 80) return undefined
  if (/^0[xX][0-9a-fA-F]+$/.test(digits)) return BigInt(`0x${digits.slice(2)}`)
  if (base !== 'decimal') {
    if (/^[0-9a-fA-F]+[hH]$/.test(digits)) return BigInt(`0x${digits.slice(0, -1)}`)
    const lettered = /[a-fA-F]/.test(digits)
    if ((base === 'hex' || lettered) && /^[0-9a-fA-F]+$/.test(digits)) return BigInt(`0x${digits}`)
  }
  return /^[0-9]+$/.test(digits) && base !== 'hex' ? BigInt(digits) : undefined
}

function stripMarks(text: string): string {
  let from = 0
  let to = text.length
  while (from < to && OPENING.includes(text.charAt(from))) from++
  while (to > from && CLOSING.includes(text.charAt(to - 1))) to--
  return text.slice(from, to)
}
