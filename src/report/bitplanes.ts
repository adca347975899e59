/**
 * How often each bit of many words is set, counted for all 32 bits at once: eight words at a time go through carry-save
 * adders, whose sums and carries are words again, plane k holding bit k of all 32 counters (Harley and Seal's counter by
 * places; Klarqvist, Muła and Lemire, "Efficient computation of positional population counts using SIMD instructions",
 * Concurrency and Computation: Practice and Experience 33 (2021) e6304). Some six operations a word, instead of a load,
 * an addition and a store for each of its bytes.
 */

/** Words of a stream that wait to be counted: a multiple of eight. */
export const WAITING = 64
/** Counts to 2^48, and the carry of the last plane never comes. */
const PLANES = 48
const AT_ONCE = 8

export interface BitPlanes {
  /** By stream, `WAITING` words each: whoever adds one writes it behind those that wait… */
  readonly words: Int32Array
  /** Counts all that wait of a stream, so many words; what lies behind them is written over by zeros. */
  count(stream: number, waiting: number): void
  /** How often this bit was set in the words of a stream that were counted. */
  of(stream: number, bit: number): number
}

export function newBitPlanes(streams: number): BitPlanes {
  const words = new Int32Array(streams * WAITING)
  const planes = new Int32Array(streams * PLANES)
  return {
    words,
    count: (stream, waiting) => {
      const from = stream * WAITING
      const to = from + Math.ceil(waiting / AT_ONCE) * AT_ONCE
      words.fill(0, from + waiting, to)
      countEights(words, from, to, planes, stream * PLANES)
    },
    of: (stream, bit) => {
      let count = 0
      for (let plane = PLANES - 1; plane >= 0; plane--) {
        count = 2 * count + (((planes[stream * PLANES + plane] ?? 0) >>> bit) & 1)
      }
      return count
    },
  }
}

/** Adds words from one place up to another, eight at a time, to the planes that begin at `base`. */
function countEights(words: Int32Array, from: number, to: number, planes: Int32Array, base: number): void {
  let ones = planes[base] ?? 0
  let twos = planes[base + 1] ?? 0
  let fours = planes[base + 2] ?? 0
  for (let at = from; at < to; at += AT_ONCE) {
    const w0 = words[at] ?? 0
    const w1 = words[at + 1] ?? 0
    const w2 = words[at + 2] ?? 0
    const w3 = words[at + 3] ?? 0
    const w4 = words[at + 4] ?? 0
    const w5 = words[at + 5] ?? 0
    const w6 = words[at + 6] ?? 0
    const w7 = words[at + 7] ?? 0
    // A full adder of three words: the sum is a ^ b ^ c, the carry (a & b) | ((a ^ b) & c).
    const a = ones ^ w0
    const twosA = (ones & w0) | (a & w1)
    const b = a ^ w1
    const c = b ^ w2
    const twosB = (b & w2) | (c & w3)
    const d = c ^ w3
    const e = d ^ w4
    const twosC = (d & w4) | (e & w5)
    const f = e ^ w5
    const g = f ^ w6
    const twosD = (f & w6) | (g & w7)
    ones = g ^ w7
    const h = twos ^ twosA
    const foursA = (twos & twosA) | (h & twosB)
    const i = h ^ twosB
    const j = i ^ twosC
    const foursB = (i & twosC) | (j & twosD)
    twos = j ^ twosD
    const k = fours ^ foursA
    let carry = (fours & foursA) | (k & foursB)
    fours = k ^ foursB
    for (let plane = base + 3; carry !== 0; plane++) {
      const before = planes[plane] ?? 0
      planes[plane] = before ^ carry
      carry &= before
    }
  }
  planes[base] = ones
  planes[base + 1] = twos
  planes[base + 2] = fours
}
