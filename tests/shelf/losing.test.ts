/** What would be lost is asked about, what was lost is told by name, and what the storage refused once is to be exported. */
import { deleteDB } from 'idb'
import { afterEach, beforeAll, expect, test, vi } from 'vitest'
import { bad, type Fault } from '../../src/base/index.ts'
import { type BoardModel, loadBoard } from '../../src/board/index.ts'
import { startHistory } from '../../src/case/index.ts'
import { editArrival, editCase } from '../../src/view/actions/edit.ts'
import { exportCase } from '../../src/view/actions/exchange.ts'
import { forgetLost, settle, watchForLoss } from '../../src/view/actions/ledger.ts'
import { startSaver, wouldLose } from '../../src/view/actions/save.ts'
import { keepTrying } from '../../src/view/actions/unheld.ts'
import type { CaseShelf } from '../../src/view/shelf/caseShelf.ts'
import { openDatabaseShelf } from '../../src/view/shelf/databaseShelf.ts'
import { type FileStore, fileStoreInMemory } from '../../src/view/shelf/fileStore.ts'
import { caseShelfInMemory } from '../../src/view/shelf/memoryShelf.ts'
import { createCameraStore } from '../../src/view/sheet/cameraStore.ts'
import { closeDesk, createDesk, type Desk } from '../../src/view/stores/desk.ts'
import { type Ledger, ledgerIn } from '../../src/view/stores/ledger.ts'
import { sees } from '../support/waiting.ts'
import { BOARD, board, caseOf, edited, freshName, value } from './support.ts'

let model: BoardModel
beforeAll(() => {
  model = value(loadBoard(board))
})

const open: (() => void)[] = []
afterEach(() => {
  vi.restoreAllMocks()
  for (const end of open.splice(0)) end()
})

interface Parts {
  readonly ledger?: Ledger
  readonly files?: FileStore
  readonly kept?: boolean
}

/** A page with the case `a` on its desk. */
async function openPage(
  caseShelf: CaseShelf,
  { ledger = ledgerIn(), files = fileStoreInMemory(), kept = false }: Parts = {},
): Promise<Desk> {
  const deaf = { postMessage: () => undefined, addEventListener: () => undefined }
  const demos = { cases: [], boards: [], open: () => Promise.resolve(undefined) }
  const desk = createDesk({ startWorker: () => deaf, shelf: demos, caseShelf, files, ledger })
  const stored = kept ? value(await caseShelf.load('a')) : undefined
  const history = stored?.history ?? startHistory(caseOf())
  desk.saving.setState({ shelved: { id: 'a', rev: stored?.entry.rev ?? 0, history: stored?.history } })
  const camera = createCameraStore(model.box, model.box)
  desk.cases.setState({ id: 'a', history, board: { opening: 1, model, camera, untold: [] }, saved: undefined })
  const saver = startSaver(desk)
  const endWatch = watchForLoss(desk)
  open.push(() => {
    endWatch()
    saver.end()
    closeDesk(desk)
  })
  return desk
}

const closePages = (): void => {
  for (const end of open.splice(0)) end()
}
const saved = (desk: Desk): Promise<void> => desk.saving.getState().saveNow()
const type = (desk: Desk, words: string): void => editArrival(desk, { account: words })
const noRoom: Fault = { path: 'shelf', found: 'no room', expected: 'room' }
const lost = (desk: Desk): string[] => desk.saving.getState().lost.map(({ title }) => title)
const put = (shelf: CaseShelf, id: string, title: string, card?: string) =>
  shelf.save({
    id,
    history: edited(caseOf({ title, ...(card === undefined ? {} : { card }) }), 0),
    boardName: BOARD,
    basedOnRev: 0,
  })

/** As local storage keeps it over a restart. */
function outlasting(): Ledger {
  const kept = new Map<string, string>()
  return ledgerIn({ getItem: (key) => kept.get(key) ?? null, setItem: (key, text) => void kept.set(key, text) })
}

