/** WebAssembly of one function, written instruction by instruction (W3C, WebAssembly Core Specification 2.0, binary format, 2022). */

/** Instructions without an operand of their own. */
export const OP = {
  i32GtU: 0x4b,
  i32GeU: 0x4f,
  i32Add: 0x6a,
  i32Sub: 0x6b,
  i32Shl: 0x74,
  i64Xor: 0x85,
  i64ShrU: 0x88,
  i32WrapI64: 0xa7,
  f64ConvertI64U: 0xba,
} as const

/** Instructions on vectors of 16 bytes. */
export const V = {
  i8LtU: 0x26,
  not: 0x4d,
  and: 0x4e,
  or: 0x50,
  xor: 0x51,
  anyTrue: 0x53,
  i8Add: 0x6e,
  i8Sub: 0x71,
  i16Shl: 0x8b,
  i16ShrU: 0x8d,
} as const

const I32 = 0x7f
const I64 = 0x7e
const V128 = 0x7b
const NO_RESULT = 0x40
const VECTOR = 0xfd

/** The body of a function of three numbers (locals 0 to 2): two numbers (3, 4), six vectors (5 to 10) and some long ones behind. */
export class Code {
  readonly longs: number
  private readonly body: number[] = []

  constructor(longs: number) {
    this.longs = longs
  }

  private push(...bytes: readonly number[]): this {
    for (const byte of bytes) this.body.push(byte)
    return this
  }

  get = (local: number): this => this.push(0x20, ...unsigned(local))
  set = (local: number): this => this.push(0x21, ...unsigned(local))
  i32 = (value: number): this => this.push(0x41, ...signed(BigInt(value)))
  i64 = (value: bigint): this => this.push(0x42, ...signed(value))
  op = (code: number): this => this.push(code)
  block = (): this => this.push(0x02, NO_RESULT)
  loop = (): this => this.push(0x03, NO_RESULT)
  end = (): this => this.push(0x0b)
  again = (depth: number): this => this.push(0x0c, depth)
  breakIf = (depth: number): this => this.push(0x0d, depth)
  storeI32 = (offset: number): this => this.push(0x36, 2, ...unsigned(offset))
  storeF64 = (offset: number): this => this.push(0x39, 3, ...unsigned(offset))
  /** Loads sixteen bytes; nothing needs to be aligned. */
  load = (offset: number): this => this.push(VECTOR, 0, 0, ...unsigned(offset))
  vector = (bytes: readonly number[]): this => this.push(VECTOR, 12, ...bytes)
  bytes = (value: number): this => this.vector(Array.from({ length: 16 }, () => value))
  zeroVector = (): this => this.bytes(0)
  shuffle = (lanes: readonly number[]): this => this.push(VECTOR, 13, ...lanes)
  firstLong = (): this => this.push(VECTOR, ...unsigned(0x1d), 0)
  v = (code: number): this => this.push(VECTOR, ...unsigned(code))

  /** With its locals, ended. */
  whole(): number[] {
    const locals = [3, 2, I32, 6, V128, this.longs, I64]
    return [...locals, ...this.body, 0x0b]
  }
}

/** A module that takes a memory `even.memory` and gives the function `loop`, of three numbers to one. */
export function moduleOf(code: Code): Uint8Array<ArrayBuffer> {
  const body = code.whole()
  return Uint8Array.from([
    ...HEADER,
    ...section(1, [1, 0x60, 3, I32, I32, I32, 1, I32]),
    ...section(2, [1, ...text('even'), ...text('memory'), 2, 0, 1]),
    ...section(3, [1, 0]),
    ...section(7, [1, ...text('loop'), 0, 0]),
    ...section(10, [1, ...unsigned(body.length), ...body]),
  ])
}

/** `\\0asm`, version 1. */
const HEADER = [0, 0x61, 0x73, 0x6d, 1, 0, 0, 0]

const section = (id: number, content: readonly number[]): number[] => [id, ...unsigned(content.length), ...content]
const text = (name: string): number[] => [name.length, ...new TextEncoder().encode(name)]

/** LEB128. */
function unsigned(value: number): number[] {
  const bytes: number[] = []
  let rest = value
  do {
    const low = rest & 127
    rest >>>= 7
    bytes.push(rest === 0 ? low : low | 128)
  } while (rest !== 0)
  return bytes
}

function signed(value: bigint): number[] {
  const bytes: number[] = []
  let rest = value
  for (;;) {
    const low = Number(rest & 127n)
    rest >>= 7n
    const isLast = (rest === 0n && (low & 64) === 0) || (rest === -1n && (low & 64) !== 0)
    bytes.push(isLast ? low : low | 128)
    if (isLast) return bytes
  }
}
