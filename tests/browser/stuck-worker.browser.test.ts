/** A real worker that never comes back from a question: it is ended, and the real one that takes its place answers. */
import { expect, test } from 'vitest'
import bowline from '../../boards/bowline-8.json'
import { calls } from '../../src/workers/contract.ts'
import { startCoreWorker } from '../../src/workers/start.ts'
import { createSteadyClient } from '../../src/workers/steady.ts'

const LOOPS_FOR_GOOD = 'self.onmessage = () => { for (;;) {} }'

test('a worker in an endless loop is ended, and its question is answered by another', async () => {
  const address = URL.createObjectURL(new Blob([LOOPS_FOR_GOOD], { type: 'text/javascript' }))
  const started: Worker[] = []
  const startWorker = (): Worker => {
    const worker = started.length === 0 ? new Worker(address) : startCoreWorker()
    started.push(worker)
    return worker
  }
  // long enough for a real worker to start on a busy machine
  const client = createSteadyClient(startWorker, () => (started.length === 1 ? 2 : 60))
  const opened = await client.call(calls.openBoard, { description: bowline })
  expect(opened.ok && opened.value.name).toBe('bowline-8')
  expect(started).toHaveLength(2)
  client.close()
  URL.revokeObjectURL(address)
})
