/**
 * Rows that all look alike: hexadecimal words of one width at one place, and the same bytes around them. Most reports
 * of gigabytes are like that, and then a row is a few loads: four bytes are compared, or eight digits read, at a time.
 */
import { BATCH_ROWS, type RowBatch } from './batch.ts'

/** What each row of a run has in common with the first. Places are bytes from the start of the line. */
export interface EvenShape {
  /** Bytes of a row, its line break included; and without it. */
  readonly length: number
  readonly textLength: number
  /** How far the first eight reaches back before the line: those bytes are masked, but must be there. */
  readonly before: number
  /** Bytes that are no digits, four at a time: where, which of the four bytes by bits, and what they must be. */
  readonly fixedAt: Int32Array
  readonly fixedMask: Int32Array
  readonly fixed: Int32Array
  /**
   * Eights of digits: halves of words, counted from the word's end. The first `partial` hold fewer digits: what is no
   * digit is masked out of both fours and put to `0`.
   */
  readonly eightAt: Int32Array
  readonly partial: number
  readonly mask: Int32Array
  readonly fill: Int32Array
  /** Low and high half of each number: the place of an eight, or `eightAt.length` for none. */
  readonly address: Halves
  readonly expected: Halves
  readonly actual: Halves
  readonly difference: Halves
  readonly bits: 'pair' | 'expected+difference' | 'difference'
  /** The line that it was learned from, which of its bytes are digits, and where its words stand. */
  readonly fixedText: Uint8Array
  readonly isDigit: Uint8Array
  readonly places: Places
  /** Rows taken so far: a shape that holds is worth a loop of its own. */
  taken: number
}

/** Bytes from the start of the line to the first digit of a word, and behind the last. */
export type Places = Readonly<Partial<Record<'address' | 'expected' | 'actual' | 'difference', Place>>>
interface Place {
  readonly from: number
  readonly to: number
}

export type Halves = readonly [low: number, high: number]

const NO_DIGITS = 0x8000

/** Value of two hexadecimal digits, by their bytes as a little-endian 16-bit number; `NO_DIGITS` where they are none. */
const PAIR_VALUE = new Uint16Array(65_536).fill(NO_DIGITS)
for (let value = 0; value < 256; value++) {
  const [first = '', second = ''] = value.toString(16).padStart(2, '0')
  for (const a of new Set([first, first.toUpperCase()])) {
    for (const b of new Set([second, second.toUpperCase()]))
      PAIR_VALUE[a.charCodeAt(0) | (b.charCodeAt(0) << 8)] = value
  }
}

/** Eights of the longest row: four words of 16 digits, and one place that stays zero. */
export const MAX_EIGHTS = 8
const halves = new Int32Array(MAX_EIGHTS + 1)

/**
 * Reads rows of the shape from `from` on, until one is not of the shape, `to`, or the batch is full.
 * @returns where the first line begins that was not taken; `batch.rows` tells how many were
 */
export function scanEvenRows(shape: EvenShape, view: DataView, from: number, to: number, batch: RowBatch): number {
  const { length, fixedAt, fixedMask, fixed, eightAt, partial, mask, fill, bits } = shape
  const { address: batchAddress, differenceLow, differenceHigh, actualLow, actualHigh, start } = batch
  const [addressLow, addressHigh] = shape.address
  const [wordLow, wordHigh] = bits === 'difference' ? shape.actual : shape.expected
  const [otherLow, otherHigh] = bits === 'pair' ? shape.actual : shape.difference
  const isPair = bits === 'pair'
  const flip = bits === 'expected+difference' ? -1 : 0
  const fixedCount = fixedAt.length
  const eightCount = eightAt.length
  halves[eightCount] = 0
  let row = batch.rows
  let at = from
  if (at < shape.before) return at
  while (at + length <= to && row < BATCH_ROWS) {
    let wrong = 0
    for (let i = 0; i < fixedCount; i++) {
      wrong |= (view.getInt32(at + (fixedAt[i] ?? 0), true) ^ (fixed[i] ?? 0)) & (fixedMask[i] ?? 0)
    }
    if (wrong !== 0) break
    for (let i = 0; i < partial; i++) {
      const p = at + (eightAt[i] ?? 0)
      const front = (view.getInt32(p, true) & (mask[2 * i] ?? 0)) | (fill[2 * i] ?? 0)
      const back = (view.getInt32(p + 4, true) & (mask[2 * i + 1] ?? 0)) | (fill[2 * i + 1] ?? 0)
      const a = PAIR_VALUE[front & 0xffff] ?? NO_DIGITS
      const b = PAIR_VALUE[front >>> 16] ?? NO_DIGITS
      const c = PAIR_VALUE[back & 0xffff] ?? NO_DIGITS
      const d = PAIR_VALUE[back >>> 16] ?? NO_DIGITS
      wrong |= a | b | c | d
      halves[i] = (a << 24) | (b << 16) | (c << 8) | d
    }
    for (let i = partial; i < eightCount; i++) {
      const p = at + (eightAt[i] ?? 0)
      const front = view.getInt32(p, true)
      const back = view.getInt32(p + 4, true)
      const a = PAIR_VALUE[front & 0xffff] ?? NO_DIGITS
      const b = PAIR_VALUE[front >>> 16] ?? NO_DIGITS
      const c = PAIR_VALUE[back & 0xffff] ?? NO_DIGITS
      const d = PAIR_VALUE[back >>> 16] ?? NO_DIGITS
      wrong |= a | b | c | d
      halves[i] = (a << 24) | (b << 16) | (c << 8) | d
    }
    if ((wrong & NO_DIGITS) !== 0) break
    const firstLow = halves[wordLow] ?? 0
    const firstHigh = halves[wordHigh] ?? 0
    const secondLow = halves[otherLow] ?? 0
    const secondHigh = halves[otherHigh] ?? 0
    batchAddress[row] = ((halves[addressHigh] ?? 0) >>> 0) * 4_294_967_296 + ((halves[addressLow] ?? 0) >>> 0)
    if (isPair) {
      differenceLow[row] = firstLow ^ secondLow
      differenceHigh[row] = firstHigh ^ secondHigh
      actualLow[row] = secondLow
      actualHigh[row] = secondHigh
    } else {
      differenceLow[row] = secondLow
      differenceHigh[row] = secondHigh
      actualLow[row] = firstLow ^ (secondLow & flip)
      actualHigh[row] = firstHigh ^ (secondHigh & flip)
    }
    start[row] = at
    row++
    at += length
  }
  batch.rows = row
  return at
}
