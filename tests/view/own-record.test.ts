/** The shop's own record follows the shelf into open cases, without a step of undo; files of counts come in once. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import bowline from '../../boards/bowline-8.json' with { type: 'json' }
import { loadBoard } from '../../src/board/index.ts'
import { CASE_VERSION, type Case, caseSchema, startHistory, step, undo } from '../../src/case/index.ts'
import { putInUse, removePool, renamePool, takeInCounts, watchForOwnRecord } from '../../src/view/actions/ownRecord.ts'
import { caseShelfInMemory } from '../../src/view/shelf/memoryShelf.ts'
import { createCameraStore } from '../../src/view/sheet/cameraStore.ts'
import { createCaseStore } from '../../src/view/stores/caseStore.ts'
import { closedCase, keepClosedCases } from '../support/closedCases.ts'

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

function deskWith(present: Case, id = 'desk') {
  const caseShelf = caseShelfInMemory()
  const cases = createCaseStore()
  const camera = createCameraStore(model.box, model.box)
  const history = step(startHistory(caseWith({})), present)
  cases.setState({ id, history, board: { opening: 1, model, camera, untold: [] } })
  return { cases, caseShelf, present: () => cases.getState().history?.present }
}

const ends: (() => void)[] = []
beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] })
})
afterEach(() => {
  for (const end of ends.splice(0)) end()
  vi.useRealTimers()
})

/** Longer than the watch waits for calm, by a clock that only the tests move. */
const calm = () => vi.advanceTimersByTimeAsync(700)

test('switched on, the figures of closed cards lie in the open case; undo leaves them, switched off they go', async () => {
  const desk = deskWith(caseWith({ title: 'y' }))
  ends.push(watchForOwnRecord(desk))
  await keepClosedCases(desk.caseShelf, 6)
  await calm()
  expect(desk.present()).not.toHaveProperty('ownRecord')
  await putInUse(desk, true)
  await calm()
  expect(desk.present()?.ownRecord).toMatchObject({ cards: 6, boardAlone: false })
  const steps = desk.cases.getState().history?.past.length
  expect(steps).toBe(1)
  desk.cases.setState(({ history }) => (history === undefined ? {} : { history: undo(history) }))
  expect(desk.present()?.title).toBe('x')
  expect(desk.present()?.ownRecord?.cards).toBe(6)
  await putInUse(desk, false)
  await calm()
  expect(desk.present()).not.toHaveProperty('ownRecord')
})

test('a case does not learn from itself', async () => {
  const desk = deskWith(caseWith({ title: 'y' }), 'closed-0')
  ends.push(watchForOwnRecord(desk))
  await keepClosedCases(desk.caseShelf, 6)
  await putInUse(desk, true)
  await calm()
  expect(desk.present()?.ownRecord?.cards).toBe(5)
})

test.each([
  ['a demo', caseWith({ demo: true })],
  ['a closed case', closedCase(7)],
])('%s stays as it is', async (_, present) => {
  const desk = deskWith(present)
  ends.push(watchForOwnRecord(desk))
  await keepClosedCases(desk.caseShelf, 6)
  await putInUse(desk, true)
  await calm()
  expect(desk.present()).not.toHaveProperty('ownRecord')
})

const fileOf = (cards: number, name = 'harbour.counts.json') => {
  const all = { cards, shares: { 'prior.core': { hits: 1, tries: cards } }, minutes: {} }
  return new File([JSON.stringify({ format: 'liftmap-counts', version: 1, all })], name)
}
const poolNames = async (desk: ReturnType<typeof deskWith>): Promise<string[]> => {
  const choice = await desk.caseShelf.recordChoice()
  return choice.ok ? choice.value.pools.map(({ name }) => name) : []
}

test('counts of other shops add to the record under a name of their own, once, and can be taken out again', async () => {
  const desk = deskWith(caseWith({}))
  ends.push(watchForOwnRecord(desk))
  await putInUse(desk, true)
  expect(await takeInCounts(desk, fileOf(12))).toEqual({
    ok: true,
    value: { name: 'harbour', cards: 12, doubt: undefined },
  })
  const later = await takeInCounts(desk, fileOf(15))
  expect(later.ok && later.value).toMatchObject({ name: 'harbour 2', doubt: expect.stringContaining('“harbour”') })
  const again = await takeInCounts(desk, fileOf(12, 'another name.json'))
  expect(again.ok ? [] : again.faults.map(({ todo }) => todo)).toEqual([expect.stringContaining('here already')])
  await calm()
  expect(desk.present()?.ownRecord?.cards).toBe(27)
  await renamePool(desk, 'harbour 2', 'harbour')
  await renamePool(desk, 'harbour 2', ' ')
  await renamePool(desk, 'harbour 2', 'the second')
  expect(await poolNames(desk)).toEqual(['harbour', 'the second'])
  await removePool(desk, 'harbour')
  expect(await poolNames(desk)).toEqual(['the second'])
})
