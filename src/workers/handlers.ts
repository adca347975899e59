/** What each call of the contract does, with the cores; one board is kept between calls. */
import { bad, good, type Result, seededRandom, say } from '../base/index.ts'
import {
  type BoardDataFile,
  type BoardModel,
  importBoard,
  learnAddressMap,
  loadBoard,
  observationsOf,
  readBoard,
  readLabelledAddresses,
} from '../board/index.ts'
import { type Assessor, createAssessor, isZip, unpackFiles } from '../case/index.ts'
import { type KeptReading, previewReport, readReport, withReadings } from '../report/index.ts'
import { calls } from './contract.ts'
import { photoHandlers } from './photo-handlers.ts'
import { practiceHandlers } from './practice-handlers.ts'
import { reworkHandlers } from './rework-handlers.ts'
import { type Handler, handle } from './serve.ts'
import { shortHandler } from './short-handler.ts'
import { traceHandlers } from './trace-handlers.ts'

interface Kept {
  readonly model: BoardModel
  assessor: Assessor | undefined
}

/** Rows are drawn by it, so that the same rows give the same map. */
const LEARN_SEED = 1

const noBoard = bad({
  path: 'board',
  found: say('no board in the worker'),
  expected: say('an opened board'),
  todo: say('Open a board or a case first.'),
})

/**
 * The handlers of one worker. They share the board that was opened last; calls that need one are refused with a fault
 * until then.
 */
export function createHandlers(): Handler[] {
  let kept: Kept | undefined
  const keep = (model: Result<BoardModel>): Result<BoardModel> => {
    if (model.ok) kept = { model: model.value, assessor: undefined }
    return model
  }
  return [
    handle(calls.openBoard, ({ text, description }) =>
      keep(text === undefined ? loadBoard(description) : readBoard(text)),
    ),
    handle(calls.readAddresses, ({ text, names, label }) =>
      readLabelledAddresses(text, { names: new Set(names), label }),
    ),
    handle(calls.learnAddresses, ({ rows }) => good(learnAddressMap(observationsOf(rows), seededRandom(LEARN_SEED)))),
    handle(calls.importLayout, async ({ files }, { signal, onProgress }) => {
      const data = await dataFiles(files)
      if (!data.ok) return data
      const size = files.reduce((sum, { file }) => sum + file.size, 0)
      const share = (done: number) => onProgress({ share: Math.min(1, done / Math.max(1, size)), words: say('read') })
      const name = boardName(files[0]?.name ?? '')
      const imported = await importBoard(data.value, { name, signal, onProgress: share })
      if (!imported.ok) return imported
      const model = keep(loadBoard(imported.value.description))
      return model.ok ? good({ model: model.value, untold: imported.value.untold }) : model
    }),
    handle(calls.previewReport, ({ file, recipe, words }, { signal }) =>
      previewReport(bytesOf(file), {
        signal,
        ...(kept === undefined ? {} : { model: withWords(kept.model, words) }),
        ...(recipe === undefined ? {} : { recipe }),
      }),
    ),
    handle(calls.readReport, async ({ file, recipe, words, mayBeClean }, { signal, onProgress }) => {
      if (kept === undefined) return noBoard
      return readReport(bytesOf(file), {
        mayCompile: true,
        model: withWords(kept.model, words),
        signal,
        mayBeClean,
        sizeBytes: file.size,
        onProgress: (bytes) => onProgress({ share: Math.min(1, bytes / Math.max(1, file.size)), words: say('read') }),
        ...(recipe === undefined ? {} : { recipe }),
      })
    }),
    handle(calls.assess, (entered) => {
      if (kept === undefined) return noBoard
      kept.assessor ??= createAssessor(kept.model)
      return good(kept.assessor.assess({ ...entered, tally: entered.tally, assumptions: entered.assumptions }))
    }),
    handle(calls.nextSteps, (entered) => {
      if (kept === undefined) return noBoard
      kept.assessor ??= createAssessor(kept.model)
      return good(kept.assessor.nextSteps({ ...entered, tally: entered.tally, assumptions: entered.assumptions }))
    }),
    ...reworkHandlers(() => kept?.model),
    shortHandler(() => kept?.model),
    ...photoHandlers(),
    ...traceHandlers(),
    ...practiceHandlers(() => kept?.model),
  ]
}

/** What is told of reports changes while the board stays open: nothing else of it is made anew. */
const withWords = (model: BoardModel, words: readonly KeptReading[] | undefined): BoardModel =>
  words === undefined ? model : { ...model, description: withReadings(model.description, words) }

/** The files, and in the place of a zip file what it holds. */
async function dataFiles(
  files: readonly { readonly file: Blob; readonly name: string }[],
): Promise<Result<BoardDataFile[]>> {
  const data: BoardDataFile[] = []
  for (const { file, name } of files) {
    const head = new Uint8Array(await file.slice(0, 4).arrayBuffer())
    if (!isZip(head)) {
      data.push({ name, bytes: bytesOf(file) })
      continue
    }
    const unpacked = unpackFiles(new Uint8Array(await file.arrayBuffer()))
    if (!unpacked.ok) return bad(...unpacked.faults.map((fault) => ({ ...fault, path: `${name}, ${fault.path}` })))
    data.push(...unpacked.value.map((entry) => ({ name: entry.name, bytes: once(entry.bytes) })))
  }
  return good(data)
}

async function* once(bytes: Uint8Array): AsyncIterable<Uint8Array> {
  yield bytes
}

/** The bytes of a file in pieces, as they are read. */
async function* bytesOf(file: Blob): AsyncIterable<Uint8Array> {
  const reader = file.stream().getReader()
  try {
    for (;;) {
      const { done, value } = await reader.read()
      if (done) return
      yield value
    }
  } finally {
    await reader.cancel()
  }
}

/** A board is called like its file, without the ending. */
const boardName = (fileName: string): string => fileName.replace(/\.[^.]*$/, '').slice(0, 120) || 'board'