test('after a restart with an emptied database, what was there is told by name until it is read', async () => {
  const ledger = outlasting()
  const name = freshName()
  const shelf = openDatabaseShelf({ name })
  await put(shelf, 'b', 'coolant under the core', '0417')
  await put(shelf, 'c', 'a demo that was changed')
  const first = await openPage(shelf, { ledger })
  await saved(first)
  await sees(() => expect(ledger.read().kept).toHaveLength(3))
  closePages()
  await deleteDB(name)

  const again = await openPage(caseShelfOnDesk(openDatabaseShelf({ name })), { ledger })
  await sees(() =>
    expect(lost(again).toSorted()).toEqual(['0417: coolant under the core', 'a card', 'a demo that was changed']),
  )
  closePages()
  const later = await openPage(caseShelfOnDesk(openDatabaseShelf({ name })), { ledger })
  await sees(() => expect(lost(later)).toHaveLength(3))
  forgetLost(later)
  expect(lost(later)).toEqual([])
  expect(ledger.read().lost).toEqual([])
})

/** Takes no case: what is on the desk of such a page never comes onto the shelf. */
const caseShelfOnDesk = (shelf: CaseShelf): CaseShelf => ({ ...shelf, save: () => Promise.resolve(bad(noRoom)) })

test('a case that was deleted, or is still there, counts as no loss', async () => {
  const ledger = outlasting()
  const name = freshName()
  const shelf = openDatabaseShelf({ name })
  await put(shelf, 'b', 'deleted by hand')
  const first = await openPage(shelf, { ledger })
  await saved(first)
  await sees(() => expect(ledger.read().kept).toHaveLength(2))
  await shelf.remove('b')
  await sees(() => expect(ledger.read().kept.map(({ id }) => id)).toEqual(['a']))
  closePages()
  const again = await openPage(openDatabaseShelf({ name }), { ledger, kept: true })
  await sees(() => expect(ledger.read().kept).toHaveLength(1))
  expect(lost(again)).toEqual([])
})

test('dropped under an open case, that case is kept again, and the others are told', async () => {
  const ledger = outlasting()
  const name = freshName()
  const shelf = openDatabaseShelf({ name })
  await put(shelf, 'b', 'the other')
  const desk = await openPage(shelf, { ledger })
  await saved(desk)
  await sees(() => expect(ledger.read().kept).toHaveLength(2))
  await deleteDB(name)
  type(desk, 'typed on')
  await saved(desk)
  expect(desk.saving.getState()).toMatchObject({ conflict: undefined, trouble: undefined })
  expect(value(await shelf.load('a')).history.present.arrival.account).toBe('typed on')
  await sees(() => expect(lost(desk)).toEqual(['the other']))
})

test('photos that went with a dropped shelf are told by name', async () => {
  const name = freshName()
  const shelf = openDatabaseShelf({ name })
  const desk = await openPage(shelf, { files: shelf.files })
  const photo = { id: 'p', name: 'corner.png', type: 'image/png', bytes: 1, widthPx: 1, heightPx: 1, side: 'top' }
  value(await shelf.files.put('p', new Blob(['x'])))
  editCase(desk, (c) => ({ ...c, photos: caseOf({ photos: [photo] }).photos }))
  await saved(desk)
  await sees(() => expect(desk.ledger.read().kept).toHaveLength(1))
  expect(desk.screen.getState().message).toBeUndefined()
  await deleteDB(name)
  type(desk, 'typed on')
  await saved(desk)
  await sees(() => expect(desk.screen.getState().message?.lines).toEqual(['corner.png']))
})

test('what the storage refused once is to be exported, also after it was kept and after a reload', async () => {
  const ledger = outlasting()
  const name = freshName()
  const shelf = openDatabaseShelf({ name })
  const desk = await openPage(shelf, { ledger })
  await saved(desk)
  expect(desk.saving.getState().owed).toEqual([])
  const refused = vi.spyOn(shelf, 'save').mockResolvedValue(bad(noRoom))
  type(desk, 'typed while it was full')
  await saved(desk)
  refused.mockRestore()
  await saved(desk)
  expect(desk.saving.getState()).toMatchObject({ trouble: undefined, owed: [{ id: 'a', why: 'no room' }] })
  closePages()
  const again = await openPage(openDatabaseShelf({ name }), { ledger, kept: true })
  expect(again.saving.getState().owed).toEqual([{ id: 'a', why: 'no room' }])
  settle(again, 'a')
  expect(again.saving.getState().owed).toEqual([])
  expect(ledger.read().owed).toEqual([])
})

