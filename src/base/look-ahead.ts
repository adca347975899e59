/** The beginning of a stream of bytes, and the stream again from its start. */

/**
 * Reads as many pieces as hold `leastBytes`, or all there are.
 * @returns those pieces, and a stream of all bytes that gives them first; it can be read once
 */
export async function lookAhead(
  bytes: AsyncIterable<Uint8Array>,
  leastBytes: number,
): Promise<{ readonly ahead: readonly Uint8Array[]; readonly whole: AsyncIterable<Uint8Array> }> {
  const iterator = bytes[Symbol.asyncIterator]()
  const ahead: Uint8Array[] = []
  let length = 0
  while (length < leastBytes) {
    const step = await iterator.next()
    if (step.done === true) break
    ahead.push(step.value)
    length += step.value.length
  }
  async function* again(): AsyncIterable<Uint8Array> {
    yield* ahead
    while (true) {
      const step = await iterator.next()
      if (step.done === true) return
      yield step.value
    }
  }
  return { ahead, whole: again() }
}
