/** WebAssembly of one function, written instruction by instruction (W3C, WebAssembly Core Specification 2.0, binary format, 2022). */

/** Instructions without an operand of their own. */
export const OP = {
  i32Eqz: 0x45,
  i32LtS: 0x48,
  i32GtU: 0x4b,
  i32GeU: 0x4f,
  f64Ge: 0x66,
  i32Add: 0x6a,
  i32Sub: 0x6b,
  i32Mul: 0x6c,
  i32And: 0x71,
  i32Or: 0x72,
  i32Xor: 0x73,
  i32Shl: 0x74,
  i32ShrU: 0x76,
  i64Xor: 0x85,
  i64ShrU: 0x88,
  f64Add: 0xa0,
  f64Max: 0xa5,
  i32WrapI64: 0xa7,
  f64ConvertI64U: 0xba,
} as const

/** Instructions on vectors of 16 bytes. */
export const V = {
  i32Splat: 0x11,
  i8Eq: 0x23,
  i8LtU: 0x26,
  i32Ne: 0x38,
  not: 0x4d,
  and: 0x4e,
  or: 0x50,
  xor: 0x51,
  anyTrue: 0x53,
  i8Add: 0x6e,
  i8Sub: 0x71,
  i16Shl: 0x8b,
  i16ShrU: 0x8d,
  i32Bitmask: 0xa4,
} as const

const I32 = 0x7f
const I64 = 0x7e
const F64 = 0x7c
const V128 = 0x7b
const NO_RESULT = 0x40
const VECTOR = 0xfd

/** How many locals of each kind a function has; they are numbered in this order, behind its parameters. */
export interface Locals {
  readonly numbers: number
  readonly vectors: number
  readonly longs?: number
  readonly doubles?: number
}

/** The body of a function; its parameters, which are the first locals, are numbers of 32 bits. */
export class Code {
  readonly parameters: number
  readonly locals: Locals
  private readonly body: number[] = []

  constructor(parameters: number, locals: Locals) {
    this.parameters = parameters
    this.locals = locals
  }

  private push(...bytes: readonly number[]): this {
    for (const byte of bytes) this.body.push(byte)
    return this
  }

  get = (local: number): this => this.push(0x20, ...unsigned(local))
  set = (local: number): this => this.push(0x21, ...unsigned(local))
  i32 = (value: number): this => this.push(0x41, ...signed(BigInt(value)))
  i64 = (value: bigint): this => this.push(0x42, ...signed(value))
  f64 = (value: number): this => this.push(0x44, ...new Uint8Array(Float64Array.of(value).buffer))
  op = (code: number): this => this.push(code)
  block = (): this => this.push(0x02, NO_RESULT)
  loop = (): this => this.push(0x03, NO_RESULT)
  if = (): this => this.push(0x04, NO_RESULT)
  end = (): this => this.push(0x0b)
  again = (depth: number): this => this.push(0x0c, depth)
  breakIf = (depth: number): this => this.push(0x0d, depth)
  /** One of the functions that the module is given, by its place among them. */
  call = (place: number): this => this.push(0x10, ...unsigned(place))
  loadI32 = (offset: number): this => this.push(0x28, 2, ...unsigned(offset))
  loadF64 = (offset: number): this => this.push(0x2b, 3, ...unsigned(offset))
  storeI32 = (offset: number): this => this.push(0x36, 2, ...unsigned(offset))
  storeF64 = (offset: number): this => this.push(0x39, 3, ...unsigned(offset))
  /** A double as a whole number of 64 bits; what does not fit becomes the nearest that does. */
  wholeOfDouble = (): this => this.push(0xfc, 0x06)
  /** Loads or stores sixteen bytes; nothing needs to be aligned. */
  load = (offset: number): this => this.push(VECTOR, 0, 0, ...unsigned(offset))
  store = (offset: number): this => this.push(VECTOR, 11, 0, ...unsigned(offset))
  vector = (bytes: readonly number[]): this => this.push(VECTOR, 12, ...bytes)
  bytes = (value: number): this => this.vector(Array.from({ length: 16 }, () => value))
  zeroVector = (): this => this.bytes(0)
  shuffle = (lanes: readonly number[]): this => this.push(VECTOR, 13, ...lanes)
  /** One of the two numbers of 64 bits that a vector is. */
  long = (place: number): this => this.push(VECTOR, ...unsigned(0x1d), place)
  v = (code: number): this => this.push(VECTOR, ...unsigned(code))

  /** With its locals, ended. */
  whole(): number[] {
    const { numbers, vectors, longs = 0, doubles = 0 } = this.locals
    const locals = [4, ...unsigned(numbers), I32, vectors, V128, longs, I64, doubles, F64]
    return [...locals, ...this.body, 0x0b]
  }
}

/** A function that a module is given, called with numbers of 32 bits, and gives nothing back. */
export interface Given {
  readonly name: string
  readonly parameters: number
}

/**
 * A module that takes a memory `even.memory` and some functions beside it, and gives the function `loop`, which answers
 * with a number of 32 bits.
 */
export function moduleOf(code: Code, given: readonly Given[] = []): WebAssembly.Module {
  const bytes = bytesOf(code, given)
  const key = bytes.join()
  const module = made.get(key) ?? new WebAssembly.Module(bytes)
  if (made.size >= MOST_KEPT) made.clear()
  made.set(key, module)
  return module
}

/** The next report of the same look finds its loops made, and made better while they ran. */
const made = new Map<string, WebAssembly.Module>()
const MOST_KEPT = 20

function bytesOf(code: Code, given: readonly Given[]): Uint8Array<ArrayBuffer> {
  const body = code.whole()
  const numbers = (count: number): number[] => [count, ...Array.from({ length: count }, () => I32)]
  const types = given.flatMap(({ parameters }) => [0x60, ...numbers(parameters), 0])
  const imports = given.flatMap(({ name }, i) => [...text('even'), ...text(name), 0, i])
  return Uint8Array.from([
    ...HEADER,
    ...section(1, [given.length + 1, ...types, 0x60, ...numbers(code.parameters), 1, I32]),
    ...section(2, [given.length + 1, ...imports, ...text('even'), ...text('memory'), 2, 0, 1]),
    ...section(3, [1, given.length]),
    ...section(7, [1, ...text('loop'), 0, given.length]),
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
