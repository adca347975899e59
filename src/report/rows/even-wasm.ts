/**
 * Even rows by WebAssembly: of one shape a loop is written whose places and fixed bytes are constants, sixteen bytes at
 * a time. `scanEvenRows` is its reference: it must take the same rows and write the same numbers. Where a machine has no
 * such vectors, or a page may not compile, the reference does the work.
 */
import { BATCH_ROWS, type RowBatch } from './batch.ts'
import type { EvenShape } from './even-rows.ts'
import { Code, moduleOf, OP, V } from './wasm-code.ts'

/** Bytes of a report that are worked on at a time; the sixteen before them may be read, and are masked out. */
const INPUT_BYTES = 1 << 18
const INPUT_AT = 16
const BATCH_AT = INPUT_AT + INPUT_BYTES + 16
const ADDRESS_AT = BATCH_AT
const DIFFERENCE_LOW_AT = ADDRESS_AT + 8 * BATCH_ROWS
const DIFFERENCE_HIGH_AT = DIFFERENCE_LOW_AT + 4 * BATCH_ROWS
const ACTUAL_LOW_AT = DIFFERENCE_HIGH_AT + 4 * BATCH_ROWS
const ACTUAL_HIGH_AT = ACTUAL_LOW_AT + 4 * BATCH_ROWS
const START_AT = ACTUAL_HIGH_AT + 4 * BATCH_ROWS
const COUNTING_AT = START_AT + 4 * BATCH_ROWS
const COUNTING_BYTES = 1 << 19
const PAGES = Math.ceil((COUNTING_AT + COUNTING_BYTES) / 65_536)

/** The memory that the loops of one reading share: a stretch of the report, and the batch that they fill. */
export interface EvenMemory {
  readonly memory: WebAssembly.Memory
  readonly input: Uint8Array
  readonly batch: RowBatch
  /** Which stretch of which bytes is in it. */
  bytes: Uint8Array | undefined
  from: number
  to: number
}

/**
 * Takes rows from a place in memory up to another, from a row of the batch on; `shift` is how much further on they stand
 * in memory than in the bytes. Answers the first place not taken.
 */
export type EvenLoop = (at: number, to: number, row: number, shift: number) => number

/** Undefined where there is no WebAssembly. */
export function newEvenMemory(): EvenMemory | undefined {
  if (typeof WebAssembly === 'undefined') return undefined
  const memory = new WebAssembly.Memory({ initial: PAGES, maximum: PAGES })
  const { buffer } = memory
  return {
    memory,
    input: new Uint8Array(buffer, INPUT_AT, INPUT_BYTES),
    batch: {
      rows: 0,
      address: new Float64Array(buffer, ADDRESS_AT, BATCH_ROWS),
      differenceLow: new Int32Array(buffer, DIFFERENCE_LOW_AT, BATCH_ROWS),
      differenceHigh: new Int32Array(buffer, DIFFERENCE_HIGH_AT, BATCH_ROWS),
      actualLow: new Int32Array(buffer, ACTUAL_LOW_AT, BATCH_ROWS),
      actualHigh: new Int32Array(buffer, ACTUAL_HIGH_AT, BATCH_ROWS),
      count: new Float64Array(BATCH_ROWS).fill(1),
      start: new Int32Array(buffer, START_AT, BATCH_ROWS),
      shared: { memory, room: new Uint8Array(buffer, COUNTING_AT, COUNTING_BYTES) },
    },
    bytes: undefined,
    from: 0,
    to: 0,
  }
}

/** Forgets the stretch, before bytes that may be another's are read. */
export function forgetStretch(even: EvenMemory): void {
  even.bytes = undefined
}

/** Compiles the loop of a shape; undefined where that may not be done here. */
export function compileEvenLoop(shape: EvenShape, even: EvenMemory): EvenLoop | undefined {
  try {
    const { loop } = new WebAssembly.Instance(moduleOf(loopOf(shape)), { even: { memory: even.memory } }).exports
    if (typeof loop !== 'function') return undefined
    return (at, to, row, shift) => Number(loop(at, to, row, shift))
  } catch {
    return undefined
  }
}

/** Reads rows of the shape, as `scanEvenRows` does. */
export function runEvenLoop(
  loop: EvenLoop,
  length: number,
  even: EvenMemory,
  bytes: Uint8Array,
  from: number,
  to: number,
): number {
  const { batch } = even
  let at = from
  while (at + length <= to && batch.rows < BATCH_ROWS) {
    if (even.bytes !== bytes || at < even.from || at + length > even.to) {
      even.bytes = bytes
      even.from = at
      even.to = Math.min(to, at + INPUT_BYTES)
      even.input.set(bytes.subarray(at, even.to))
    }
    const shift = INPUT_AT - even.from
    const end = loop(at + shift, Math.min(to, even.to) + shift, batch.rows, shift) - shift
    batch.rows += Math.round((end - at) / length)
    at = end
    // Not of the shape, unless only the stretch was at its end.
    if (at + length <= even.to) break
  }
  return at
}

const AT = 0
const TO = 1
const ROW = 2
const SHIFT = 3
const ROW_8 = 4
const ROW_4 = 5
const BAD = 6
const GOOD = 7
const TEXT = 8
const IS_DIGIT = 9
const IS_LETTER = 10
const FIRST_WORD = 11

