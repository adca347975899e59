/** A worker that is stuck or stops is started anew, knows its board again, and is asked again once. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { z } from 'zod'
import { isAbort, type WorkerLike } from '../../src/workers/client.ts'
import { type Call, calls } from '../../src/workers/contract.ts'
import { silenceLimitS } from '../../src/workers/limits.ts'
import { createSteadyClient } from '../../src/workers/steady.ts'
import { handle, type Port, serve } from '../../src/workers/serve.ts'

const LIMIT_S = 10

beforeEach(() => void vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] }))
afterEach(() => void vi.useRealTimers())

/** Of a worker that was started: what it was asked, in order, and a way to break it. */
interface Started {
  readonly heard: string[]
  stuck: boolean
  ended: boolean
  stop(): void
}

const echo: Call<string, string> = { name: 'echo', takes: z.string(), gives: z.string() }
const slowly: Call<string, string> = { name: 'slowly', takes: z.string(), gives: z.string() }

/** @param stuckFrom how many of the first workers say nothing to `echo` */
function workshop(stuckFrom: number) {
  const started: Started[] = []
  const startWorker = (): WorkerLike => {
    const { worker, port, fail } = pair()
    const mine: Started = { heard: [], stuck: started.length < stuckFrom, ended: false, stop: fail }
    started.push(mine)
    const board = { ...calls.openBoard, gives: z.unknown() }
    serve(port, [
      handle(board, ({ text }) => {
        mine.heard.push(`board ${text}`)
        return { ok: text !== 'no board' }
      }),
      handle(echo, (words) => {
        mine.heard.push(words)
        return mine.stuck ? new Promise<string>(() => undefined) : words
      }),
      handle(slowly, (words, { onProgress }) => {
        mine.heard.push(words)
        return new Promise<string>((resolve) => {
          let told = 0
          const timer = setInterval(() => {
            if (++told < 5) return onProgress({ words: 'on it' })
            clearInterval(timer)
            resolve(words)
          }, 8000)
        })
      }),
    ])
    return { ...worker, terminate: () => void (mine.ended = true) }
  }
  return { started, client: createSteadyClient(startWorker, () => LIMIT_S) }
}

/** Two ends whose messages arrive in a later turn, as those of a worker do. */
function pair(): { worker: WorkerLike; port: Port; fail: () => void } {
  const page = new EventTarget()
  const inside = new EventTarget()
  const to = (target: EventTarget, data: unknown): void =>
    queueMicrotask(() => target.dispatchEvent(new MessageEvent('message', { data })))
  const port: Port = {
    postMessage: (data) => to(page, data),
    addEventListener: (type, listener) =>
      inside.addEventListener(type, (event) => event instanceof MessageEvent && listener(event)),
  }
  const worker: WorkerLike = {
    postMessage: (data) => to(inside, data),
    addEventListener: (type, listener) => page.addEventListener(type, listener),
  }
  return { worker, port, fail: () => void page.dispatchEvent(new Event('error')) }
}

const seconds = (count: number): Promise<unknown> => vi.advanceTimersByTimeAsync(count * 1000)
const said = (answer: Promise<string>): Promise<string> =>
  answer.catch((reason: unknown) => (reason instanceof Error ? reason.message : 'something else'))

test('a worker that says nothing is ended, and the one that takes its place is asked again and answers', async () => {
  const { started, client } = workshop(1)
  const answer = client.call(echo, 'well?')
  await seconds(LIMIT_S - 1)
  expect(started).toHaveLength(1)
  await seconds(1)
  expect(await answer).toBe('well?')
  expect(started.map(({ ended }) => ended)).toEqual([true, false])
})

test('before it is asked again, it is told the board that the other one had', async () => {
  const { started, client } = workshop(1)
  await client.call(calls.openBoard, { text: 'the first' })
  await client.call(calls.openBoard, { text: 'the second' })
  await client.call(calls.openBoard, { text: 'no board' })
  const answer = client.call(echo, 'well?')
  await seconds(LIMIT_S)
  expect(await answer).toBe('well?')
  expect(started[1]?.heard).toEqual(['board the second', 'well?'])
})

test('a question that two workers were silent about is answered with a sentence, and the next one finds a worker', async () => {
  const { started, client } = workshop(2)
  const answer = said(client.call(echo, 'well?'))
  await seconds(2 * LIMIT_S)
  expect(await answer).toBe('no answer within 10 s, and none after a new start')
  expect(await client.call(echo, 'and now?')).toBe('and now?')
  expect(started).toHaveLength(3)
})

test('what stood behind the question that got stuck is answered all the same', async () => {
  const { client } = workshop(2)
  const first = said(client.call(echo, 'stuck'))
  const others = ['a', 'b'].map((words) => client.call(echo, words))
  await seconds(2 * LIMIT_S)
  expect(await first).toMatch(/^no answer/)
  expect(await Promise.all(others)).toEqual(['a', 'b'])
})

test('progress is a sign of life, however long it takes', async () => {
  const { started, client } = workshop(0)
  const answer = client.call(slowly, 'long')
  await seconds(40)
  expect(await answer).toBe('long')
  expect(started).toHaveLength(1)
})

test('with nothing asked, no time runs', async () => {
  const { started, client } = workshop(0)
  await client.call(echo, 'quick')
  await seconds(10 * LIMIT_S)
  expect(await client.call(echo, 'quick again')).toBe('quick again')
  expect(started).toHaveLength(1)
  await seconds(0)
  expect(vi.getTimerCount()).toBe(0)
})

test('a worker that stops by itself is started anew at once', async () => {
  const { started, client } = workshop(1)
  const answer = client.call(echo, 'well?')
  started[0]?.stop()
  expect(await answer).toBe('well?')
})

test('a fault that a worker tells is no reason to start it anew', async () => {
  const { started, client } = workshop(0)
  const unknown: Call<string, string> = { name: 'unknown', takes: z.string(), gives: z.string() }
  expect(await said(client.call(unknown, ''))).toBe('no call named unknown')
  expect(started).toHaveLength(1)
})

test('a question that is given up while its worker is stuck rejects at once; closed, all reject', async () => {
  const { client } = workshop(1)
  const abort = new AbortController()
  const given = client.call(echo, 'given up', { signal: abort.signal }).catch(isAbort)
  const pending = client.call(echo, 'pending').catch(isAbort)
  abort.abort()
  expect(await given).toBe(true)
  client.close()
  expect(await pending).toBe(true)
  expect(await client.call(echo, 'late').catch(isAbort)).toBe(true)
})

test('each kind of question has its own limit, none under half a minute', () => {
  const limits = Object.keys(calls).map(silenceLimitS)
  expect(Math.min(...limits)).toBeGreaterThanOrEqual(30)
  expect(silenceLimitS('planRework')).toBeGreaterThan(silenceLimitS('assess'))
})
