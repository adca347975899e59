/** A long report is read by two workers at once, to what one of them reads alone; where no second starts, by the one. */
import { afterAll, beforeAll, expect, test } from 'vitest'
import { createClient, type WorkerClient, type WorkerLike } from '../../src/workers/client.ts'
import { calls } from '../../src/workers/contract.ts'
import { createHandlers } from '../../src/workers/handlers.ts'
import { serve } from '../../src/workers/serve.ts'
import { shippedBoard } from '../support/read-board.ts'

const model = shippedBoard('bowline-8')
const opened: { close(): void }[] = []
let file: Blob

/** A worker in this very process. */
function start(startBeside?: () => WorkerLike): WorkerLike & MessagePort {
  const { port1, port2 } = new MessageChannel()
  serve(port2, createHandlers(startBeside))
  port1.start()
  port2.start()
  opened.push(port1, port2)
  return port1
}

beforeAll(() => {
  const rows = Array.from(
    { length: 1000 },
    (_, i) => `0x${(i * 64).toString(16).padStart(10, '0')},0x00000000,0x00000080`,
  )
  const megabyte = `${rows.join('\n')}\n`.repeat(30)
  // Longer than what is read before a second one is worth starting.
  file = new Blob(['address,expected,actual\n', ...Array.from({ length: 60 }, () => megabyte)])
})
afterAll(() => {
  for (const port of opened.splice(0)) port.close()
})

async function readBy(client: WorkerClient) {
  await client.call(calls.openBoard, { description: model.description })
  const read = await client.call(calls.readReport, { file })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const parts = read.value.tally.parts.map(({ ref, errors, channels }) => ({ ref, errors, channels }))
  return { lines: read.value.lines, isWhole: read.value.isWhole, rows: read.value.tally.rows, parts }
}

test('two readers come to what one comes to', async () => {
  let started = 0
  const beside = (): WorkerLike => {
    started++
    return start()
  }
  const shared = await readBy(createClient(start(beside)))
  expect(started).toBe(1)
  expect(shared.rows.read).toBe(60 * 30 * 1000)
  expect(shared).toEqual(await readBy(createClient(start())))
})

test('a second reader that dies leaves all to the first', async () => {
  const dying = (): WorkerLike => {
    const worker = start()
    queueMicrotask(() => worker.dispatchEvent(new Event('messageerror')))
    return worker
  }
  const read = await readBy(createClient(start(dying)))
  expect(read.rows.read).toBe(60 * 30 * 1000)
  expect(read.isWhole).toBe(true)
})
