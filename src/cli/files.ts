/** Board and case files from the command line, whatever kind of board file it is. */
import { bad, good, type Result, lookAhead, say } from '../base/index.ts'
import {
  type BoardDataFile,
  type BoardDescription,
  type BoardModel,
  boardRemarks,
  importBoard,
  loadBoard,
  readBoard,
} from '../board/index.ts'
import {
  type Assessment,
  type Assessor,
  createAssessor,
  enteredOf,
  type OpenedCase,
  openCase,
  readCase,
  type FileKind,
  fileKindOf,
  fileKinds,
  HEAD_BYTES,
  holdsCase,
  unpackCase,
  unpackFiles,
} from '../case/index.ts'
import { besides, type Io, readBytes } from './io.ts'

export interface BoardFile {
  readonly description: BoardDescription
  readonly model: BoardModel
  readonly untold: readonly string[]
}

/** Reads a board description, or a layout file that becomes one. */
export async function openBoardFile(io: Io, path: string): Promise<Result<BoardFile>> {
  const bytes = await io.open(path)
  if (!bytes.ok) return bytes
  const { head, whole } = await peek(bytes.value)
  return BOARD_OPENERS[fileKindOf(head)](whole, path)
}

type BoardOpener = (bytes: AsyncIterable<Uint8Array>, path: string) => Promise<Result<BoardFile>>

const refused =
  (kind: FileKind): BoardOpener =>
  async (_, path) =>
    bad({
      path,
      found: fileKinds[kind].words,
      expected: say('a board description, a .kicad_pcb layout or data files of a board'),
    })

/** What a board can come in: a layout or other data of a board, or text whose faults say what it is not. */
const BOARD_OPENERS: Readonly<Record<FileKind, BoardOpener>> = {
  layout: openData,
  ipc2581: openData,
  drill: openData,
  gerber: openData,
  netlist: openData,
  placements: openData,
  zip: openData,
  board: openDescription,
  report: openDescription,
  case: openDescription,
  empty: openDescription,
  counts: refused('counts'),
  words: refused('words'),
  picture: refused('picture'),
  binary: refused('binary'),
}

/** Several files of one board: its edge may be in one, its parts in another and its nets in a third. */
export async function openBoardFiles(io: Io, paths: readonly string[]): Promise<Result<BoardFile>> {
  const [only, ...more] = paths
  if (only !== undefined && more.length === 0) return openBoardFile(io, only)
  const files: BoardDataFile[] = []
  const faults = []
  for (const path of paths) {
    const bytes = await io.open(path)
    const own = bytes.ok ? await dataFiles(bytes.value, path) : bytes
    if (own.ok) files.push(...own.value)
    else faults.push(...own.faults)
  }
  return faults.length > 0 ? bad(...faults) : boardOf(files, baseName(only ?? ''))
}

async function openData(bytes: AsyncIterable<Uint8Array>, path: string): Promise<Result<BoardFile>> {
  const files = await dataFiles(bytes, path)
  return files.ok ? boardOf(files.value, baseName(path)) : files
}

/** The file, or what a zip file holds. */
async function dataFiles(bytes: AsyncIterable<Uint8Array>, path: string): Promise<Result<BoardDataFile[]>> {
  const { head, whole } = await peek(bytes)
  if (fileKindOf(head) !== 'zip') return good([{ name: fileName(path), bytes: whole }])
  const packed = await allOf(whole, path)
  if (!packed.ok) return packed
  if (holdsCase(packed.value))
    return bad({
      path,
      found: say('a packed case'),
      expected: say('files of a board'),
      todo: say('Take a verb that takes a case.'),
    })
  const unpacked = unpackFiles(packed.value)
  if (!unpacked.ok) return bad(...unpacked.faults.map((fault) => ({ ...fault, path: `${path}, ${fault.path}` })))
  return good(unpacked.value.map(({ name, bytes: own }) => ({ name, bytes: once(own) })))
}

