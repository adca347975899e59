/** What kind of file it is, told by its content, never by its name. */
import { isZip } from '../../case/index.ts'
import { looksLikePicture } from './imageHead.ts'

export type FileKind =
  | 'layout'
  | 'board'
  | 'case'
  | 'counts'
  | 'words'
  | 'report'
  | 'picture'
  | 'zip'
  | 'binary'
  | 'empty'

/** What can be the beginning of a case: a board, or a case itself. */
export const beginsCase: readonly FileKind[] = ['board', 'layout', 'case', 'zip']

const ENDINGS: Readonly<Partial<Record<FileKind, readonly string[]>>> = {
  board: ['.json'],
  case: ['.json'],
  counts: ['.json'],
  words: ['.json'],
  layout: ['.kicad_pcb'],
  zip: ['.zip'],
  picture: ['image/jpeg', 'image/png', 'image/webp'],
}

/** Of files of these kinds, as a chooser takes them: what such files are usually called, as their content is yet to be read. */
export const acceptFor = (kinds: readonly FileKind[]): string =>
  [...new Set(kinds.flatMap((kind) => ENDINGS[kind] ?? []))].join(',')

const HEAD_BYTES = 65_536

/** Reads the head of a file only. A JSON object with the format word of a board, a case or counts is one, all other text is a report. */
export async function tellKind(file: Blob): Promise<FileKind> {
  if (file.size === 0) return 'empty'
  const bytes = new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer())
  if (looksLikePicture(bytes)) return 'picture'
  if (isZip(bytes)) return 'zip'
  const text = headText(bytes)
  return text === undefined ? 'binary' : kindOfText(text)
}

/** Text of the first bytes in UTF-8 or UTF-16; undefined where they are no text. */
export function headText(bytes: Uint8Array): string | undefined {
  const [first, second] = bytes
  if (first === 0xff && second === 0xfe) return new TextDecoder('utf-16le').decode(bytes)
  if (first === 0xfe && second === 0xff) return new TextDecoder('utf-16be').decode(bytes)
  const zeros = [0, 0]
  for (const [i, byte] of bytes.entries()) if (byte === 0) zeros[i % 2] = (zeros[i % 2] ?? 0) + 1
  const [even = 0, odd = 0] = zeros
  if (even + odd === 0) return new TextDecoder().decode(bytes)
  // UTF-16 without a mark: of plain letters, every other byte is zero and the rest are not
  const many = bytes.length * 0.3
  if (even === 0 && odd > many) return new TextDecoder('utf-16le').decode(bytes)
  return odd === 0 && even > many ? new TextDecoder('utf-16be').decode(bytes) : undefined
}

function kindOfText(text: string): FileKind {
  const start = text.replace(/^\ufeff/, '').trimStart()
  if (start === '') return 'empty'
  if (/^\(kicad_pcb[\s)]/.test(start)) return 'layout'
  if (!start.startsWith('{')) return 'report'
  if (/"format"\s*:\s*"liftmap-case"/.test(start)) return 'case'
  if (/"format"\s*:\s*"liftmap-board"/.test(start)) return 'board'
  if (/"format"\s*:\s*"liftmap-counts"/.test(start)) return 'counts'
  if (/"format"\s*:\s*"liftmap-report-words"/.test(start)) return 'words'
  if (/"outline"\s*:/.test(start) && /"parts"\s*:/.test(start)) return 'board'
  return 'report'
}
