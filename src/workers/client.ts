/** The screen's end of a worker: typed calls with progress and cancel; every promise settles, an aborted one too. */
import { say } from '../base/index.ts'
import type { Call } from './contract.ts'
import { type Progress, replySchema, type Request } from './envelope.ts'

/** What the client needs of a worker; a `MessagePort` serves as well, in tests. */
export interface WorkerLike {
  postMessage(message: unknown, transfer: Transferable[]): void
  addEventListener(type: 'message' | 'error' | 'messageerror', listener: (event: Event) => void): void
  terminate?(): void
}

export interface CallOptions {
  readonly signal?: AbortSignal
  readonly onProgress?: (progress: Progress) => void
  /** Buffers to hand over instead of copying. */
  readonly transfer?: Transferable[]
}

export interface WorkerClient {
  /** Rejects with an `AbortError` when aborted, with an `Error` when the worker fails; it never stays pending then. */
  call<Input, Output>(call: Call<Input, Output>, input: Input, options?: CallOptions): Promise<Output>
  close(): void
}

interface Pending {
  settle(value: unknown): void
  fail(reason: Error): void
  readonly onProgress: ((progress: Progress) => void) | undefined
}

/** What a cancelled call rejects with. */
export const abortError = (): DOMException => new DOMException('Cancelled', 'AbortError')

/** Whether a call was cancelled rather than failed. */
export const isAbort = (reason: unknown): boolean => reason instanceof DOMException && reason.name === 'AbortError'

/** The worker itself failed, and whatever it had is lost; a question that it answered with a fault is none. */
export class WorkerStopped extends Error {}

/**
 * Speaks to one worker, which may answer calls in any order. When the worker fails, every call that waits rejects
 * with `WorkerStopped`, and so does every later one; an aborted call rejects at once and tells the worker.
 */
export function createClient(worker: WorkerLike): WorkerClient {
  const pending = new Map<number, Pending>()
  let nextId = 1
  let broken: Error | undefined

  worker.addEventListener('message', (event) => {
    if (event instanceof MessageEvent) receive(pending, event.data)
  })
  const breakDown = (event: Event): void => {
    const told = 'message' in event && typeof event.message === 'string' ? event.message : ''
    const detail = told === '' ? say('it could not be started or read') : told
    broken = new WorkerStopped(say('The worker stopped: {detail}', { detail }))
    for (const call of pending.values()) call.fail(broken)
    pending.clear()
  }
  worker.addEventListener('error', breakDown)
  worker.addEventListener('messageerror', breakDown)

  return {
    call: (call, input, options = {}) =>
      new Promise((resolve, reject) => {
        if (broken !== undefined) return reject(broken)
        if (options.signal?.aborted === true) return reject(abortError())
        const id = nextId++
        const cancel = (): void => {
          pending.delete(id)
          post(worker, { kind: 'cancel', id })
          reject(abortError())
        }
        const finish = (): void => options.signal?.removeEventListener('abort', cancel)
        pending.set(id, {
          onProgress: options.onProgress,
          settle: (value) => {
            finish()
            const parsed = call.gives.safeParse(value)
            if (parsed.success) resolve(parsed.data)
            else reject(new Error(`${call.name} gave something unexpected`))
          },
          fail: (reason) => {
            finish()
            reject(reason)
          },
        })
        options.signal?.addEventListener('abort', cancel, { once: true })
        post(worker, { kind: 'call', id, name: call.name, input }, options.transfer)
      }),
    close: () => {
      worker.terminate?.()
      broken = abortError()
      for (const call of pending.values()) call.fail(broken)
      pending.clear()
    },
  }
}

const post = (worker: WorkerLike, request: Request, transfer: Transferable[] = []): void =>
  worker.postMessage(request, transfer)

function receive(pending: Map<number, Pending>, data: unknown): void {
  const parsed = replySchema.safeParse(data)
  if (!parsed.success) return
  const reply = parsed.data
  const call = pending.get(reply.id)
  if (call === undefined) return
  if (reply.kind === 'progress') return call.onProgress?.(reply.progress)
  pending.delete(reply.id)
  if (reply.kind === 'done') call.settle(reply.value)
  else if (reply.kind === 'cancelled') call.fail(abortError())
  else call.fail(new Error(reply.message))
}
