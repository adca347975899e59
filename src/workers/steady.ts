/**
 * A client that outlives its worker. One that says nothing for too long, or stops, is ended and started anew, told its board
 * and asked again what it owed; a question that was lost twice is answered with a sentence.
 */
import { say } from '../base/index.ts'
import {
  abortError,
  type CallOptions,
  createClient,
  type WorkerClient,
  type WorkerLike,
  WorkerStopped,
} from './client.ts'
import type { Call } from './contract.ts'
import { makesBoardKnown, silenceLimitS } from './limits.ts'

/** Silence is counted in ticks and not by the clock: a machine that slept has not waited. */
const TICK_MS = 1000
const MOST_TRIES = 2

interface Question {
  readonly name: string
  readonly put: (client: WorkerClient, heard: () => void) => Promise<void>
  readonly fail: (reason: unknown) => void
  tries: number
}

interface Running {
  readonly client: WorkerClient
  /** Until it knows the board again; undefined where it has none to learn. */
  readonly ready: Promise<void> | undefined
}

/** @param limitS seconds of silence by the name of the call */
export function createSteadyClient(
  startWorker: () => WorkerLike,
  limitS: (name: string) => number = silenceLimitS,
): WorkerClient {
  /** In the order in which they were asked: a worker is at the first of them. */
  const asked = new Set<Question>()
  let tellBoard: ((client: WorkerClient) => Promise<unknown>) | undefined
  let closed = false
  let silentS = 0
  let timer: ReturnType<typeof setInterval> | undefined
  let running: Running = { client: createClient(startWorker()), ready: undefined }

  const heard = (): void => {
    silentS = 0
  }
  const over = (question: Question): void => {
    asked.delete(question)
    heard()
    if (asked.size > 0) return
    clearInterval(timer)
    timer = undefined
  }
  const giveUp = (question: Question, reason: unknown): void => {
    over(question)
    question.fail(reason)
  }
  const ask = (question: Question): void => {
    const worker = running
    const put = (): Promise<void> => question.put(worker.client, heard)
    const answered = worker.ready === undefined ? put() : worker.ready.then(put)
    answered.then(
      () => over(question),
      (reason: unknown) => {
        if (!asked.has(question)) return
        if (worker !== running) return // asked again of the one that took its place
        if (reason instanceof WorkerStopped) return renew(question, reason)
        giveUp(question, reason)
      },
    )
  }
  /** @param lost the question that the worker was at; what else it owed is asked again and counts for nothing */
  const renew = (lost: Question, reason: Error): void => {
    lost.tries++
    running.client.close()
    running = startAnew()
    heard()
    if (lost.tries >= MOST_TRIES) giveUp(lost, reason)
    for (const question of asked) ask(question)
  }
  const startAnew = (): Running => {
    const client = createClient(startWorker())
    const tell = tellBoard
    // a board that it does not come through is not told a second time
    tellBoard = undefined
    const ready = tell?.(client).then(
      () => {
        tellBoard ??= tell
        heard()
      },
      () => undefined, // what is asked next says why
    )
    return { client, ready }
  }
  const tick = (): void => {
    const [first] = asked
    if (first === undefined) return
    silentS += TICK_MS / 1000
    const limit = limitS(first.name)
    if (silentS >= limit) renew(first, new Error(silentWords(limit)))
  }
  const remember = <Input, Output>(call: Call<Input, Output>, input: Input, output: Output): void => {
    if (makesBoardKnown(call.name) && wentWell(output)) tellBoard = (client) => client.call(call, input)
  }

  return {
    call: (call, input, options = {}) =>
      new Promise((resolve, reject) => {
        if (closed || options.signal?.aborted === true) return reject(abortError())
        const question: Question = {
          name: call.name,
          tries: 0,
          fail: reject,
          put: async (client, told) => {
            const output = await client.call(call, input, withHearing(options, told))
            remember(call, input, output)
            resolve(output)
          },
        }
        options.signal?.addEventListener('abort', () => asked.has(question) && giveUp(question, abortError()), {
          once: true,
        })
        asked.add(question)
        if (asked.size === 1) heard()
        timer ??= setInterval(tick, TICK_MS)
        ask(question)
      }),
    close: () => {
      closed = true
      running.client.close()
      for (const question of asked) giveUp(question, abortError())
    },
  }
}

const silentWords = (limitS: number): string =>
  say('no answer within {limitS} s, and none after a new start', { limitS })

/** Progress is a sign of life. */
const withHearing = ({ onProgress, ...options }: CallOptions, heard: () => void): CallOptions => ({
  ...options,
  onProgress: (progress) => {
    heard()
    onProgress?.(progress)
  },
})

const wentWell = (output: unknown): boolean =>
  typeof output === 'object' && output !== null && 'ok' in output && output.ok === true
