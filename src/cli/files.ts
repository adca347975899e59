/** Board and case files from the command line, whatever kind of board file it is. */
import { bad, good, type Result } from '../base/index.ts'
import {
  type BoardDescription,
  type BoardModel,
  boardRemarks,
  importKicad,
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
  isZip,
  unpackCase,
} from '../case/index.ts'
import { besides, type Io, readBytes } from './io.ts'

export interface BoardFile {
  readonly description: BoardDescription
  readonly model: BoardModel
  readonly untold: readonly string[]
}

/** Reads a board description, or a layout file (told by its first character) that becomes one. */
export async function openBoardFile(io: Io, path: string): Promise<Result<BoardFile>> {
  const bytes = await io.open(path)
  if (!bytes.ok) return bytes
  const { first, whole } = await peek(bytes.value)
  if (first === '(') {
    const imported = await importKicad(whole, { name: baseName(path) })
    if (!imported.ok) return imported
    const model = loadBoard(imported.value.description)
    if (!model.ok) return model
    return good({
      description: imported.value.description,
      model: model.value,
      untold: [...imported.value.untold, ...boardRemarks(model.value)],
    })
  }
  const decoder = new TextDecoder()
  let text = ''
  for await (const chunk of whole) text += decoder.decode(chunk, { stream: true })
  const model = readBoard(text + decoder.decode())
  return model.ok
    ? good({ description: model.value.description, model: model.value, untold: boardRemarks(model.value) })
    : model
}

/** The first character that is no white space, and the bytes from the start again. */
async function peek(bytes: AsyncIterable<Uint8Array>): Promise<{ first: string; whole: AsyncIterable<Uint8Array> }> {
  const iterator = bytes[Symbol.asyncIterator]()
  const ahead: Uint8Array[] = []
  let first = ''
  while (first === '') {
    const step = await iterator.next()
    if (step.done === true) break
    ahead.push(step.value)
    first = new TextDecoder()
      .decode(step.value)
      .replace(/^\ufeff/, '')
      .trimStart()
      .slice(0, 1)
  }
  async function* again(): AsyncIterable<Uint8Array> {
    yield* ahead
    while (true) {
      const step = await iterator.next()
      if (step.done === true) return
      yield step.value
    }
  }
  return { first, whole: again() }
}

const baseName = (path: string): string => (path.split(/[\\/]/).pop() ?? path).replace(/\.[^.]+$/, '')

/** Reads a case with its board and reports, which it names relative to itself; or a packed one, which holds them. */
export async function openCaseFile(io: Io, path: string): Promise<Result<OpenedCase>> {
  const bytes = await readBytes(io, path)
  if (!bytes.ok) return bytes
  const opened = isZip(bytes.value)
    ? await openPackedCase(bytes.value, path)
    : await openPlainCase(io, bytes.value, path)
  if (opened.ok)
    for (const { report, sentences } of opened.value.changed)
      io.err(`${report} is read otherwise than when the case was kept. ${sentences.join(' ')}\n`)
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
      ? bad({ path: named, found: 'no such file', expected: 'a file in the case' })
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
