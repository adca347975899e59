/** Cuts a stream of UTF-8 bytes at its line breaks (LF, CR LF, lone CR) without copying what lies whole in a chunk. */

/** A longer line is no row of any report; it is counted, and its bytes are let go. */
export const MAX_LINE_BYTES = 1 << 20

export interface LineSink {
  /** Whole lines: `bytes` from `from` to `to`, the last one's line break included. */
  block(bytes: Uint8Array, from: number, to: number): void
  /** A line longer than `MAX_LINE_BYTES`: its first bytes. */
  overlong(head: Uint8Array): void
  /** The last line, which no line break ends. */
  unended(bytes: Uint8Array): void
}

export interface LineCutter {
  chunk(bytes: Uint8Array): void
  end(): void
}

const LF = 10
const CR = 13
const SHOWN_OF_OVERLONG = 400
const FIRST_CARRY_BYTES = 4096

/** @param softBreak a byte behind which a line that grows too long may be broken, such as the end of an object of JSON */
export function lineCutter(sink: LineSink, softBreak?: number): LineCutter {
  let carry = new Uint8Array(FIRST_CARRY_BYTES)
  let carried = 0
  let tooLong = false
  /** The chunk before ended in CR: a LF at the start of this one belongs to it. */
  let afterCarriageReturn = false

  const keep = (bytes: Uint8Array): void => {
    const at =
      softBreak === undefined || 2 * (carried + bytes.length) < MAX_LINE_BYTES ? -1 : bytes.lastIndexOf(softBreak)
    if (at < 0) return keepAll(bytes)
    keepAll(bytes.subarray(0, at + 1))
    endCarried()
    keepAll(bytes.subarray(at + 1))
  }
  const keepAll = (bytes: Uint8Array): void => {
    if (tooLong) return
    if (carried + bytes.length > MAX_LINE_BYTES) {
      carry.set(bytes.subarray(0, Math.max(0, SHOWN_OF_OVERLONG - carried)), Math.min(carried, SHOWN_OF_OVERLONG))
      tooLong = true
      return
    }
    const needed = carried + bytes.length + 1
    if (needed > carry.length) {
      const larger = new Uint8Array(2 * needed)
      larger.set(carry.subarray(0, carried))
      carry = larger
    }
    carry.set(bytes, carried)
    carried += bytes.length
  }
  const endCarried = (): void => {
    if (tooLong) sink.overlong(carry.subarray(0, SHOWN_OF_OVERLONG))
    else {
      carry[carried] = LF
      sink.block(carry, 0, carried + 1)
    }
    carried = 0
    tooLong = false
  }
  return {
    chunk: (bytes) => {
      let from = afterCarriageReturn && bytes[0] === LF ? 1 : 0
      if (bytes.length > 0) afterCarriageReturn = false
      const to = lastBreak(bytes, from)
      if (to > from) {
        if (carried > 0 || tooLong) {
          const first = firstBreak(bytes, from)
          keep(bytes.subarray(from, first))
          endCarried()
          from = first + (bytes[first] === CR && bytes[first + 1] === LF ? 2 : 1)
        }
        if (to > from) sink.block(bytes, from, to)
        afterCarriageReturn = bytes[to - 1] === CR && to === bytes.length
        from = to
      }
      if (from < bytes.length) keep(bytes.subarray(from))
    },
    end: () => {
      if (tooLong) sink.overlong(carry.subarray(0, SHOWN_OF_OVERLONG))
      else if (carried > 0) sink.unended(carry.subarray(0, carried))
      carried = 0
      tooLong = false
    },
  }
}

/** Just behind the last line break at or after `from`, or `from` where there is none. */
function lastBreak(bytes: Uint8Array, from: number): number {
  let to = bytes.length
  while (to > from && bytes[to - 1] !== LF && bytes[to - 1] !== CR) to--
  return to
}

function firstBreak(bytes: Uint8Array, from: number): number {
  let at = from
  while (bytes[at] !== LF && bytes[at] !== CR) at++
  return at
}
