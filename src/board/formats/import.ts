/** Files of one board, of whatever formats, to a board description with a list of what they don't tell. */
import { bad, good, type Result, someOf, lookAhead, say } from '../../base/index.ts'
import { importKicad } from '../kicad/import.ts'
import { type BoardImport, describeLayout } from '../layout/describe.ts'
import { readDrill } from './drill/read.ts'
import { readGerber } from './gerber/read.ts'
import { readIpc2581 } from './ipc2581/read.ts'
import { layoutFrom } from './layout.ts'
import { mergePieces } from './merge.ts'
import { readNetlist } from './netlist/read.ts'
import type { BoardFormat, Piece } from './pieces.ts'
import { readPlacements } from './placements/read.ts'
import { BEGINNING_BYTES, boardFormatOf } from './tell.ts'
import { type NamedText, textOf } from './text.ts'

export interface BoardDataFile {
  readonly name: string
  readonly bytes: AsyncIterable<Uint8Array>
}

export interface BoardImportOptions {
  /** Name of the board; `board` where left out. */
  readonly name?: string | undefined
  /** Of all files together. */
  readonly onProgress?: ((readBytes: number) => void) | undefined
  readonly signal?: AbortSignal | undefined
}

const MOST_FILES = 200
/** Files of these formats are read whole. */
const MOST_BYTES = { drill: 50_000_000, gerber: 100_000_000, netlist: 100_000_000, placements: 20_000_000 }
/** Lines of one board edge. */
const MOST_EDGES = 20_000

/**
 * Tells each file's format by its content. A layout that tells a whole board is read alone; other files are put together.
 * @returns faults by file and line; nothing half read, and what can't be known is said
 */
export async function importBoard(
  files: readonly BoardDataFile[],
  options: BoardImportOptions = {},
): Promise<Result<BoardImport>> {
  if (files.length === 0 || files.length > MOST_FILES)
    return bad({
      path: 'files',
      found: `${files.length}`,
      expected: say('from 1 to {mostFiles} files of one board', { mostFiles: MOST_FILES }),
    })
  const told = await Promise.all(files.map(tellFile))
  const [layout, ...more] = told.filter(({ format }) => format === 'kicad')
  if (more.length > 0)
    return bad({ path: more[0]?.name ?? '', found: say('a second layout'), expected: say('files of one board') })
  if (layout !== undefined) return importWhole(layout, told, options)
  const read = await readPieces(told, options)
  if (!read.ok) return read
  const silent = read.value.filter(tellsNothing).map(({ from }) => from)
  const others = [...told.filter(({ format }) => format === undefined).map(({ name }) => name), ...silent]
  const pieces = read.value.filter((piece) => !tellsNothing(piece))
  if (pieces.length === 0)
    return bad({
      path: someOf(others),
      found: say('nothing that tells a board'),
      expected: say(
        'a layout, or data of a board: IPC-2581, an edge, parts or copper in Gerber with attributes, a netlist of IPC-D-356, a table of places, and drill files beside them',
      ),
    })
  return describePieces(pieces, others, options)
}

/** A drawing of another layer, such as a mask or a legend. */
const tellsNothing = ({ outline, copper, parts, drills }: Piece): boolean =>
  outline.length + copper.length + parts.length + drills.length === 0

interface ToldFile extends BoardDataFile {
  readonly format: BoardFormat | undefined
}

async function importWhole(
  layout: ToldFile,
  told: readonly ToldFile[],
  options: BoardImportOptions,
): Promise<Result<BoardImport>> {
  const imported = await importKicad(layout.bytes, options)
  if (!imported.ok || told.length === 1) return imported
  const others = told.filter((file) => file !== layout).map(({ name }) => name)
  const remark = say("{name} tells the whole board; beside it these weren't used: {others}.", {
    name: layout.name,
    others: someOf(others),
  })
  return good({ ...imported.value, untold: [remark, ...imported.value.untold] })
}

const READERS: Readonly<Record<Exclude<BoardFormat, 'kicad' | 'ipc2581'>, (file: NamedText) => Result<Piece>>> = {
  drill: readDrill,
  gerber: readGerber,
  netlist: readNetlist,
  placements: readPlacements,
}

interface WholeFile {
  readonly name: string
  readonly format: keyof typeof READERS
  readonly onBytes: (count: number) => void
}

async function readWhole(
  bytes: AsyncIterable<Uint8Array>,
  { name, format, onBytes }: WholeFile,
): Promise<Result<Piece>> {
  const text = await textOf(bytes, { name, mostBytes: MOST_BYTES[format], onBytes })
  return text.ok ? READERS[format]({ name, text: text.value }) : text
}

/** All faults of all files together. */
async function readPieces(
  told: readonly ToldFile[],
  { onProgress, signal }: BoardImportOptions,
): Promise<Result<Piece[]>> {
  const pieces: Piece[] = []
  const faults = []
  let before = 0
  for (const { name, bytes, format } of told) {
    if (format === undefined || format === 'kicad') continue
    signal?.throwIfAborted()
    let own = 0
    const onBytes = (count: number): void => {
      signal?.throwIfAborted()
      own = count
      onProgress?.(before + count)
    }
    const piece =
      format === 'ipc2581'
        ? await readIpc2581(bytes, { name, onProgress: onBytes, signal })
        : await readWhole(bytes, { name, format, onBytes })
    before += own
    if (piece.ok) pieces.push(piece.value)
    else faults.push(...piece.faults)
  }
  return faults.length > 0 ? bad(...faults) : good(pieces)
}

function describePieces(
  pieces: readonly Piece[],
  others: readonly string[],
  options: BoardImportOptions,
): Result<BoardImport> {
  const merged = mergePieces(pieces)
  if (merged.outline.length > MOST_EDGES)
    return bad({
      path: merged.from,
      found: say('an edge of {count} lines', { count: merged.outline.length }),
      expected: say('at most {mostEdges}', { mostEdges: MOST_EDGES }),
    })
  const untold = [...merged.untold]
  if (others.length > 0)
    untold.push(say("These files tell nothing of a board and weren't used: {others}.", { others: someOf(others) }))
  const layout = layoutFrom(merged, untold)
  const described = describeLayout(layout, { name: options.name, from: merged.from })
  return described.ok ? good({ ...described.value, untold: [...untold, ...described.value.untold] }) : described
}

/** The beginning of a file tells its format; the bytes come from the start again. */
async function tellFile({ name, bytes }: BoardDataFile): Promise<ToldFile> {
  const { ahead, whole } = await lookAhead(bytes, BEGINNING_BYTES)
  const beginning = await textOf(once(ahead), { name, mostBytes: Infinity })
  const format = beginning.ok ? boardFormatOf(beginning.value.slice(0, BEGINNING_BYTES)) : undefined
  return { name, bytes: whole, format }
}

async function* once(pieces: readonly Uint8Array[]): AsyncIterable<Uint8Array> {
  yield* pieces
}
