/** The case on the desk as one file that any other Liftmap opens, and such a file back on the desk. */
import { bad, good, type Point, type Result, say } from '../../base/index.ts'
import { type Case, isReportPath, namedFiles, reportPath, unpackCase, withFreshNames } from '../../case/index.ts'
import { randomId } from '../shelf/memoryShelf.ts'
import { descriptionOf } from '../stores/boardWords.ts'
import type { Desk } from '../stores/desk.ts'
import { type CaseFile, fileOfCase, holding, jsonOf } from './caseFile.ts'
import { sayFaults, saySettled } from './messages.ts'
import { settle } from './ledger.ts'
import { openCase } from './open.ts'

/** Longer reports go beside the case, in the same zip file. */
const MAX_TEXT_BYTES = 19_000_000

export interface ExportedCase extends CaseFile {
  /** Photos and reports whose bytes are not on this machine: they are not in the file. */
  readonly leftOut: readonly string[]
}

interface WithFiles {
  readonly caseFile: Case
  readonly files: ReadonlyMap<string, Blob>
  readonly leftOut: readonly string[]
}

/** Plain JSON where nothing lies beside the case, else a zip file with photos and long reports. */
export async function exportCase(desk: Desk): Promise<Result<ExportedCase>> {
  // as it is now: what is entered while files are read is not in the file
  const exported = desk.cases.getState().history?.present
  const whole = await caseWithFiles(desk)
  if (!whole.ok) return whole
  const { caseFile, files, leftOut } = whole.value
  const file = await fileOfCase(caseFile, files)
  if (!file.ok) return file
  desk.cases.setState({ saved: exported })
  return good({ ...file.value, leftOut })
}

/** The case as JSON text, without its photos. */
export async function caseToSave(desk: Desk): Promise<Result<string>> {
  const whole = await caseWithFiles(desk)
  return whole.ok ? good(jsonOf(whole.value.caseFile)) : whole
}

/** The board goes inside, report texts too unless they are long; what names a file that is not here is left out and told. */
async function caseWithFiles(desk: Desk): Promise<Result<WithFiles>> {
  const { history, board } = desk.cases.getState()
  if (history === undefined || board === undefined) {
    return bad({ path: 'case', found: say('no case on the desk'), expected: say('an open case') })
  }
  const files = new Map<string, Blob>()
  const reports: Case['reports'] = []
  for (const report of history.present.reports) reports.push(await reportToExport(desk, report, files))
  const whole: Case = { ...history.present, board: { inline: descriptionOf(history.present, board.model) }, reports }
  for (const { key, photo } of namedFiles(whole)) {
    const bytes = photo === undefined ? undefined : await desk.files.get(key)
    if (bytes !== undefined) files.set(key, bytes)
  }
  return good({ ...holding(whole, files), files })
}

async function reportToExport(
  desk: Desk,
  report: Case['reports'][number],
  files: Map<string, Blob>,
): Promise<Case['reports'][number]> {
  const reading = desk.readings.getState().byId.get(report.id)
  const recipe = reading?.readWith ?? report.recipe
  const entry = recipe === undefined ? report : { ...report, recipe }
  if (entry.path === undefined) return entry
  const kept = isReportPath(entry.path) ? await desk.files.get(entry.path) : undefined
  const source = kept ?? (reading?.state === 'failed' ? undefined : reading?.source)
  if (source === undefined) return entry
  const { path, ...apart } = entry
  if (source.size <= MAX_TEXT_BYTES) return { ...apart, text: await source.text() }
  const beside = isReportPath(path) ? path : reportPath(randomId())
  files.set(beside, source)
  return { ...apart, path: beside }
}

/** A packed case becomes a new case with files of its own: importing twice gives two, and nothing is overwritten. */
export async function openCaseZip(desk: Desk, file: File, at: Point): Promise<void> {
  const unpacked = unpackCase(new Uint8Array(await file.arrayBuffer()))
  if (!unpacked.ok) return sayFaults(desk, at, say('{name} was not opened', { name: file.name }), unpacked.faults)
  const { caseFile, files } = withFreshNames(unpacked.value, randomId)
  for (const { key, photo } of namedFiles(caseFile)) {
    const bytes = new Blob([new Uint8Array(files.get(key) ?? [])], { type: photo?.type ?? 'text/plain' })
    const kept = await desk.files.put(key, bytes)
    if (!kept.ok) return sayFaults(desk, at, say('{name} was not opened', { name: file.name }), kept.faults)
  }
  await openCase(desk, caseFile, file.name, at)
}

/** Hands the case over as a download, and says what could not be in it. */
export async function downloadCase(desk: Desk, at: Point): Promise<void> {
  const { id } = desk.cases.getState()
  const exported = await exportCase(desk)
  if (!exported.ok) return sayFaults(desk, at, say('The case was not exported'), exported.faults)
  const { name, bytes, leftOut } = exported.value
  const address = URL.createObjectURL(bytes)
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  if (id !== undefined) settle(desk, id)
  // a large file is still being read when the click returns
  setTimeout(() => URL.revokeObjectURL(address), KEEP_ADDRESS_MS)
  if (leftOut.length > 0)
    saySettled(desk, at, say('{name} is without these, which are not on this machine:', { name }), leftOut)
}

const KEEP_ADDRESS_MS = 60_000
