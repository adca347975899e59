/** A case with all its files as one zip file. */
import { zipSync, type Zippable } from 'fflate'
import { bad, good, type Result, say } from '../../base/index.ts'
import type { Case } from '../schema.ts'
import { CASE_ENTRY, isReportPath, namedFiles } from './names.ts'
import { MAX_PACKED_BYTES } from './unpack.ts'

/** Bytes by a photo's id or the path of a long report. */
export type CaseFiles = ReadonlyMap<string, Uint8Array>

/** Nothing in the file depends on the clock: the earliest time that zip files can tell. */
const NO_TIME = '1980-01-01T12:00:00'

/**
 * @param caseFile with its board inside
 * @returns the zip file; or a fault for a board that is not inside, for each file that is missing or not as the case says,
 * and for too many bytes
 */
export function packCase(caseFile: Case, files: CaseFiles): Result<Uint8Array> {
  const named = namedFiles(caseFile)
  const faults = named.flatMap(({ key, path, photo }) => {
    const bytes = files.get(key)
    if (photo === undefined && !isReportPath(key))
      return [{ path, found: key, expected: say('a report that is kept here') }]
    if (bytes === undefined)
      return [{ path, found: say('no file'), expected: say('the file of {name}', { name: photo?.name ?? key }) }]
    if (photo === undefined || bytes.length === photo.bytes) return []
    return [
      {
        path: `${path}.bytes`,
        found: `${photo.bytes}`,
        expected: say('{bytes}, as the file has', { bytes: bytes.length }),
      },
    ]
  })
  if (!('inline' in caseFile.board)) {
    faults.push({ path: '$.board', found: say('a board beside the case'), expected: say('the board inside') })
  }
  const total = [...files.values()].reduce((sum, bytes) => sum + bytes.length, 0)
  if (total > MAX_PACKED_BYTES) {
    const mostMb = MAX_PACKED_BYTES / 1e6
    faults.push({
      path: '$',
      found: say('{size} MB of files', { size: Math.ceil(total / 1e6) }),
      expected: say('at most {most} MB', { most: mostMb }),
    })
  }
  if (faults.length > 0) return bad(...faults)
  const text = `${JSON.stringify(caseFile, undefined, 2)}\n`
  const content: Zippable = { [CASE_ENTRY]: new TextEncoder().encode(text) }
  for (const { key, entry, photo } of named) {
    // photos are packed in themselves
    content[entry] = [files.get(key) ?? new Uint8Array(), { level: photo === undefined ? 6 : 0 }]
  }
  return good(zipSync(content, { level: 6, mtime: NO_TIME }))
}