/** The body of the loop: compare what is fixed, read each word, store the row. */
function loopOf(shape: EvenShape): Code {
  const { length, fixedText, isDigit, bits, places } = shape
  const words = Object.entries(places).flatMap(([name, place]) => (place === undefined ? [] : [{ name, ...place }]))
  const local = (name: string): number => FIRST_WORD + words.findIndex((word) => word.name === name)
  const code = new Code(4, { numbers: 2, vectors: 5, longs: words.length })
  const pushWord = (name: string): void => {
    if (local(name) < FIRST_WORD) code.i64(0n)
    else code.get(local(name))
  }
  code.block().loop()
  code.get(AT).i32(length).op(OP.i32Add).get(TO).op(OP.i32GtU).breakIf(1)
  code.get(ROW).i32(BATCH_ROWS).op(OP.i32GeU).breakIf(1)
  code.zeroVector().set(BAD)
  for (let start = 0; start < length; start += 16) {
    const at = Math.max(0, Math.min(start, length - 16))
    const mask = Array.from({ length: 16 }, (_, i) => (at + i < length && isDigit[at + i] !== 1 ? 255 : 0))
    const fixed = mask.map((byte, i) => (byte === 0 ? 0 : (fixedText[at + i] ?? 0)))
    code.get(AT).load(at).vector(fixed).v(V.xor).vector(mask).v(V.and).get(BAD).v(V.or).set(BAD)
  }
  code.bytes(255).set(GOOD)
  const short = words.filter(({ from, to }) => to - from <= 8)
  for (let i = 0; i + 1 < short.length; i += 2) readWords(code, short.slice(i, i + 2), local)
  const paired = new Set(short.slice(0, short.length & ~1))
  for (const word of words) if (!paired.has(word)) readWords(code, [word], local)
  code.get(BAD).get(GOOD).v(V.not).v(V.or).v(V.anyTrue).breakIf(1)
  code.get(ROW).i32(3).op(OP.i32Shl).set(ROW_8)
  code.get(ROW).i32(2).op(OP.i32Shl).set(ROW_4)
  code.get(ROW_8)
  pushWord('address')
  code.op(OP.f64ConvertI64U).storeF64(ADDRESS_AT)
  const difference = (): void => {
    pushWord(bits === 'pair' ? 'expected' : 'difference')
    if (bits !== 'pair') return
    pushWord('actual')
    code.op(OP.i64Xor)
  }
  const actual = (): void => {
    pushWord(bits === 'expected+difference' ? 'expected' : 'actual')
    if (bits !== 'expected+difference') return
    pushWord('difference')
    code.op(OP.i64Xor)
  }
  for (const [push, lowAt, highAt] of [
    [difference, DIFFERENCE_LOW_AT, DIFFERENCE_HIGH_AT],
    [actual, ACTUAL_LOW_AT, ACTUAL_HIGH_AT],
  ] as const) {
    code.get(ROW_4)
    push()
    code.op(OP.i32WrapI64).storeI32(lowAt)
    code.get(ROW_4)
    push()
    code.i64(32n).op(OP.i64ShrU).op(OP.i32WrapI64).storeI32(highAt)
  }
  code.get(ROW_4).get(AT).get(SHIFT).op(OP.i32Sub).storeI32(START_AT)
  code.get(ROW).i32(1).op(OP.i32Add).set(ROW)
  code.get(AT).i32(length).op(OP.i32Add).set(AT)
  code.again(0).end().end()
  return code.get(AT)
}

interface WordPlace {
  readonly name: string
  readonly from: number
  readonly to: number
}

/** Reads one word of up to 16 digits, or two of up to 8, each into its local. */
function readWords(code: Code, words: readonly WordPlace[], local: (name: string) => number): void {
  const bytes = 16 / words.length
  // The bytes that end with a word: what stands before it becomes `0`.
  for (const { to } of words)
    code
      .get(AT)
      .i32(16 - to)
      .op(OP.i32Sub)
      .load(0)
  if (words.length === 2) code.shuffle([...ENDS, ...ENDS.map((place) => place + 16)])
  const mask = words.flatMap(({ from, to }) =>
    Array.from({ length: bytes }, (_, i) => (i >= bytes - (to - from) ? 255 : 0)),
  )
  if (mask.includes(0)) {
    code
      .vector(mask)
      .v(V.and)
      .vector(mask.map((byte) => (byte === 0 ? 0x30 : 0)))
      .v(V.or)
  }
  code.set(TEXT)
  code.get(TEXT).bytes(0x30).v(V.i8Sub).bytes(10).v(V.i8LtU).set(IS_DIGIT)
  code.get(TEXT).bytes(0x20).v(V.or).bytes(0x61).v(V.i8Sub).bytes(6).v(V.i8LtU).set(IS_LETTER)
  code.get(IS_DIGIT).get(IS_LETTER).v(V.or).get(GOOD).v(V.and).set(GOOD)
  // The low half of a letter's byte is 9 less than its value.
  code.get(TEXT).bytes(15).v(V.and).get(IS_LETTER).bytes(9).v(V.and).v(V.i8Add).set(TEXT)
  // Two digits become one byte; then the bytes stand in the order of a number.
  code.get(TEXT).i32(4).v(V.i16Shl).get(TEXT).i32(8).v(V.i16ShrU).v(V.or).set(TEXT)
  if (words.length === 1) code.get(TEXT).get(TEXT).shuffle(ONE_NUMBER).set(TEXT)
  else code.get(TEXT).zeroVector().shuffle(TWO_NUMBERS).set(TEXT)
  for (const [place, { name }] of words.entries()) code.get(TEXT).long(place).set(local(name))
}

/** Of sixteen bytes the last eight. */
const ENDS = [8, 9, 10, 11, 12, 13, 14, 15]
const ONE_NUMBER = [14, 12, 10, 8, 6, 4, 2, 0, 14, 12, 10, 8, 6, 4, 2, 0]
/** Byte 16 is one of the zeros that stand behind. */
const TWO_NUMBERS = [6, 4, 2, 0, 16, 16, 16, 16, 14, 12, 10, 8, 16, 16, 16, 16]
