/**
 * A zip file that holds no case but files of a board. Refuses before unpacking: too much, too many, and all that a packed case
 * is refused for.
 */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import { CASE_ENTRY } from './names.ts'
import { unpackEntry } from './unpack-entry.ts'
import { MAX_PACKED_BYTES } from './unpack.ts'
import { readZipDirectory } from './zip-directory.ts'

const MAX_ENTRIES = 200

export interface PackedFile {
  /** With its folders, as the zip file has it. */
  readonly name: string
  readonly bytes: Uint8Array
}

/** Whether a zip file says that it is a packed case; one that can't be listed may be. */
export function holdsCase(bytes: Uint8Array): boolean {
  const directory = readZipDirectory(bytes, Infinity)
  return !directory.ok || directory.value.some(({ name }) => name === CASE_ENTRY)
}

/** All files of a zip file, folders and what systems add left out; all faults of all files together. */
export function unpackFiles(bytes: Uint8Array): Result<readonly PackedFile[]> {
  const directory = readZipDirectory(bytes, MAX_ENTRIES)
  if (!directory.ok) return directory
  const entries = directory.value.filter(({ name }) => !name.endsWith('/') && !/(^|\/)(__MACOSX\/|\.)/.test(name))
  const total = entries.reduce((sum, entry) => sum + entry.bytes, 0)
  if (total > MAX_PACKED_BYTES)
    return bad({
      path: 'the file',
      found: say('{size} MB when unpacked', { size: Math.ceil(total / 1e6) }),
      expected: say('at most {most} MB', { most: MAX_PACKED_BYTES / 1e6 }),
    })
  const faults: Fault[] = []
  const files = entries.flatMap((entry): PackedFile[] => {
    const unpacked = unpackEntry(entry)
    if (unpacked.ok) return [{ name: entry.name, bytes: unpacked.value }]
    faults.push(...unpacked.faults)
    return []
  })
  return faults.length > 0 ? bad(...faults) : good(files)
}
