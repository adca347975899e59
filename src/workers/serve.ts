/** A worker's end of the contract: parses each request, runs its handler, answers exactly once, honours cancel. */
import { say } from '../base/index.ts'
import type { Call } from './contract.ts'
import { type Progress, type Reply, requestSchema } from './envelope.ts'

export interface Work {
  readonly signal: AbortSignal
  readonly onProgress: (progress: Progress) => void
}

export interface Handler {
  readonly name: string
  run(input: unknown, work: Work): Promise<unknown>
}

/** Ties a call of the contract to the function that does it; what comes in is parsed first. */
export function handle<Input, Output>(
  call: Call<Input, Output>,
  run: (input: Input, work: Work) => Output | Promise<Output>,
): Handler {
  return {
    name: call.name,
    run: async (input, work) => run(call.takes.parse(input), work),
  }
}

export interface Port {
  postMessage(message: unknown): void
  addEventListener(type: 'message', listener: (event: MessageEvent) => void): void
}

/**
 * Listens for good. What is no request of the contract is passed over without an answer; a cancelled request answers
 * `cancelled` whatever its handler came to.
 */
export function serve(port: Port, handlers: readonly Handler[]): void {
  const byName = new Map(handlers.map((handler) => [handler.name, handler]))
  const running = new Map<number, AbortController>()
  const answer = (reply: Reply): void => port.postMessage(reply)

  port.addEventListener('message', (event) => {
    const parsed = requestSchema.safeParse(event.data)
    if (!parsed.success) return
    const request = parsed.data
    if (request.kind === 'cancel') return running.get(request.id)?.abort()
    const handler = byName.get(request.name)
    if (handler === undefined)
      return answer({ kind: 'failed', id: request.id, message: say('no call named {name}', { name: request.name }) })
    const { id } = request
    const abort = new AbortController()
    running.set(id, abort)
    handler
      .run(request.input, {
        signal: abort.signal,
        onProgress: (progress) => answer({ kind: 'progress', id, progress }),
      })
      .then(
        (value) => answer(abort.signal.aborted ? { kind: 'cancelled', id } : { kind: 'done', id, value }),
        (reason: unknown) => answer(abort.signal.aborted ? { kind: 'cancelled', id } : failed(id, reason)),
      )
      .finally(() => running.delete(id))
  })
}

const failed = (id: number, reason: unknown): Reply => ({
  kind: 'failed',
  id,
  message: reason instanceof Error ? reason.message : String(reason),
})
