/**
 * One zip file back to a case and its files, checked as strictly as a board: every fault at once, nothing half taken.
 * Refuses before unpacking: too much, too many, encrypted, 64-bit, several volumes, names that no case has.
 */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import { readCase } from '../read.ts'
import type { Case } from '../schema.ts'
import { pictureType } from '../image-head.ts'
import { CASE_ENTRY, FOLDERS, isReportPath, namedFiles, type NamedFile } from './names.ts'
import type { CaseFiles } from './pack.ts'
import { unpackEntry } from './unpack-entry.ts'
import { readZipDirectory, type ZipEntry } from './zip-directory.ts'

/** Of all entries together once unpacked: what a small machine stands, twice over. */
export const MAX_PACKED_BYTES = 400_000_000
const MAX_CASE_BYTES = 100_000_000
/** The case, 500 photos, 50 reports, two folders: as many as the schema takes. */
const MAX_ENTRIES = 553

export interface UnpackedCase {
  readonly caseFile: Case
  readonly files: CaseFiles
}

/**
 * The case with its files by key. Sizes and names are checked before anything is unpacked; after that all faults of
 * all files are told together.
 */
export function unpackCase(bytes: Uint8Array): Result<UnpackedCase> {
  const directory = readZipDirectory(bytes, MAX_ENTRIES)
  if (!directory.ok) return directory
  const entries = new Map(
    directory.value.filter(({ name }) => !FOLDERS.includes(name)).map((entry) => [entry.name, entry]),
  )
  const tooMuch = faultOfSize(directory.value)
  if (tooMuch !== undefined) return bad(tooMuch)
  const caseFile = readEntryAsCase(entries.get(CASE_ENTRY))
  if (!caseFile.ok) return caseFile
  const named = namedFiles(caseFile.value)
  const faults = [...faultsOfCase(caseFile.value), ...faultsOfNames(named, entries)]
  const files = new Map<string, Uint8Array>()
  for (const each of named) {
    const entry = entries.get(each.entry)
    if (entry === undefined) continue
    const file = readFile(each, entry)
    if (file.ok) files.set(each.key, file.value)
    else faults.push(...file.faults)
  }
  return faults.length > 0 ? bad(...faults) : good({ caseFile: caseFile.value, files })
}

function faultOfSize(entries: readonly ZipEntry[]): Fault | undefined {
  const total = entries.reduce((sum, entry) => sum + entry.bytes, 0)
  const caseBytes = entries.find(({ name }) => name === CASE_ENTRY)?.bytes ?? 0
  const [path, found, most] =
    caseBytes > MAX_CASE_BYTES ? [CASE_ENTRY, caseBytes, MAX_CASE_BYTES] : [say('the file'), total, MAX_PACKED_BYTES]
  return found <= most
    ? undefined
    : {
        path,
        found: say('{size} MB when unpacked', { size: Math.ceil(found / 1e6) }),
        expected: say('at most {most} MB', { most: most / 1e6 }),
      }
}

function readEntryAsCase(entry: ZipEntry | undefined): Result<Case> {
  if (entry === undefined) {
    return bad({
      path: CASE_ENTRY,
      found: say('no such entry'),
      expected: say('a packed case, which has it'),
      todo: say('If this is another kind of archive, unpack it and drop what is in it.'),
    })
  }
  const bytes = unpackEntry(entry)
  if (!bytes.ok) return bytes
  const read = readCase(new TextDecoder().decode(bytes.value), CASE_ENTRY)
  return read.ok ? read : bad(...read.faults.map((fault) => ({ ...fault, path: inCase(fault.path) })))
}

const inCase = (path: string): string => (path.startsWith('$') ? `${CASE_ENTRY} ${path}` : path)

function faultsOfCase({ board, reports, photos }: Case): Fault[] {
  const faults: Fault[] = []
  if (!('inline' in board)) {
    faults.push({ path: inCase('$.board'), found: say('a board beside the case'), expected: say('the board inside') })
  }
  for (const [i, { path }] of reports.entries()) {
    if (path === undefined || isReportPath(path)) continue
    faults.push({
      path: inCase(`$.reports[${i}].path`),
      found: path,
      expected: say('reports/….txt, or the text inside'),
    })
  }
  const ids = photos.map(({ id }) => id)
  for (const [i, id] of ids.entries()) {
    if (ids.indexOf(id) < i) {
      faults.push({
        path: inCase(`$.photos[${i}].id`),
        found: say('{id} a second time', { id }),
        expected: say('an id of its own'),
      })
    }
  }
  return faults
}

function faultsOfNames(named: readonly NamedFile[], entries: ReadonlyMap<string, ZipEntry>): Fault[] {
  const known = new Set([CASE_ENTRY, ...named.map(({ entry }) => entry)])
  const missing = named.filter(({ entry }) => !entries.has(entry))
  const unknown = [...entries.keys()].filter((name) => !known.has(name))
  return [
    ...missing.map(({ entry, path }) => ({
      path: inCase(path),
      found: say('no entry {entry}', { entry }),
      expected: say('its file in the zip'),
    })),
    ...unknown.map((name) => ({
      path: name,
      found: say('an entry that the case does not name'),
      expected: say('none'),
    })),
  ]
}

function readFile({ photo, path }: NamedFile, entry: ZipEntry): Result<Uint8Array> {
  if (photo !== undefined && entry.bytes !== photo.bytes) {
    return bad({
      path: inCase(`${path}.bytes`),
      found: `${photo.bytes}`,
      expected: say('{bytes}, as {name} has', { bytes: entry.bytes, name: entry.name }),
    })
  }
  const bytes = unpackEntry(entry)
  if (!bytes.ok || photo === undefined || pictureType(bytes.value) === photo.type) return bytes
  return bad({
    path: entry.name,
    found: say('bytes of another kind of file'),
    expected: say('a picture, {type}', { type: photo.type }),
  })
}
