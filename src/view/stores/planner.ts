/**
 * The worker that solves heat and plans: started at its first question, so that opening the app never waits for it.
 * A solve does not look up while it runs, so a cancelled one is ended with its worker; the next question starts another.
 */
import type { Result } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { abortError, createClient, type WorkerClient, type WorkerLike } from '../../workers/client.ts'
import { type Call, calls } from '../../workers/contract.ts'
import type { Progress } from '../../workers/envelope.ts'

export interface AskOptions {
  readonly signal: AbortSignal
  readonly onProgress: (progress: Progress) => void
}

export interface Planner {
  /** Asks about a board, which the worker opens first where it does not have it yet. */
  ask<Input, Output>(
    model: BoardModel,
    call: Call<Input, Result<Output>>,
    input: Input,
    options: AskOptions,
  ): Promise<Result<Output>>
  close(): void
}

export function createPlanner(startWorker: () => WorkerLike): Planner {
  let client: WorkerClient | undefined
  let opened: BoardModel | undefined
  const close = (): void => {
    client?.close()
    client = undefined
    opened = undefined
  }
  return {
    ask: async (model, call, input, { signal, onProgress }) => {
      if (signal.aborted) throw abortError()
      client ??= createClient(startWorker())
      const asked = client
      const end = (): void => {
        if (client === asked) close()
      }
      signal.addEventListener('abort', end, { once: true })
      try {
        if (opened !== model) {
          const answer = await asked.call(calls.openBoard, { description: model.description })
          if (!answer.ok) return answer
          opened = model
        }
        return await asked.call(call, input, { onProgress })
      } finally {
        signal.removeEventListener('abort', end)
      }
    },
    close,
  }
}
