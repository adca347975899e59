/** The shelf that this browser can offer: in its database, else one that lasts as long as the page and says so. */
import type { CaseShelf } from './caseShelf.ts'
import { openDatabaseShelf } from './databaseShelf.ts'
import { type FileStore, fileStoreInMemory } from './fileStore.ts'
import { caseShelfInMemory } from './memoryShelf.ts'
import { noStorage } from './troubles.ts'

export function openShelf(): { readonly caseShelf: CaseShelf; readonly files: FileStore } {
  if (!hasDatabase()) return { caseShelf: { ...caseShelfInMemory(), notice: noStorage }, files: fileStoreInMemory() }
  const caseShelf = openDatabaseShelf()
  return { caseShelf, files: caseShelf.files }
}

/** Some browsers throw already when it is named, where a page may store nothing. */
function hasDatabase(): boolean {
  try {
    return typeof indexedDB !== 'undefined'
  } catch {
    return false
  }
}
