/** What changes on a desk is saved as it is entered; two desks on one case never overwrite each other. */
import { afterEach, beforeAll, expect, test, vi } from 'vitest'
import { bad, type Fault } from '../../src/base/index.ts'
import { type BoardModel, loadBoard } from '../../src/board/index.ts'
import { startHistory } from '../../src/case/index.ts'
import { editArrival, editCase, editCaseOf, undoEdit } from '../../src/view/actions/edit.ts'
import { exportCase } from '../../src/view/actions/exchange.ts'
import { startOnThisBoard } from '../../src/view/actions/open.ts'
import { keepAsCopy, takeFromShelf } from '../../src/view/actions/follow.ts'
import { type Saver, startSaver } from '../../src/view/actions/save.ts'
import type { CaseShelf } from '../../src/view/shelf/caseShelf.ts'
import { openDatabaseShelf } from '../../src/view/shelf/databaseShelf.ts'
import { type FileStore, fileStoreInMemory } from '../../src/view/shelf/fileStore.ts'
import { caseShelfInMemory } from '../../src/view/shelf/memoryShelf.ts'
import { createCameraStore } from '../../src/view/sheet/cameraStore.ts'
import { closeDesk, createDesk, type Desk } from '../../src/view/stores/desk.ts'
import { sees } from '../support/waiting.ts'
import { board, caseOf, freshName, titles, value } from './support.ts'

let model: BoardModel
beforeAll(() => {
  model = value(loadBoard(board))
})

const tabs: { desk: Desk; saver: Saver }[] = []
afterEach(async () => {
  for (const { desk, saver } of tabs.splice(0)) {
    saver.end()
    await saver.saveNow()
    closeDesk(desk)
  }
})

const deaf = { postMessage: () => undefined, addEventListener: () => undefined }
const demos = { cases: [], boards: [], open: () => Promise.resolve(undefined) }

/** A tab with a case that the shelf does not have yet, or, with `kept`, one that it loads. */
async function openTab(
  caseShelf: CaseShelf,
  id: string,
  kept = false,
  files: FileStore = fileStoreInMemory(),
): Promise<Desk> {
  const desk = createDesk({ startWorker: () => deaf, shelf: demos, caseShelf, files })
  const stored = kept ? value(await caseShelf.load(id)) : undefined
  const history = stored?.history ?? startHistory(caseOf())
  desk.saving.setState({ shelved: { id, rev: stored?.entry.rev ?? 0, history: stored?.history } })
  const camera = createCameraStore(model.box, model.box)
  desk.cases.setState({ id, history, board: { opening: 1, model, camera, untold: [] }, saved: undefined })
  const saver = startSaver(desk)
  tabs.push({ desk, saver })
  return desk
}

const saved = (desk: Desk): Promise<void> => desk.saving.getState().saveNow()
const account = (desk: Desk): string => desk.cases.getState().history?.present.arrival.account ?? ''
const type = (desk: Desk, words: string): void => editArrival(desk, { account: words })
const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))

async function twoTabs(): Promise<{ one: Desk; two: Desk; shelf: CaseShelf }> {
  const name = freshName()
  const shelf = openDatabaseShelf({ name })
  const one = await openTab(shelf, 'a')
  await saved(one)
  const two = await openTab(openDatabaseShelf({ name }), 'a', true)
  return { one, two, shelf }
}

test('a new case is kept at once', async () => {
  const shelf = openDatabaseShelf({ name: freshName() })
  await openTab(shelf, 'a')
  await sees(async () => expect(titles(await shelf.list())).toEqual(['a card']))
})

/** By a clock that only this moves. @param each what happens at each of its ticks, the first of them number 1 */
async function byTheClock(ticks: number, tickMs: number, each: (tick: number) => void | Promise<void>): Promise<void> {
  for (let tick = 1; tick <= ticks; tick++) {
    await each(tick)
    await vi.advanceTimersByTimeAsync(tickMs)
  }
}

/** Clock and timers stand still until they are moved; what waits on them at the end is let go. */
async function withStandingClock(run: () => Promise<void>): Promise<void> {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'Date'] })
  try {
    await run()
  } finally {
    await vi.advanceTimersByTimeAsync(60_000)
    vi.useRealTimers()
  }
}

