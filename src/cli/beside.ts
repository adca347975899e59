/** A second thread for one long report: it reads the later part while the first reads the beginning. */
import { availableParallelism } from 'node:os'
import { Worker } from 'node:worker_threads'
import { z } from 'zod'
import type { Result } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import { type Beside, LEAST_BYTES_IN_SLICES, type Slice } from '../report/index.ts'

/** What the first reads until the thread has started, about 0.35 s: its modules are loaded anew. */
const STARTS_AFTER_BYTES = 110_000_000

/** Our own thread's answer: that it is a `Result` is checked, its inside is typed by the core that made it. */
const answerSchema = z.custom<Result<Slice>>((value) => typeof value === 'object' && value !== null && 'ok' in value)

/** @returns undefined for a file that is too short for it, and on a machine with one core */
export function besideThread(path: string, sizeBytes: number | undefined, model: BoardModel): Beside | undefined {
  if (sizeBytes === undefined || sizeBytes < LEAST_BYTES_IN_SLICES + STARTS_AFTER_BYTES) return undefined
  if (availableParallelism() < 2) return undefined
  return {
    startsAfterBytes: STARTS_AFTER_BYTES,
    read: ({ recipe, fromByte }) =>
      new Promise((resolve, reject) => {
        const workerData = { path, description: model.description, recipe, fromByte }
        const thread = new Worker(new URL('./slice-thread.ts', import.meta.url), { workerData })
        thread.once('message', (answer: unknown) => resolve(answerSchema.parse(answer)))
        thread.once('error', reject)
        thread.once('exit', () => reject(new Error('the thread ended without an answer')))
      }),
  }
}
