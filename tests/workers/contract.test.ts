/** Worker calls: they answer, report progress, cancel, fail; and they always settle. */
import { afterEach, expect, test, vi } from 'vitest'
import { z } from 'zod'
import { createClient, isAbort, type WorkerClient } from '../../src/workers/client.ts'
import type { Call } from '../../src/workers/contract.ts'
import { latestWins } from '../../src/workers/latest.ts'
import { handle, serve } from '../../src/workers/serve.ts'
import { sees } from '../support/waiting.ts'

const double: Call<number, number> = { name: 'double', takes: z.number(), gives: z.number() }
const wait: Call<string, string> = { name: 'wait', takes: z.string(), gives: z.string() }
const lie: Call<number, number> = { name: 'lie', takes: z.number(), gives: z.number() }
const missing: Call<number, number> = { name: 'missing', takes: z.number(), gives: z.number() }

const opened: { close(): void }[] = []
afterEach(() => {
  for (const port of opened.splice(0)) port.close()
})

function connected(): { client: WorkerClient; aborted: string[] } {
  const { port1, port2 } = new MessageChannel()
  const aborted: string[] = []
  serve(port2, [
    handle(double, (input) => input * 2),
    handle(
      wait,
      (input, { signal, onProgress }) =>
        new Promise((resolve) => {
          onProgress({ share: 0.5, words: 'half' })
          signal.addEventListener('abort', () => {
            aborted.push(input)
            resolve('stopped')
          })
        }),
    ),
    { name: 'lie', run: () => Promise.resolve('not a number') },
  ])
  port1.start()
  port2.start()
  opened.push(port1, port2)
  return { client: createClient(port1), aborted }
}

test('a call comes back with what the handler gave', async () => {
  const { client } = connected()
  expect(await Promise.all([client.call(double, 4), client.call(double, 5)])).toEqual([8, 10])
})

test('progress arrives, and an aborted call rejects with an AbortError and stops the work', async () => {
  const { client, aborted } = connected()
  const abort = new AbortController()
  const progress = vi.fn<(progress: unknown) => void>(() => abort.abort())
  const reason = await client
    .call(wait, 'long', { signal: abort.signal, onProgress: progress })
    .catch((e: unknown) => e)
  expect(isAbort(reason)).toBe(true)
  expect(progress).toHaveBeenCalledWith({ share: 0.5, words: 'half' })
  await sees(() => expect(aborted).toEqual(['long']))
})

test('a call that is aborted before it starts never reaches the worker', async () => {
  const { client, aborted } = connected()
  const reason = await client.call(wait, 'never', { signal: AbortSignal.abort() }).catch((e: unknown) => e)
  expect(isAbort(reason)).toBe(true)
  expect(aborted).toEqual([])
})

test('wrong input, an unknown call and an answer of the wrong kind each reject', async () => {
  const { client } = connected()
  const notANumber: Call<string, number> = { name: 'double', takes: z.string(), gives: z.number() }
  await expect(client.call(notANumber, 'four')).rejects.toThrow('number')
  await expect(client.call(missing, 1)).rejects.toThrow('no call named missing')
  await expect(client.call(lie, 1)).rejects.toThrow('lie gave something unexpected')
})

test('closing the client settles what is pending, and later calls too', async () => {
  const { client } = connected()
  const pending = client.call(wait, 'pending').catch((e: unknown) => e)
  client.close()
  expect(isAbort(await pending)).toBe(true)
  await expect(client.call(double, 1)).rejects.toThrow('Cancelled')
})

test('while one task runs only the newest waits; the overtaken ones reject', async () => {
  const started: number[] = []
  const finish: (() => void)[] = []
  const ask = latestWins((input: number) => {
    started.push(input)
    return new Promise<number>((resolve) => finish.push(() => resolve(input)))
  })
  const outcomes = [1, 2, 3, 4].map((input) => ask(input).catch((e: unknown) => (isAbort(e) ? 'overtaken' : e)))
  finish.shift()?.()
  await sees(() => expect(started).toEqual([1, 4]))
  finish.shift()?.()
  expect(await Promise.all(outcomes)).toEqual([1, 'overtaken', 'overtaken', 4])
})

test('a task that fails lets the next one run', async () => {
  const ask = latestWins((input: number) => (input === 1 ? Promise.reject(new Error('no')) : Promise.resolve(input)))
  const first = ask(1).catch((e: unknown) => (e instanceof Error ? e.message : ''))
  expect([await first, await ask(2)]).toEqual(['no', 2])
})
