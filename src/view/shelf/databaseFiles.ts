/** Photos and long reports in the browser's database. */
import { good } from '../../base/index.ts'
import type { Within } from './database.ts'
import type { FileStore } from './fileStore.ts'

export function databaseFiles(within: Within, now: () => number): FileStore {
  return {
    put: (id, bytes) =>
      within(async (database) => {
        const tx = database.transaction('files', 'readwrite', { durability: 'strict' })
        await Promise.all([tx.store.put({ id, bytes, putAt: now() }), tx.done])
        return good(undefined)
      }),
    get: async (id) => {
      const found = await within(async (database) => good(await database.get('files', id)))
      return found.ok ? found.value?.bytes : undefined
    },
  }
}