test('while somebody types without a pause, what is kept is never older than half a second', () =>
  withStandingClock(async () => {
    const [TICK_MS, SAVE_TAKES_MS, OLDEST_MS] = [20, 100, 500]
    const shelf = caseShelfInMemory()
    const slow: CaseShelf = { ...shelf, save: (what) => pause(SAVE_TAKES_MS).then(() => shelf.save(what)) }
    const desk = await openTab(slow, 'a')
    const behindMs: number[] = []
    await byTheClock(200, TICK_MS, async (tick) => {
      const kept = await shelf.load('a')
      const word = kept.ok ? Number(kept.value.history.present.arrival.account.slice('word '.length)) : 0
      behindMs.push((tick - 1 - word) * TICK_MS)
      type(desk, `word ${tick}`)
    })
    expect(Math.max(...behindMs)).toBeGreaterThan(SAVE_TAKES_MS)
    expect(Math.max(...behindMs)).toBeLessThanOrEqual(OLDEST_MS)
  }))

test('an undo is kept like any other change', async () => {
  const shelf = openDatabaseShelf({ name: freshName() })
  const desk = await openTab(shelf, 'a')
  type(desk, 'spilt')
  await saved(desk)
  undoEdit(desk)
  await sees(async () => {
    const { history } = value(await shelf.load('a'))
    expect(history.present.arrival.account).toBe('')
    expect(history.future[0]?.arrival.account).toBe('spilt')
  })
})

test('a tab without changes of its own follows the other, undo steps included', async () => {
  const { one, two } = await twoTabs()
  type(one, 'written in one')
  await sees(() => expect(account(two)).toBe('written in one'))
  expect(two.saving.getState().conflict).toBeUndefined()
  undoEdit(two)
  await sees(() => expect(account(one)).toBe(''))
  type(two, 'written in two')
  await sees(() => expect(account(one)).toBe('written in two'))
})

test('where both tabs changed it, the later one is told and overwrites nothing; it can take theirs', async () => {
  const { one, two, shelf } = await twoTabs()
  type(one, 'of one')
  type(two, 'of two')
  await Promise.all([saved(one), saved(two)])
  await sees(() => {
    const told = [one, two].filter((desk) => desk.saving.getState().conflict === 'changed-elsewhere')
    expect(told).toHaveLength(1)
  })
  const [late, early] = one.saving.getState().conflict === undefined ? [two, one] : [one, two]
  type(late, 'typed on, all the same')
  await saved(late)
  expect(value(await shelf.load('a')).history.present.arrival.account).toBe(account(early))
  await takeFromShelf(late)
  expect(account(late)).toBe(account(early))
  expect(late.saving.getState().conflict).toBeUndefined()
})

test('or keep its own as a case of its own, with its undo steps', async () => {
  const { one, two, shelf } = await twoTabs()
  type(one, 'of one')
  await saved(one)
  two.saving.setState({ conflict: 'changed-elsewhere' })
  type(two, 'of two')
  keepAsCopy(two)
  await saved(two)
  expect(titles(await shelf.list())).toEqual(['a card (mine)', 'a card'])
  expect(value(await shelf.load('a')).history.present.arrival.account).toBe('of one')
  undoEdit(two)
  undoEdit(two)
  expect(two.cases.getState().history?.present.title).toBe('a card')
})

test('a case that another tab deletes is told of; its restoring settles it', async () => {
  const { one, two, shelf } = await twoTabs()
  const token = value(await shelf.remove('a'))
  await sees(() => expect(two.saving.getState().conflict).toBe('deleted'))
  expect(one.saving.getState().conflict).toBe('deleted')
  value(await shelf.restore(token))
  await sees(() => expect(two.saving.getState().conflict).toBeUndefined())
})