test('a shelf that could not be listed is asked again by itself, with nothing to save', async () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'Date'] })
  try {
    const shelf = caseShelfInMemory()
    const desk = await openPage(shelf)
    await saved(desk)
    const refused = vi.spyOn(shelf, 'list').mockResolvedValue(bad(noRoom))
    desk.saving.setState({ trouble: noRoom })
    await vi.advanceTimersByTimeAsync(20_000)
    expect(desk.saving.getState().trouble).toEqual(noRoom)
    expect(refused.mock.calls.length).toBeLessThanOrEqual(5)
    refused.mockRestore()
    await vi.advanceTimersByTimeAsync(6000)
    expect(desk.saving.getState().trouble).toBeUndefined()
  } finally {
    vi.useRealTimers()
  }
})

test('a refused shelf is asked again by itself, without anything being typed', async () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'Date'] })
  try {
    const shelf = caseShelfInMemory()
    const desk = await openPage(shelf)
    const refused = vi.spyOn(shelf, 'save').mockResolvedValue(bad(noRoom))
    await saved(desk)
    refused.mockRestore()
    expect(desk.saving.getState().trouble).toEqual(noRoom)
    await vi.advanceTimersByTimeAsync(6000)
    expect(desk.saving.getState().trouble).toBeUndefined()
    expect(value(await shelf.list())).toHaveLength(1)
  } finally {
    vi.useRealTimers()
  }
})

test('a long report that the storage refused keeps the case from counting as saved, and is put there later', async () => {
  const memory = fileStoreInMemory()
  let full = true
  const files: FileStore = {
    ...memory,
    put: (id, bytes) => (full ? Promise.resolve(bad(noRoom)) : memory.put(id, bytes)),
  }
  const desk = await openPage(openDatabaseShelf({ name: freshName() }), { files })
  await saved(desk)
  keepTrying(desk, 'reports/long', new Blob(['lane,errors']), noRoom)
  await saved(desk)
  expect(desk.saving.getState().trouble).toEqual(noRoom)
  expect(wouldLose(desk)).toBe(true)
  full = false
  await saved(desk)
  expect(desk.saving.getState().trouble).toBeUndefined()
  expect(wouldLose(desk)).toBe(false)
  expect(await (await memory.get('reports/long'))?.text()).toBe('lane,errors')
})

test('leaving asks while something is unsaved, refused or in conflict, and not once it is kept or exported', async () => {
  const shelf = openDatabaseShelf({ name: freshName() })
  const desk = await openPage(shelf)
  expect(wouldLose(desk)).toBe(true)
  await saved(desk)
  expect(wouldLose(desk)).toBe(false)
  type(desk, 'typed')
  expect(wouldLose(desk)).toBe(true)
  await saved(desk)
  desk.saving.setState({ conflict: 'changed-elsewhere' })
  expect(wouldLose(desk)).toBe(true)
  value(await exportCase(desk))
  expect(wouldLose(desk)).toBe(false)
})

test('where the shelf lasts only as long as the page, leaving asks until each case was exported', async () => {
  const desk = await openPage(caseShelfInMemory())
  await saved(desk)
  expect(wouldLose(desk)).toBe(true)
  value(await exportCase(desk))
  settle(desk, 'a')
  expect(wouldLose(desk)).toBe(false)
  type(desk, 'typed on')
  await saved(desk)
  expect(wouldLose(desk)).toBe(true)
})

test('a ledger that can’t be read is begun anew, and storage that is forbidden is none', () => {
  const broken = ledgerIn({ getItem: () => '{"kept": 7}', setItem: () => undefined })
  expect(broken.read()).toEqual({ kept: [], lost: [], owed: [] })
  const forbidden = ledgerIn({
    getItem: () => {
      throw new DOMException('no', 'SecurityError')
    },
    setItem: () => {
      throw new DOMException('no', 'SecurityError')
    },
  })
  forbidden.write({ kept: [], lost: [], owed: [{ id: 'a', why: 'no room' }] })
  expect(forbidden.read().owed).toHaveLength(1)
})
