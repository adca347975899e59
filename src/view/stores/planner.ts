/**
 * The worker that solves heat and plans: started at its first question, so that opening the app never waits for it.
 * A solve does not look up while it runs, so a cancelled one is ended with its worker; the next question starts another.
 * Other questions that the ended worker had are asked again.
 */
import type { Result } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { abortError, isAbort, type WorkerClient, type WorkerLike } from '../../workers/client.ts'
import { type Call, calls } from '../../workers/contract.ts'
import type { Progress } from '../../workers/envelope.ts'
import { createSteadyClient } from '../../workers/steady.ts'

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
  let closed = false
  const endWorker = (): void => {
    client?.close()
    client = undefined
    opened = undefined
  }
  const ask: Planner['ask'] = async (model, call, input, { signal, onProgress }) => {
    if (signal.aborted || closed) throw abortError()
    client ??= createSteadyClient(startWorker)
    const asked = client
    const end = (): void => {
      if (client === asked) endWorker()
    }
    signal.addEventListener('abort', end, { once: true })
    try {
      if (opened !== model) {
        const answer = await asked.call(calls.openBoard, { description: model.description })
        if (!answer.ok) return answer
        if (client === asked) opened = model
      }
      return await asked.call(call, input, { onProgress })
    } catch (reason) {
      const endedForAnother = isAbort(reason) && !signal.aborted && client !== asked
      if (!endedForAnother) throw reason
    } finally {
      signal.removeEventListener('abort', end)
    }
    return ask(model, call, input, { signal, onProgress })
  }
  return {
    ask,
    close: () => {
      closed = true
      endWorker()
    },
  }
}
