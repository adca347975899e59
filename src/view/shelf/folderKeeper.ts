/** Asks for a folder, and remembers it over restarts: in a small database of its own, apart from the shelf. */
import { type DBSchema, openDB } from 'idb'
import { type CopyFolder, copyFolderOf } from './copyFolder.ts'

export interface FolderKeeper {
  /** @returns undefined where the user chose none */
  readonly choose: () => Promise<CopyFolder | undefined>
  /** The folder that was chosen before this start. */
  readonly last: () => Promise<CopyFolder | undefined>
  readonly forget: () => Promise<void>
}

interface Tables extends DBSchema {
  folders: { key: string; value: FileSystemDirectoryHandle }
}

const KEY = 'copies'

/** @returns undefined where the browser offers no folders to a page */
export function folderKeeper(page: Window, name = 'liftmap folder'): FolderKeeper | undefined {
  if (page.showDirectoryPicker === undefined) return undefined
  const open = () => openDB<Tables>(name, 1, { upgrade: (database) => database.createObjectStore('folders') })
  return {
    choose: async () => {
      const folder = await pick(page)
      if (folder === undefined) return undefined
      await quietly(async () => (await open()).put('folders', folder, KEY))
      return copyFolderOf(folder)
    },
    last: async () => {
      const folder = await quietly(async () => (await open()).get('folders', KEY))
      return folder === undefined ? undefined : copyFolderOf(folder)
    },
    forget: () => quietly(async () => (await open()).delete('folders', KEY)),
  }
}

async function pick(page: Window): Promise<FileSystemDirectoryHandle | undefined> {
  try {
    return await page.showDirectoryPicker?.({ id: 'liftmap-copies', mode: 'readwrite' })
  } catch {
    return undefined // closed without a choice, or a folder that the browser keeps to itself
  }
}

/** A folder that can't be remembered is used until the page is closed, and asked for again then. */
async function quietly<T>(work: () => Promise<T>): Promise<T | undefined> {
  try {
    return await work()
  } catch {
    return undefined
  }
}
