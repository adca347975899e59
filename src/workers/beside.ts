/** A second worker for one long report: it reads the later part while the first reads the beginning. */
import type { BoardDescription } from '../board/index.ts'
import type { Beside } from '../report/index.ts'
import { createClient, type WorkerLike } from './client.ts'
import { calls } from './contract.ts'

/** What the first reads until the second has started, about 0.15 s. */
const STARTS_AFTER_BYTES = 50_000_000

/** @returns undefined where no second worker can be started */
export function besideReader(
  start: (() => WorkerLike) | undefined,
  file: Blob,
  description: BoardDescription,
  signal: AbortSignal,
): Beside | undefined {
  if (start === undefined) return undefined
  return {
    startsAfterBytes: STARTS_AFTER_BYTES,
    read: async ({ recipe, fromByte, onProgress }) => {
      const client = createClient(start())
      try {
        return await client.call(
          calls.readSlice,
          { file, description, recipe, fromByte },
          { signal, onProgress: ({ share = 0 }) => onProgress(share * file.size) },
        )
      } finally {
        client.close()
      }
    },
  }
}
