/** The short code that finds a case again: read from its slip, typed or scanned. */
import { seededRandom } from '../base/index.ts'
import { crc32 } from './exchange/crc32.ts'

/** Of MOD 37,36 in their order: a character's place is its value. */
const ALPHABET = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ'

/** Without those that are taken for each other on a worn slip: 0 O Q, 1 I L, 2 Z, 5 S, 6 G, 8 B, U V. Of 6 and G the digit stays. */
const LEGIBLE = '34679ACDEFHJKMNPRTWXY'

/** Its check character included. */
const LENGTH = 8

/**
 * The check character of a text of digits and capital letters by the hybrid system MOD 37,36 of ISO/IEC 7064:2003: with P
 * from 36 on, S = P + value of the character, P = 2·(S mod 36, 0 counting as 36) mod 37; the check character c makes the
 * last sum (P + c) mod 36 equal to 1. Any one wrong character is noticed, and almost any two that changed places.
 * @returns undefined where a character is neither a digit nor a capital letter
 */
export function checkCharacter(text: string): string | undefined {
  let product = 36
  for (const character of text) {
    const value = ALPHABET.indexOf(character)
    if (value < 0) return undefined
    product = (2 * ((product + value) % 36 || 36)) % 37
  }
  return ALPHABET[(37 - product) % 36]
}

/**
 * @param id of the case on its shelf: the same id gives the same code, also after an undo
 * @returns seven of 21 letters, drawn anew until the check character is legible too
 */
export function codeFor(id: string): string {
  const random = seededRandom(crc32(new TextEncoder().encode(id)))
  for (;;) {
    const body = Array.from({ length: LENGTH - 1 }, () => LEGIBLE[random.whole(LEGIBLE.length)]).join('')
    const check = checkCharacter(body)
    if (check !== undefined && LEGIBLE.includes(check)) return body + check
  }
}

/** Whether a text is a code as it is kept: without a hyphen, with the check character that belongs to it. */
export const isCode = (text: string): boolean =>
  madeOf(LEGIBLE, text) && checkCharacter(text.slice(0, LENGTH - 1)) === text.at(-1)

const madeOf = (letters: string, text: string): boolean =>
  text.length === LENGTH && text.split('').every((character) => letters.includes(character))

/** As it is read aloud: `7KT4-MXP9`. */
export const codeWords = (code: string): string => `${code.slice(0, 4)}-${code.slice(4)}`

export type ReadCode =
  | { readonly kind: 'code'; readonly code: string }
  /** Eight letters or digits as a code has them, but it can't be one as it stands. */
  | { readonly kind: 'misread' }
  | { readonly kind: 'none' }

/** What somebody typed or a camera saw, in any case, with spaces and hyphens as they come. */
export function readCode(typed: string): ReadCode {
  const text = typed.replaceAll(/[\s\u2010-\u2015-]/gu, '').toUpperCase()
  if (isCode(text)) return { kind: 'code', code: text }
  return { kind: madeOf(ALPHABET, text) ? 'misread' : 'none' }
}
