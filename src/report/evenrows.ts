/**
 * Rows that all look alike: hexadecimal words of one width at one place, and the same bytes around them. Most reports
 * of gigabytes are like that, and then a row is a few loads: four bytes are compared, or four digits read, at a time.
 */
import { BATCH_ROWS, type RowBatch } from './batch.ts'

/** What each row of a run has in common with the first. Places are bytes from the start of the line. */
export interface EvenShape {
  /** Bytes of a row, its line break included; and without it. */
  readonly length: number
  readonly textLength: number
  /** Bytes that are no digits, four at a time: where, which of the four bits by bits, and what they must be. */
  readonly fixedAt: Int32Array
  readonly fixedMask: Int32Array
  readonly fixed: Int32Array
  /** Fours of digits, by where they stand; of the first `partial` only some bytes are digits, the rest is put to `0`. */
  readonly fourAt: Int32Array
  readonly partial: number
  readonly partialMask: Int32Array
  readonly partialFill: Int32Array
  /** Each number from its fours: the lowest 16 bits, the next… ; the place of a four, or `fourAt.length` for none. */
  readonly address: FourPlaces
  readonly expected: FourPlaces
  readonly actual: FourPlaces
  readonly difference: FourPlaces
  readonly bits: 'pair' | 'expected+difference' | 'difference'
}

export type FourPlaces = readonly [number, number, number, number]

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

/** Fours of the longest row: four words of 16 digits, and one place that stays zero. */
export const MAX_FOURS = 16
const fours = new Int32Array(MAX_FOURS + 1)

/**
 * Reads rows of the shape from `from` on, until one is not of the shape, `to`, or the batch is full.
 * @returns where the first line begins that was not taken; `batch.rows` tells how many were
 */
export function scanEvenRows(shape: EvenShape, view: DataView, from: number, to: number, batch: RowBatch): number {
  const { length, fixedAt, fixedMask, fixed, fourAt, partial, partialMask, partialFill, bits } = shape
  const { address: batchAddress, differenceLow, differenceHigh, actualLow, actualHigh, start } = batch
  const [address0, address1, address2, address3] = shape.address
  const [expected0, expected1, expected2, expected3] = shape.expected
  const [actual0, actual1, actual2, actual3] = shape.actual
  const [difference0, difference1, difference2, difference3] = shape.difference
  const fixedCount = fixedAt.length
  const fourCount = fourAt.length
  fours[fourCount] = 0
  let row = batch.rows
  let at = from
  while (at + length <= to && row < BATCH_ROWS) {
    let wrong = 0
    for (let i = 0; i < fixedCount; i++) {
      wrong |= (view.getInt32(at + (fixedAt[i] ?? 0), true) ^ (fixed[i] ?? 0)) & (fixedMask[i] ?? 0)
    }
    if (wrong !== 0) break
    for (let i = 0; i < partial; i++) {
      const four = (view.getInt32(at + (fourAt[i] ?? 0), true) & (partialMask[i] ?? 0)) | (partialFill[i] ?? 0)
      const first = PAIR_VALUE[four & 0xffff] ?? NO_DIGITS
      const second = PAIR_VALUE[four >>> 16] ?? NO_DIGITS
      wrong |= first | second
      fours[i] = (first << 8) | second
    }
    for (let i = partial; i < fourCount; i++) {
      const four = view.getInt32(at + (fourAt[i] ?? 0), true)
      const first = PAIR_VALUE[four & 0xffff] ?? NO_DIGITS
      const second = PAIR_VALUE[four >>> 16] ?? NO_DIGITS
      wrong |= first | second
      fours[i] = (first << 8) | second
    }
    if ((wrong & NO_DIGITS) !== 0) break
    const high = ((fours[address2] ?? 0) | ((fours[address3] ?? 0) << 16)) >>> 0
    const low = ((fours[address0] ?? 0) | ((fours[address1] ?? 0) << 16)) >>> 0
    batchAddress[row] = high * 4_294_967_296 + low
    if (bits === 'pair') {
      const readLow = (fours[actual0] ?? 0) | ((fours[actual1] ?? 0) << 16)
      const readHigh = (fours[actual2] ?? 0) | ((fours[actual3] ?? 0) << 16)
      actualLow[row] = readLow
      actualHigh[row] = readHigh
      differenceLow[row] = readLow ^ ((fours[expected0] ?? 0) | ((fours[expected1] ?? 0) << 16))
      differenceHigh[row] = readHigh ^ ((fours[expected2] ?? 0) | ((fours[expected3] ?? 0) << 16))
    } else {
      const badLow = (fours[difference0] ?? 0) | ((fours[difference1] ?? 0) << 16)
      const badHigh = (fours[difference2] ?? 0) | ((fours[difference3] ?? 0) << 16)
      const flip = bits === 'expected+difference' ? -1 : 0
      const [word0, word1, word2, word3] = bits === 'difference' ? shape.actual : shape.expected
      differenceLow[row] = badLow
      differenceHigh[row] = badHigh
      actualLow[row] = ((fours[word0] ?? 0) | ((fours[word1] ?? 0) << 16)) ^ (badLow & flip)
      actualHigh[row] = ((fours[word2] ?? 0) | ((fours[word3] ?? 0) << 16)) ^ (badHigh & flip)
    }
    start[row] = at
    row++
    at += length
  }
  batch.rows = row
  return at
}
