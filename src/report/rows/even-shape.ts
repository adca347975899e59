/** Learning the shape of even rows from one row that the kernel has read. */
import { type EvenShape, type Halves, MAX_EIGHTS, type Places } from './even-rows.ts'
import { CLOSING, DELIMITER, HEX_VALUE, LINE_END, OPENING, PLAIN, type ScanPlan, SLOT } from './scan-plan.ts'

const MAX_DIGITS = 16
const CR = 13
const MIN_LENGTH = 4
const MAX_LENGTH = 200
const ALL_ZERO_DIGITS = 0x30_30_30_30

interface Word {
  readonly slot: number
  /** Bytes of its digits, from the start of the line. */
  readonly from: number
  readonly to: number
}

/**
 * The shape of the line in `bytes` from `from` to `to` (its line break included), which the kernel has taken.
 * @returns undefined where rows like it are better read one by one: decimal numbers, a count, addresses in other units,
 * very short or very long lines, lines that a lone CR ends
 */
export function learnShape(plan: ScanPlan, bytes: Uint8Array, from: number, to: number): EvenShape | undefined {
  if (plan.slots.includes(SLOT.count) || plan.addressUnitBytes !== 1) return undefined
  if (to - from < MIN_LENGTH || to - from > MAX_LENGTH) return undefined
  // Behind a lone CR the next row would have to be looked at, lest its LF be taken for an empty line.
  if (bytes[to - 1] === CR) return undefined
  const words = wordsOf(plan, bytes, from)
  const eights = words === undefined ? undefined : eightsOf(words)
  if (words === undefined || eights === undefined) return undefined
  const isDigit = new Uint8Array(to - from)
  for (const word of words) isDigit.fill(1, word.from, word.to)
  const bits = plan.bits === 'expected+actual' ? 'pair' : plan.bits === 'expected+difference' ? plan.bits : 'difference'
  return {
    length: to - from,
    textLength: textLength(bytes, from, to),
    ...fixedOf(bytes, from, isDigit),
    before: Math.max(0, ...eights.map((eight) => -eight.at)),
    eightAt: Int32Array.from(eights, (eight) => eight.at),
    partial: eights.filter((eight) => eight.digits < 8).length,
    mask: Int32Array.from(eights.flatMap(masksOf)),
    fill: Int32Array.from(eights.flatMap(masksOf), (mask) => ALL_ZERO_DIGITS & ~mask),
    address: halvesOf(eights, SLOT.address),
    expected: halvesOf(eights, SLOT.expected),
    actual: halvesOf(eights, SLOT.actual),
    difference: halvesOf(eights, SLOT.difference),
    bits,
    fixedText: bytes.slice(from, to),
    isDigit,
    places: placesOf(words),
    taken: 0,
  }
}

/** The same but for the digits of the row that each was learned from. */
export function isSameShape(one: EvenShape, other: EvenShape): boolean {
  if (one.length !== other.length || one.bits !== other.bits) return false
  for (let i = 0; i < one.length; i++) {
    if (one.isDigit[i] !== other.isDigit[i]) return false
    if (one.isDigit[i] !== 1 && one.fixedText[i] !== other.fixedText[i]) return false
  }
  return true
}

const placesOf = (words: readonly Word[]): Places => {
  const placeOf = (slot: number): Word | undefined => words.find((word) => word.slot === slot)
  const [address, expected, actual, difference] = [SLOT.address, SLOT.expected, SLOT.actual, SLOT.difference].map(
    placeOf,
  )
  return {
    ...(address === undefined ? {} : { address }),
    ...(expected === undefined ? {} : { expected }),
    ...(actual === undefined ? {} : { actual }),
    ...(difference === undefined ? {} : { difference }),
  }
}

