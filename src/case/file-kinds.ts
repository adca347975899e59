/** What kinds of file there are, one entry a kind, told by content and never by name: for the screen and the command line. */
import { say } from '../base/index.ts'
import { type BoardFormat, boardFormatOf } from '../board/index.ts'
import { isZip } from './exchange/is-zip.ts'
import { looksLikePicture } from './image-head.ts'

interface FileKindFacts {
  /** What it is told to be, in words. */
  readonly words: string
  /** What such files are usually called, for a chooser that has not read them yet. */
  readonly accept: readonly string[]
  /** A board, or a case itself: a new card can begin with it. */
  readonly beginsCase: boolean
  /** The word that a JSON file of this kind says of itself. */
  readonly format: string | undefined
  /** Larger ones are refused, since they are read whole. */
  readonly mostBytes: number
  /** The format of board data that it is: it becomes a board, alone or with others of the same board. */
  readonly boardFormat?: BoardFormat
}

/** Larger ones hold more than a board. */
const DATA_BYTES = 100_000_000
const JSON_BYTES = 256 * 1024 * 1024
/** A packed case holds photos as well. */
const ZIP_BYTES = 1_100_000_000

const json = { accept: ['.json'], mostBytes: JSON_BYTES }
const data = { beginsCase: true, format: undefined, mostBytes: DATA_BYTES }
const plain = { accept: [] as readonly string[], beginsCase: false, format: undefined, mostBytes: Infinity }

/** A case comes first: it holds a board, and words of reports, that say what they are as well. */
export const fileKinds = {
  case: { ...json, words: say('a case'), beginsCase: true, format: 'liftmap-case' },
  board: { ...json, words: say('a board'), beginsCase: true, format: 'liftmap-board' },
  layout: { ...plain, words: say('a layout'), accept: ['.kicad_pcb'], beginsCase: true, boardFormat: 'kicad' },
  ipc2581: {
    ...plain,
    words: say('a board in IPC-2581'),
    accept: ['.xml', '.cvg'],
    beginsCase: true,
    boardFormat: 'ipc2581',
  },
  gerber: {
    ...data,
    words: say('a Gerber layer of a board'),
    accept: ['.gbr', '.ger', '.gbx', '.gko', '.gm1', '.gtl', '.gbl', '.g1', '.g2', '.pho', '.art'],
    boardFormat: 'gerber',
  },
  drill: {
    ...data,
    words: say('a drill file of a board'),
    accept: ['.drl', '.drd', '.xln', '.exc', '.ncd', '.cnc', '.tap'],
    boardFormat: 'drill',
  },
  netlist: { ...data, words: say('a netlist of a board'), accept: ['.d356', '.ipc', '.net'], boardFormat: 'netlist' },
  placements: {
    ...data,
    words: say('a table of places'),
    accept: ['.csv', '.pos', '.xy', '.txt'],
    boardFormat: 'placements',
  },
  zip: {
    ...plain,
    words: say('a packed case, or packed files of a board'),
    accept: ['.zip'],
    beginsCase: true,
    mostBytes: ZIP_BYTES,
  },
  counts: { ...json, words: say('counts of a shop'), beginsCase: false, format: 'liftmap-counts' },
  words: { ...json, words: say('words of reports'), beginsCase: false, format: 'liftmap-report-words' },
  report: { ...plain, words: say('text, such as a report') },
  picture: { ...plain, words: say('a photo'), accept: ['image/jpeg', 'image/png', 'image/webp'] },
  binary: { ...plain, words: say('a binary file') },
  empty: { ...plain, words: say('an empty file') },
} as const satisfies Record<string, FileKindFacts>

export type FileKind = keyof typeof fileKinds

const isKind = (name: string): name is FileKind => name in fileKinds
const kinds = Object.keys(fileKinds).filter(isKind)

/** What can be the beginning of a case. */
export const beginsCase: readonly FileKind[] = kinds.filter((kind) => fileKinds[kind].beginsCase)

const facts: Readonly<Record<FileKind, FileKindFacts>> = fileKinds
/** What tells a board, alone or together with others: layouts and other data files of boards. */
export const boardData: readonly FileKind[] = kinds.filter((kind) => facts[kind].boardFormat !== undefined)

const kindByFormat = new Map(boardData.map((kind) => [facts[kind].boardFormat, kind] as const))

/** For a file chooser that takes these kinds. */
export const acceptFor = (wanted: readonly FileKind[]): string =>
  [...new Set(wanted.flatMap((kind) => fileKinds[kind].accept))].join(',')

/** So much of a file tells what it is. */
export const HEAD_BYTES = 65_536

/**
 * @param head the first bytes of a file, `HEAD_BYTES` of them or all
 * @returns its kind: a JSON object that says what it is, or has outline and parts, is that; all other text is a report
 */
export function fileKindOf(head: Uint8Array): FileKind {
  if (head.length === 0) return 'empty'
  if (looksLikePicture(head)) return 'picture'
  if (isZip(head)) return 'zip'
  const text = headText(head)
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
  if (!start.startsWith('{')) return kindByFormat.get(boardFormatOf(start)) ?? 'report'
  const said = kinds.find((kind) => {
    const { format } = fileKinds[kind]
    return format !== undefined && new RegExp(`"format"\\s*:\\s*"${format}"`).test(start)
  })
  if (said !== undefined) return said
  return /"outline"\s*:/.test(start) && /"parts"\s*:/.test(start) ? 'board' : 'report'
}
