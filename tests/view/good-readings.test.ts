/** The figures of the shop's good cards follow the shelf into the case on the desk, without a step of undo. */
import { afterEach, expect, test } from 'vitest'
import bowline from '../../boards/bowline-8.json' with { type: 'json' }
import { loadBoard } from '../../src/board/index.ts'
import { CASE_VERSION, type Case, caseSchema, startHistory, step } from '../../src/case/index.ts'
import { watchForGoodReadings } from '../../src/view/stations/measuring/goodReadings.ts'
import { caseShelfInMemory } from '../../src/view/shelf/memoryShelf.ts'
import { createCameraStore } from '../../src/view/sheet/cameraStore.ts'
import { createCaseStore } from '../../src/view/stores/caseStore.ts'
import { sees } from '../support/waiting.ts'

const loaded = loadBoard(bowline)
if (!loaded.ok) throw new Error('the board of this test did not load')
const model = loaded.value

const caseWith = (change: object): Case =>
  caseSchema.parse({
    format: 'liftmap-case',
    version: CASE_VERSION,
    title: 'x',
    board: { path: 'bowline-8.json' },
    ...change,
  })

const goodCard = (ohm: number): Case =>
  caseWith({
    goodCard: true,
    measurements: [
      {
        line: { kind: 'rail', name: 'VMEM' },
        quantity: 'ohms',
        reading: { kind: 'value', value: ohm },
        typed: String(ohm),
      },
    ],
  })

const shelf = caseShelfInMemory()
const keep = (id: string, present: Case, boardName = model.name) =>
  shelf.save({ id, history: startHistory(present), boardName, basedOnRev: 0 })

const cases = createCaseStore()
const camera = createCameraStore(model.box, model.box)
const history = step(startHistory(caseWith({})), caseWith({ title: 'y' }))
cases.setState({ id: 'desk', history, board: { opening: 1, model, camera, untold: [] } })
const end = watchForGoodReadings({ cases, caseShelf: shelf })
afterEach(end)

test('good cards of the same board are learnt, others are not, and undo knows nothing of it', async () => {
  await keep('a', goodCard(60))
  await keep('b', goodCard(64))
  await keep('other board', goodCard(1), 'hitch-12')
  await keep('no good card', { ...goodCard(2), goodCard: false })
  await sees(() =>
    expect(cases.getState().history?.present.goodReadings).toEqual([
      { line: { kind: 'rail', name: 'VMEM' }, quantity: 'ohms', values: [60, 64] },
    ]),
  )
  const now = cases.getState().history
  expect(now?.past).toEqual(history.past)
  expect(now?.present.title).toBe('y')
  await shelf.remove('a')
  await sees(() => expect(cases.getState().history?.present.goodReadings[0]?.values).toEqual([64]))
})
