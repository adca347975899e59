/**
 * Workers for applications that tests start one after the other. One that owes no answer when its application closes is lent
 * to the next: what it knows of a board goes as soon as that one opens its own, and only its code stays warm. One that is
 * still at something ends, as it does outside of tests.
 */
import { speech } from '../../src/base/index.ts'
import type { WorkerLike } from '../../src/workers/client.ts'
import { replySchema, requestSchema } from '../../src/workers/envelope.ts'
import { startCoreWorker } from '../../src/workers/start.ts'

interface Idle {
  readonly worker: Worker
  /** What it was told first, and speaks. */
  readonly told: string
}

/** As many as an application has: reasoner, reader, planner, boards, practice. */
const MOST_IDLE = 5
const idle: Idle[] = []

/** @returns a worker that speaks as whoever borrows it, new or one that has nothing to do */
export function lendCoreWorker(): WorkerLike {
  const told = JSON.stringify(speech())
  const found = idle.findIndex((each) => each.told === told)
  const worker = (found < 0 ? undefined : idle.splice(found, 1)[0]?.worker) ?? startCoreWorker()
  const owed = new Set<number>()
  const lent = new AbortController()
  let isSound = true
  const breaks = (): void => {
    isSound = false
  }
  const listen = (type: string, listener: (event: Event) => void): void =>
    worker.addEventListener(type, listener, { signal: lent.signal })
  listen('error', breaks)
  listen('messageerror', breaks)
  listen('message', (event) => {
    const reply = replySchema.safeParse(event instanceof MessageEvent ? event.data : undefined)
    if (reply.success && reply.data.kind !== 'progress') owed.delete(reply.data.id)
  })
  return {
    postMessage: (message, transfer) => {
      const request = requestSchema.safeParse(message)
      if (request.success && request.data.kind === 'call') owed.add(request.data.id)
      worker.postMessage(message, transfer)
    },
    addEventListener: listen,
    terminate: () => {
      lent.abort()
      if (isSound && owed.size === 0 && idle.length < MOST_IDLE) idle.push({ worker, told })
      else worker.terminate()
    },
  }
}
