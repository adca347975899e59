/** The beginning of a report: its encoding, as much text as a guess needs, and the stream again from its start. */
import { DETECTION_BYTES, detectEncoding, type Encoding } from './encoding.ts'

/** The guess is tried on this much, then on four times as much, and so on. */
const FIRST_LOOK_BYTES = 1 << 18
/** How far to look for the first row behind a banner: tens of thousands of lines. */
const LAST_LOOK_BYTES = 1 << 24

export interface Head {
  readonly encoding: Encoding
  /** Bytes of the byte order mark, which is not among the chunks. */
  readonly markBytes: number
  /** The first lines, decoded; no more than asked for. */
  readonly text: string
  /** The text is all of it. */
  readonly isAll: boolean
  /** All bytes from the first after the byte order mark. */
  readonly chunks: AsyncIterable<Uint8Array>
  /** Why the source broke off within this beginning, where it did; its chunks end with the same error. */
  readonly failure: unknown
  /** Lets go of the source, for a head whose chunks are not wanted. */
  close(): Promise<void>
}

export interface HeadOptions {
  readonly signal: AbortSignal | undefined
  /** Whether the text is enough for a guess; else more is read. Left out: only as far as the encoding needs. */
  readonly isEnough?: ((text: string) => boolean) | undefined
}

/**
 * Reads the first bytes for the encoding, then four times as many at each look until `isEnough` says so. A source
 * that fails does not throw here: the failure is handed on with what came before it.
 */
export async function openHead(source: AsyncIterable<Uint8Array>, options: HeadOptions): Promise<Head> {
  const iterator = stoppable(source, options.signal)
  const taken: Uint8Array[] = []
  let bytes = 0
  let ended = false
  let failure: SourceFailure | undefined
  const readUpTo = async (wanted: number): Promise<void> => {
    while (!ended && bytes < wanted) {
      const next = await nextOrFailure(iterator)
      if (next instanceof SourceFailure) {
        failure = next
        ended = true
      } else if (next.done === true) ended = true
      else {
        taken.push(next.value)
        bytes += next.value.length
      }
    }
  }
  await readUpTo(DETECTION_BYTES)
  const { encoding, markBytes } = detectEncoding(joined(taken, DETECTION_BYTES))
  let text = ''
  let isAll = false
  for (let wanted = FIRST_LOOK_BYTES; options.isEnough !== undefined && wanted <= LAST_LOOK_BYTES; wanted *= 4) {
    await readUpTo(wanted)
    const whole = ended && bytes <= wanted
    text = wholeLines(new TextDecoder(encoding).decode(joined(taken, wanted)), whole)
    isAll = whole
    if (options.isEnough(text) || whole) break
  }
  const close = async (): Promise<void> => {
    await iterator.return?.()
  }
  return {
    encoding,
    markBytes,
    text,
    isAll,
    chunks: again(taken, markBytes, iterator, failure),
    failure: failure?.cause,
    close,
  }
}

/** A source that broke off. */
class SourceFailure {
  readonly cause: unknown
  constructor(cause: unknown) {
    this.cause = cause
  }
}

async function nextOrFailure(iterator: AsyncIterator<Uint8Array>): Promise<IteratorResult<Uint8Array> | SourceFailure> {
  try {
    return await iterator.next()
  } catch (error) {
    return new SourceFailure(error)
  }
}

/** Without the line that the end of the text cuts. */
function wholeLines(text: string, isWhole: boolean): string {
  if (isWhole) return text
  const end = Math.max(text.lastIndexOf('\n'), text.lastIndexOf('\r'))
  return end < 0 ? text : text.slice(0, end + 1)
}

/** The source's iterator; once the signal is given it ends at the next step, even if the source hangs. */
function stoppable(source: AsyncIterable<Uint8Array>, signal: AbortSignal | undefined): AsyncIterator<Uint8Array> {
  const iterator = source[Symbol.asyncIterator]()
  if (signal === undefined) return iterator
  const ending: IteratorResult<Uint8Array> = { done: true, value: undefined }
  const stopped = new Promise<IteratorResult<Uint8Array>>((resolve) => {
    if (signal.aborted) resolve(ending)
    signal.addEventListener('abort', () => resolve(ending), { once: true })
  })
  return {
    next: () => (signal.aborted ? stopped : Promise.race([iterator.next(), stopped])),
    return: async () => {
      // A source that hangs would keep its own end waiting; it is told, and not waited for.
      const told = iterator.return?.()
      return signal.aborted ? ending : ((await told) ?? ending)
    },
  }
}

function joined(chunks: readonly Uint8Array[], most: number): Uint8Array {
  const all = new Uint8Array(
    Math.min(
      most,
      chunks.reduce((sum, chunk) => sum + chunk.length, 0),
    ),
  )
  let at = 0
  for (const chunk of chunks) {
    if (at >= all.length) break
    const part = chunk.subarray(0, all.length - at)
    all.set(part, at)
    at += part.length
  }
  return all
}

async function* again(
  taken: readonly Uint8Array[],
  markBytes: number,
  rest: AsyncIterator<Uint8Array>,
  failure: SourceFailure | undefined,
): AsyncIterable<Uint8Array> {
  let toSkip = markBytes
  try {
    for (const chunk of taken) {
      const skipped = Math.min(toSkip, chunk.length)
      toSkip -= skipped
      if (chunk.length > skipped) yield chunk.subarray(skipped)
    }
    if (failure !== undefined) throw failure.cause
    for (;;) {
      const next = await rest.next()
      if (next.done === true) return
      yield next.value
    }
  } finally {
    await rest.return?.()
  }
}
