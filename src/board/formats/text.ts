/** Text of a file with its lines, read whole up to a limit. */
import { bad, good, type Result, say } from '../../base/index.ts'

export interface NamedText {
  /** Name of the file. */
  readonly name: string
  readonly text: string
}

export interface TextLine {
  /** Counted from 1. */
  readonly line: number
  readonly text: string
}

const UTF_16 = [
  { first: 0xff, second: 0xfe, encoding: 'utf-16le' },
  { first: 0xfe, second: 0xff, encoding: 'utf-16be' },
] as const

/** @returns the text in UTF-8, or in UTF-16 by its mark; a fault where the bytes are more than `mostBytes` */
export async function textOf(
  bytes: AsyncIterable<Uint8Array>,
  { name, mostBytes, onBytes }: { name: string; mostBytes: number; onBytes?: (count: number) => void },
): Promise<Result<string>> {
  let decoder: TextDecoder | undefined
  let count = 0
  const parts: string[] = []
  for await (const piece of bytes) {
    count += piece.length
    if (count > mostBytes) {
      const most = Math.round(mostBytes / 1e6)
      return bad({
        path: name,
        found: say('more than {most} MB', { most }),
        expected: say('at most {most} MB of this kind of file', { most }),
      })
    }
    decoder ??= decoderFor(piece)
    parts.push(decoder.decode(piece, { stream: true }))
    onBytes?.(count)
  }
  parts.push(decoder?.decode() ?? '')
  return good(parts.join(''))
}

function decoderFor([first, second]: Uint8Array): TextDecoder {
  const wide = UTF_16.find((mark) => mark.first === first && mark.second === second)
  return new TextDecoder(wide?.encoding ?? 'utf-8')
}

/** The lines of a text, however they end; none is longer than `mostLetters`. */
export function linesOf(text: string, mostLetters = 4096): TextLine[] {
  return text.split(/\r\n|\n|\r/).map((line, i) => ({ line: i + 1, text: line.slice(0, mostLetters) }))
}