function wordsOf(plan: ScanPlan, bytes: Uint8Array, from: number): Word[] | undefined {
  const words: Word[] = []
  let at = from
  for (const [cell, slot] of plan.slots.entries()) {
    while (plan.classes[bytes[at] ?? 0] === plan.leading) at++
    if (slot !== 0) {
      const word = hexWord(plan, bytes, at, plan.decimal[cell] === 0)
      if (word === undefined) return undefined
      words.push({ slot, from: word.from - from, to: word.to - from })
      at = word.to
    }
    while (plan.classes[bytes[at] ?? 0] !== DELIMITER && plan.classes[bytes[at] ?? 0] !== LINE_END) at++
    if (plan.classes[bytes[at] ?? 0] === DELIMITER) at++
  }
  return words
}

function hexWord(
  plan: ScanPlan,
  bytes: Uint8Array,
  start: number,
  bareIsHex: boolean,
): { from: number; to: number } | undefined {
  let from = start
  while (OPENING[bytes[from] ?? 0] === 1 && plan.classes[bytes[from] ?? 0] === PLAIN) from++
  const prefixed = bytes[from] === 48 && ((bytes[from + 1] ?? 0) | 32) === 120
  if (!prefixed && !bareIsHex) return undefined
  if (prefixed) from += 2
  let to = from
  while ((HEX_VALUE[bytes[to] ?? 0] ?? 255) < 16) to++
  const next = bytes[to] ?? 0
  const ends = plan.classes[next] !== PLAIN || CLOSING[next] === 1
  return to > from && to - from <= MAX_DIGITS && ends ? { from, to } : undefined
}

interface Eight {
  readonly slot: number
  /** The upper half of its word. */
  readonly isHigh: boolean
  /** Where its eight bytes begin, of which the last `digits` are digits of the word. */
  readonly at: number
  readonly digits: number
}

/** The words in eights of digits counted from their ends; those that are not full come first. */
function eightsOf(words: readonly Word[]): Eight[] | undefined {
  const eights = words.flatMap(({ slot, from, to }) => {
    const low: Eight = { slot, isHigh: false, at: to - 8, digits: Math.min(8, to - from) }
    return to - from <= 8 ? [low] : [low, { slot, isHigh: true, at: to - 16, digits: to - from - 8 }]
  })
  return eights.length > MAX_EIGHTS ? undefined : eights.toSorted((a, b) => a.digits - b.digits)
}

/** Of each four bytes, those that are digits. */
function masksOf({ digits }: Eight): [front: number, back: number] {
  return [lastBytes(digits - 4), lastBytes(Math.min(4, digits))]
}

const lastBytes = (count: number): number => (count <= 0 ? 0 : -1 << (8 * (4 - count)))

function halvesOf(eights: readonly Eight[], slot: number): Halves {
  const placeOf = (isHigh: boolean): number => {
    const found = eights.findIndex((eight) => eight.slot === slot && eight.isHigh === isHigh)
    return found < 0 ? eights.length : found
  }
  return [placeOf(false), placeOf(true)]
}

/** The bytes that are no digits, in comparisons of four bytes each that stay inside of the line. */
function fixedOf(
  bytes: Uint8Array,
  from: number,
  isDigit: Uint8Array,
): Pick<EvenShape, 'fixedAt' | 'fixedMask' | 'fixed'> {
  const length = isDigit.length
  const at: number[] = []
  const masks: number[] = []
  const values: number[] = []
  let done = 0
  for (;;) {
    while (done < length && isDigit[done] === 1) done++
    if (done >= length) break
    const start = Math.min(done, length - 4)
    let mask = 0
    let value = 0
    for (let i = 0; i < 4; i++) {
      if (isDigit[start + i] === 1) continue
      mask |= 0xff << (8 * i)
      value |= (bytes[from + start + i] ?? 0) << (8 * i)
    }
    at.push(start)
    masks.push(mask)
    values.push(value)
    done = start + 4
  }
  return { fixedAt: Int32Array.from(at), fixedMask: Int32Array.from(masks), fixed: Int32Array.from(values) }
}

function textLength(bytes: Uint8Array, from: number, to: number): number {
  let end = to
  while (end > from && (bytes[end - 1] === 10 || bytes[end - 1] === 13)) end--
  return end - from
}
