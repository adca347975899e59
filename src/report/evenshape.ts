/** Learning the shape of even rows from one row that the kernel has read. */
import { type EvenShape, type FourPlaces, MAX_FOURS } from './evenrows.ts'
import { CLOSING, DELIMITER, HEX_VALUE, LINE_END, OPENING, PLAIN, type ScanPlan, SLOT } from './scanplan.ts'

const MAX_DIGITS = 16
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
 * very short or very long lines
 */
export function learnShape(plan: ScanPlan, bytes: Uint8Array, from: number, to: number): EvenShape | undefined {
  if (plan.slots.includes(SLOT.count) || plan.addressUnitBytes !== 1) return undefined
  if (to - from < MIN_LENGTH || to - from > MAX_LENGTH) return undefined
  const words = wordsOf(plan, bytes, from)
  const fours = words === undefined ? undefined : foursOf(words)
  if (words === undefined || fours === undefined) return undefined
  const isDigit = new Uint8Array(to - from)
  for (const word of words) isDigit.fill(1, word.from, word.to)
  const placesOf = (slot: number): FourPlaces => fourPlaces(fours, slot)
  const bits = plan.bits === 'expected+actual' ? 'pair' : plan.bits === 'expected+difference' ? plan.bits : 'difference'
  return {
    length: to - from,
    textLength: textLength(bytes, from, to),
    ...fixedOf(bytes, from, isDigit),
    fourAt: Int32Array.from(fours, (four) => four.at),
    partial: fours.filter((four) => four.digits < 4).length,
    partialMask: Int32Array.from(fours, (four) => -1 << (8 * (4 - four.digits))),
    partialFill: Int32Array.from(fours, (four) => ALL_ZERO_DIGITS & ~(-1 << (8 * (4 - four.digits)))),
    address: placesOf(SLOT.address),
    expected: placesOf(SLOT.expected),
    actual: placesOf(SLOT.actual),
    difference: placesOf(SLOT.difference),
    bits,
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

interface Four {
  readonly slot: number
  /** 0 for the lowest 16 bits of the word, then 1, 2, 3. */
  readonly place: number
  readonly at: number
  readonly digits: number
}

/** The words in fours of digits counted from their ends; those that are not full come first. */
function foursOf(words: readonly Word[]): Four[] | undefined {
  const fours = words.flatMap(({ slot, from, to }) =>
    Array.from({ length: Math.ceil((to - from) / 4) }, (_, place): Four => {
      const end = to - 4 * place
      return { slot, place, at: end - 4, digits: Math.min(4, end - from) }
    }),
  )
  if (fours.length > MAX_FOURS || fours.some((four) => four.at < 0)) return undefined
  return fours.sort((a, b) => a.digits - b.digits)
}

function fourPlaces(fours: readonly Four[], slot: number): FourPlaces {
  const placeOf = (place: number): number => {
    const found = fours.findIndex((four) => four.slot === slot && four.place === place)
    return found < 0 ? fours.length : found
  }
  return [placeOf(0), placeOf(1), placeOf(2), placeOf(3)]
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
