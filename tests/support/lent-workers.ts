/**
 * Workers for applications that tests start one after the other. One that owes no answer when its application closes is lent
 * to the next: what it knows of a board goes as soon as that one opens its own, and only its code stays warm. One that is
 * still at something ends, as it does outside of tests. A question that was answered before, of the same board, is not asked
 * again (`kept-replies.ts`).
 */
import { speech } from '../../src/base/index.ts'
import type { WorkerLike } from '../../src/workers/client.ts'
import { type Reply, replySchema, requestSchema } from '../../src/workers/envelope.ts'
import { startCoreWorker } from '../../src/workers/start.ts'
import { keepReply, keptReply, keyOfQuestion, plainText } from './kept-replies.ts'

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
  const keys = new Map<number, string>()
  const listeners = new Set<(event: Event) => void>()
  let opening: { readonly id: number; readonly board: string } | undefined
  let board: string | undefined
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
    if (!reply.success || reply.data.kind === 'progress') return
    const { id } = reply.data
    owed.delete(id)
    const key = keys.get(id)
    keys.delete(id)
    if (reply.data.kind !== 'done') return
    if (key !== undefined) keepReply(key, reply.data.value)
    if (id === opening?.id && isGood(reply.data.value)) board = opening.board
  })
  const answerLater = (id: number, value: unknown): void => {
    const data: Reply = { kind: 'done', id, value }
    setTimeout(() => {
      if (lent.signal.aborted) return
      for (const listener of listeners) listener(new MessageEvent('message', { data }))
    })
  }
  return {
    postMessage: (message, transfer) => {
      const request = requestSchema.safeParse(message)
      if (!request.success || request.data.kind === 'cancel') return worker.postMessage(message, transfer)
      const { id, name, input } = request.data
      if (name === 'openBoard' || name === 'importLayout') {
        board = undefined
        opening = name === 'openBoard' ? { id, board: plainText(input) } : undefined
      }
      const key = keyOfQuestion(board, name, input)
      const kept = key === undefined ? undefined : keptReply(key)
      if (kept !== undefined) return answerLater(id, kept)
      if (key !== undefined) keys.set(id, key)
      owed.add(id)
      worker.postMessage(message, transfer)
    },
    addEventListener: (type, listener) => {
      if (type === 'message') listeners.add(listener)
      listen(type, listener)
    },
    terminate: () => {
      lent.abort()
      if (isSound && owed.size === 0 && idle.length < MOST_IDLE) idle.push({ worker, told })
      else worker.terminate()
    },
  }
}

/** Whether a board was opened: only then is it the one that is asked about. */
const isGood = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && 'ok' in value && value.ok === true
