/** Where the bytes of photos and long reports are kept, apart from the cases that name them. */
import { good, type Result } from '../../base/index.ts'

export interface FileStore {
  readonly put: (id: string, bytes: Blob) => Promise<Result<undefined>>
  readonly get: (id: string) => Promise<Blob | undefined>
}

/** Keeps files for as long as the page is open. */
export function fileStoreInMemory(): FileStore {
  const files = new Map<string, Blob>()
  return {
    put: async (id, bytes) => {
      files.set(id, bytes)
      return good(undefined)
    },
    get: async (id) => files.get(id),
  }
}