async function allOf(bytes: AsyncIterable<Uint8Array>, path: string): Promise<Result<Uint8Array>> {
  const { mostBytes } = fileKinds.zip
  const pieces: Uint8Array[] = []
  let length = 0
  for await (const piece of bytes) {
    length += piece.length
    if (length > mostBytes)
      return bad({
        path,
        found: say('more'),
        expected: say('a zip file of at most {mostBytes} MB', { mostBytes: mostBytes / 1e6 }),
      })
    pieces.push(piece)
  }
  return good(Buffer.concat(pieces))
}

async function boardOf(files: readonly BoardDataFile[], name: string): Promise<Result<BoardFile>> {
  const imported = await importBoard(files, { name })
  if (!imported.ok) return imported
  const { description, untold } = imported.value
  const model = loadBoard(description)
  if (!model.ok) return model
  return good({ description, model: model.value, untold: [...untold, ...boardRemarks(model.value)] })
}

async function openDescription(bytes: AsyncIterable<Uint8Array>): Promise<Result<BoardFile>> {
  const decoder = new TextDecoder()
  let text = ''
  for await (const chunk of bytes) text += decoder.decode(chunk, { stream: true })
  const model = readBoard(text + decoder.decode())
  return model.ok
    ? good({ description: model.value.description, model: model.value, untold: boardRemarks(model.value) })
    : model
}

/** So much of the beginning as tells what it is, and the bytes from the start again. */
async function peek(
  bytes: AsyncIterable<Uint8Array>,
): Promise<{ readonly head: Uint8Array; readonly whole: AsyncIterable<Uint8Array> }> {
  const { ahead, whole } = await lookAhead(bytes, HEAD_BYTES)
  return { head: Buffer.concat(ahead).subarray(0, HEAD_BYTES), whole }
}

const fileName = (path: string): string => path.split(/[\\/]/).pop() ?? path
const baseName = (path: string): string => fileName(path).replace(/\.[^.]+$/, '')

/** Reads a case with its board and reports, which it names relative to itself; or a packed one, which holds them. */
export async function openCaseFile(io: Io, path: string): Promise<Result<OpenedCase>> {
  const bytes = await readBytes(io, path)
  if (!bytes.ok) return bytes
  const opened =
    fileKindOf(bytes.value.subarray(0, HEAD_BYTES)) === 'zip'
      ? await openPackedCase(bytes.value, path)
      : await openPlainCase(io, bytes.value, path)
  if (opened.ok)
    for (const { report, sentences } of opened.value.changed)
      io.err(
        say('{report} is read otherwise than when the case was kept. {sentences}\n', {
          report,
          sentences: sentences.join(' '),
        }),
      )
  return opened
}

async function openPlainCase(io: Io, bytes: Uint8Array, path: string): Promise<Result<OpenedCase>> {
  const caseFile = readCase(new TextDecoder().decode(bytes), path)
  return caseFile.ok ? openCase(caseFile.value, (named) => io.openNamed(besides(path, named))) : caseFile
}

async function openPackedCase(bytes: Uint8Array, path: string): Promise<Result<OpenedCase>> {
  const unpacked = unpackCase(bytes)
  if (!unpacked.ok) return bad(...unpacked.faults.map((fault) => ({ ...fault, path: `${path}, ${fault.path}` })))
  const { caseFile, files } = unpacked.value
  return openCase(caseFile, async (named) => {
    const file = files.get(named)
    return file === undefined
      ? bad({ path: named, found: say('no such file'), expected: say('a file in the case') })
      : good(once(file))
  })
}

async function* once(bytes: Uint8Array): AsyncIterable<Uint8Array> {
  yield bytes
}

export interface AssessedCase extends OpenedCase {
  readonly assessment: Assessment
  /** Keeps what was computed for the board, for further questions. */
  readonly assessor: Assessor
}

/** A case read, opened and assessed; a mark that can't be computed is a fault here, as nobody could correct it meanwhile. */
export async function assessCaseFile(io: Io, path: string): Promise<Result<AssessedCase>> {
  const opened = await openCaseFile(io, path)
  if (!opened.ok) return opened
  const assessor = createAssessor(opened.value.model)
  const assessment = assessor.assess(enteredOf(opened.value))
  return assessment.faults.length > 0 ? bad(...assessment.faults) : good({ ...opened.value, assessment, assessor })
}
