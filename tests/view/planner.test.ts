/** The planner's worker ends with a question that is cancelled; other questions that it had are answered all the same. */
import { afterEach, expect, test } from 'vitest'
import { z } from 'zod'
import bowline from '../../boards/bowline-8.json' with { type: 'json' }
import { good, type Result } from '../../src/base/index.ts'
import { loadBoard } from '../../src/board/index.ts'
import { createPlanner } from '../../src/view/stores/planner.ts'
import { isAbort, type WorkerLike } from '../../src/workers/client.ts'
import { type Call, calls } from '../../src/workers/contract.ts'
import { handle, serve } from '../../src/workers/serve.ts'
import { waitUntil } from '../support/waiting.ts'

const loaded = loadBoard(bowline)
if (!loaded.ok) throw new Error('the board of this test did not load')
const model = loaded.value

const solve: Call<string, Result<string>> = {
  name: 'solve',
  takes: z.string(),
  gives: z.object({ ok: z.literal(true), value: z.string() }),
}

const ports: MessagePort[] = []
afterEach(() => {
  for (const port of ports.splice(0)) port.close()
})

/** @param answers whether the worker of that number, from 1, ever comes to an end with what it is asked */
function workers(answers: (worker: number) => boolean) {
  const asked: string[][] = []
  const start = (): WorkerLike => {
    const { port1, port2 } = new MessageChannel()
    const questions: string[] = []
    const number = asked.push(questions)
    serve(port2, [
      handle(calls.openBoard, () => good(model)),
      handle(solve, (question) => {
        questions.push(question)
        return answers(number) ? good(`${question} solved`) : new Promise<never>(() => {})
      }),
    ])
    port1.start()
    port2.start()
    ports.push(port1, port2)
    return Object.assign(port1, { terminate: () => port1.close() })
  }
  return { start, asked }
}

const options = (abort = new AbortController()) => ({ signal: abort.signal, onProgress: () => undefined })

test('a question whose worker was ended for another’s sake is asked again', async () => {
  const { start, asked } = workers((worker) => worker > 1)
  const planner = createPlanner(start)
  const abort = new AbortController()
  const given = planner.ask(model, solve, 'given up', options(abort)).catch((reason: unknown) => isAbort(reason))
  const wanted = planner.ask(model, solve, 'wanted', options())
  await waitUntil(() => asked[0]?.length === 2)
  abort.abort()
  expect(await given).toBe(true)
  expect(await wanted).toEqual({ ok: true, value: 'wanted solved' })
  expect(asked).toEqual([['given up', 'wanted'], ['wanted']])
})

test('once it is closed what was pending is given up, and no worker is started any more', async () => {
  const { start, asked } = workers(() => false)
  const planner = createPlanner(start)
  const pending = planner.ask(model, solve, 'pending', options()).catch((reason: unknown) => isAbort(reason))
  await waitUntil(() => asked[0]?.length === 1)
  planner.close()
  expect(await pending).toBe(true)
  await expect(planner.ask(model, solve, 'late', options())).rejects.toThrow('Cancelled')
  expect(asked).toHaveLength(1)
})
