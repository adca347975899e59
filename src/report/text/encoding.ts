/** Which encoding a report's bytes are in, and any encoding turned into UTF-8 bytes while they stream. */

export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be'

/** Bytes that `detectEncoding` wants to see; fewer will do at the end of a short file. */
export const DETECTION_BYTES = 4096

/** Of the bytes at even (or odd) places, the share of zeros above which text is taken for UTF-16: Latin text has nearly all. */
const UTF16_ZERO_SHARE = 0.4
/** And the share at the other places below which it is. */
const UTF16_OTHER_SHARE = 0.1

/** The encoding of a text by its byte order mark, else by where its zero bytes stand, else UTF-8. */
export function detectEncoding(head: Uint8Array): { encoding: Encoding; markBytes: number } {
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) return { encoding: 'utf-8', markBytes: 3 }
  if (head[0] === 0xff && head[1] === 0xfe) return { encoding: 'utf-16le', markBytes: 2 }
  if (head[0] === 0xfe && head[1] === 0xff) return { encoding: 'utf-16be', markBytes: 2 }
  const pairs = Math.min(head.length, DETECTION_BYTES) >> 1
  if (pairs < 2) return { encoding: 'utf-8', markBytes: 0 }
  let evenZeros = 0
  let oddZeros = 0
  for (let i = 0; i < pairs; i++) {
    if (head[2 * i] === 0) evenZeros++
    if (head[2 * i + 1] === 0) oddZeros++
  }
  const even = evenZeros / pairs
  const odd = oddZeros / pairs
  if (odd > UTF16_ZERO_SHARE && even < UTF16_OTHER_SHARE) return { encoding: 'utf-16le', markBytes: 0 }
  if (even > UTF16_ZERO_SHARE && odd < UTF16_OTHER_SHARE) return { encoding: 'utf-16be', markBytes: 0 }
  return { encoding: 'utf-8', markBytes: 0 }
}

/** Takes chunks of a text in the given encoding and gives them back as UTF-8; UTF-8 goes through untouched. */
export interface Transcoder {
  chunk(bytes: Uint8Array): Uint8Array
  /** What was left of a character that the end of the file cut. */
  end(): Uint8Array
}

/**
 * Turns chunks into UTF-8 as they come. A character that a chunk cuts waits for the next; UTF-8 itself passes as it
 * is, unchecked.
 */
export function transcoder(encoding: Encoding): Transcoder {
  if (encoding === 'utf-8') return { chunk: (bytes) => bytes, end: () => new Uint8Array(0) }
  const decoder = new TextDecoder(encoding)
  const encoder = new TextEncoder()
  return {
    chunk: (bytes) => encoder.encode(decoder.decode(bytes, { stream: true })),
    end: () => encoder.encode(decoder.decode()),
  }
}