test('a shelf that refuses is told once and not beset; asked again, it takes everything', () =>
  withStandingClock(async () => {
    const shelf = caseShelfInMemory()
    const desk = await openTab(shelf, 'a')
    await saved(desk)
    const full: Fault = { path: 'shelf', found: 'no room', expected: 'room' }
    const refused = vi.spyOn(shelf, 'save').mockImplementation(() => Promise.resolve(bad(full)))
    await byTheClock(40, 100, (tick) => type(desk, `word ${tick}`))
    expect(refused).toHaveBeenCalledTimes(1)
    expect(desk.saving.getState().trouble).toEqual(full)
    await byTheClock(20, 100, (tick) => type(desk, `later word ${tick}`))
    expect(refused).toHaveBeenCalledTimes(2)
    refused.mockRestore()
    await saved(desk)
    expect(desk.saving.getState().trouble).toBeUndefined()
    expect(value(await shelf.load('a')).history.present.arrival.account).toBe('later word 20')
  }))

test('with nothing to save, what was in the way is over once the shelf answers', async () => {
  const shelf = openDatabaseShelf({ name: freshName() })
  const desk = await openTab(shelf, 'a')
  await saved(desk)
  const blocked: Fault = { path: 'shelf', found: 'an older tab', expected: 'none' }
  desk.saving.setState({ trouble: blocked })
  const list = vi.spyOn(shelf, 'list').mockResolvedValue(bad(blocked))
  await saved(desk)
  expect(desk.saving.getState().trouble).toEqual(blocked)
  list.mockRestore()
  await saved(desk)
  expect(desk.saving.getState().trouble).toBeUndefined()
})

test('what is entered while another case is being opened is kept before that takes its place', async () => {
  const shelf = caseShelfInMemory()
  let answer: () => void = () => undefined
  const answered = new Promise<void>((resolve) => {
    answer = resolve
  })
  const slow: CaseShelf = { ...shelf, goodReadings: (name, id) => answered.then(() => shelf.goodReadings(name, id)) }
  const desk = await openTab(slow, 'a')
  type(desk, 'before')
  const opening = startOnThisBoard(desk)
  await pause(20)
  type(desk, 'meanwhile')
  answer()
  await opening
  expect(desk.cases.getState().id).not.toBe('a')
  expect(value(await shelf.load('a')).history.present.arrival.account).toBe('meanwhile')
})

test('what a case file can’t hold is told and not kept; once it is undone, everything is kept again', async () => {
  const shelf = openDatabaseShelf({ name: freshName() })
  const desk = await openTab(shelf, 'a')
  await saved(desk)
  type(desk, 'too long '.repeat(1000))
  await saved(desk)
  expect(desk.saving.getState().trouble?.found).toMatch(/^arrival\.account is .* at most 4000 characters/)
  expect(value(await shelf.load('a')).history.present.arrival.account).toBe('')
  undoEdit(desk)
  editArrival(desk, { owner: 'somebody' })
  await saved(desk)
  expect(desk.saving.getState().trouble).toBeUndefined()
  expect(value(await shelf.load('a')).history.present.arrival.owner).toBe('somebody')
})

test('what is entered while a case is being exported does not count as exported', async () => {
  let answer: () => void = () => undefined
  const answered = new Promise<undefined>((resolve) => {
    answer = () => resolve(undefined)
  })
  const slow: FileStore = { ...fileStoreInMemory(), get: () => answered }
  const desk = await openTab(caseShelfInMemory(), 'a', false, slow)
  const photo = { id: 'p', name: 'p', type: 'image/png', bytes: 1, widthPx: 1, heightPx: 1, side: 'top' }
  editCase(desk, (c) => ({ ...c, photos: caseOf({ photos: [photo] }).photos }))
  const before = desk.cases.getState().history?.present
  const exporting = exportCase(desk)
  type(desk, 'meanwhile')
  answer()
  expect(await exporting).toMatchObject({ value: { leftOut: ['p'] } })
  expect(desk.cases.getState().saved).toBe(before)
})

test('what took a while changes nothing once another case is on the desk', async () => {
  const desk = await openTab(caseShelfInMemory(), 'a')
  const titled = (title: string) => editCaseOf(desk, 'a', (c) => ({ ...c, title }))
  expect(titled('while it lay there')).toBe(true)
  desk.cases.setState({ id: 'b' })
  expect(titled('too late')).toBe(false)
  expect(desk.cases.getState().history?.present.title).toBe('while it lay there')
})
