/** A folder that the user chose for copies: one file a case. What the folder refuses becomes a fault. */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import { isNoRoom } from './troubles.ts'

/** `prompt`: the browser wants to ask the user again. */
export type MayWrite = PermissionState

export interface CopyFolder {
  readonly name: string
  readonly mayWrite: () => Promise<MayWrite>
  /** Only in answer to a press of the user. */
  readonly askToWrite: () => Promise<MayWrite>
  /** Puts a file in place of the last one of that case, whatever that was called. `not-allowed`: the browser took the permission back. */
  readonly put: (file: CopyFile) => Promise<Result<'written' | 'not-allowed'>>
}

export interface CopyFile {
  /** Of the case. */
  readonly id: string
  /** Without what tells the case from others: `0417.case.json`. */
  readonly name: string
  readonly bytes: Blob
}

const WRITING = { mode: 'readwrite' } as const

export function copyFolderOf(folder: FileSystemDirectoryHandle): CopyFolder {
  /** File names as they were last written here, by case. */
  const names = new Map<string, string>()
  return {
    name: folder.name,
    mayWrite: async () => (await folder.queryPermission?.(WRITING)) ?? 'granted',
    askToWrite: async () => (await folder.requestPermission?.(WRITING)) ?? 'granted',
    put: async ({ id, name, bytes }) => {
      const fileName = copyName(id, name)
      try {
        await write(folder, fileName, bytes)
        if (names.get(id) !== fileName) await removeOthers(folder, id, fileName)
        names.set(id, fileName)
        return good('written')
      } catch (reason) {
        if (reason instanceof DOMException && reason.name === 'NotAllowedError') return good('not-allowed')
        return bad(faultOfFolder(folder.name, reason))
      }
    },
  }
}

/** The beginning of its id keeps cases with one name apart, and finds the last copy of a case that was renamed. */
const markOf = (id: string): string => `-${id.slice(0, 8)}.case.`

/** As in `0417-1b9d6bcd.case.json`. */
const copyName = (id: string, name: string): string => name.replace('.case.', markOf(id))

/** The browser writes beside the file and changes it over at the end: a copy is never half. */
async function write(folder: FileSystemDirectoryHandle, fileName: string, bytes: Blob): Promise<void> {
  const file = await folder.getFileHandle(fileName, { create: true })
  const stream = await file.createWritable()
  await stream.write(bytes)
  await stream.close()
}

async function removeOthers(folder: FileSystemDirectoryHandle, id: string, fileName: string): Promise<void> {
  const others: string[] = []
  for await (const name of folder.keys()) if (name !== fileName && name.includes(markOf(id))) others.push(name)
  for (const name of others) await folder.removeEntry(name)
}

function faultOfFolder(name: string, reason: unknown): Fault {
  const path = say('the folder “{name}”', { name })
  if (isNoRoom(reason))
    return {
      path,
      found: say('no room left where the folder “{name}” lies', { name }),
      expected: say('room for the copies'),
      todo: say('Make room there, or choose another folder.'),
    }
  if (reason instanceof DOMException && reason.name === 'NotFoundError')
    return {
      path,
      found: say('the folder “{name}” is not there any more', { name }),
      expected: say('a folder to write to'),
      todo: say('Plug its disk in again, or choose another folder.'),
    }
  const found =
    reason instanceof Error || reason instanceof DOMException
      ? `${reason.name}: ${reason.message}`.slice(0, 300)
      : String(reason)
  return {
    path,
    found: say('the folder “{name}” refused a copy ({found})', { name, found }),
    expected: say('a folder to write to'),
    todo: say('Choose another folder.'),
  }
}
