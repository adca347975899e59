/** Copies in a folder of the user's own: one file a case, after each save; what stops them is said. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { bad, type Fault, good } from '../../src/base/index.ts'
import { readCase } from '../../src/case/index.ts'
import { allowCopies, chooseFolder, stopCopies, watchForCopies } from '../../src/view/actions/copies.ts'
import { owe } from '../../src/view/actions/ledger.ts'
import type { CopyFile, CopyFolder, MayWrite } from '../../src/view/shelf/copyFolder.ts'
import type { FolderKeeper } from '../../src/view/shelf/folderKeeper.ts'
import { caseShelfInMemory } from '../../src/view/shelf/memoryShelf.ts'
import { closeDesk, createDesk, type Desk } from '../../src/view/stores/desk.ts'
import { BOARD, caseOf, edited, value } from './support.ts'

const ends: (() => void)[] = []
beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'Date'] }))
afterEach(() => {
  for (const end of ends.splice(0)) end()
  vi.useRealTimers()
})

/** A folder as the user's disk and browser have it. */
function folderOf(name: string) {
  const files: CopyFile[] = []
  const state: { may: MayWrite; refuses: Fault | undefined } = { may: 'granted', refuses: undefined }
  const folder: CopyFolder = {
    name,
    mayWrite: () => Promise.resolve(state.may),
    askToWrite: () => Promise.resolve((state.may = 'granted')),
    put: (file) => {
      if (state.may !== 'granted') return Promise.resolve(good('not-allowed'))
      if (state.refuses !== undefined) return Promise.resolve(bad(state.refuses))
      files.push(file)
      return Promise.resolve(good('written'))
    },
  }
  return { folder, files, state }
}

function openPage(folder: CopyFolder, last?: CopyFolder): Desk {
  const deaf = { postMessage: () => undefined, addEventListener: () => undefined }
  const demos = { cases: [], boards: [], open: () => Promise.resolve(undefined) }
  const folders: FolderKeeper = {
    choose: () => Promise.resolve(folder),
    last: () => Promise.resolve(last),
    forget: () => Promise.resolve(),
  }
  const desk = createDesk({ startWorker: () => deaf, shelf: demos, caseShelf: caseShelfInMemory(), folders })
  const end = watchForCopies(desk)
  ends.push(() => {
    end()
    closeDesk(desk)
  })
  return desk
}

const save = async (desk: Desk, id: string, title: string, rev = 0): Promise<void> => {
  const history = edited(caseOf({ title }), rev)
  value(await desk.caseShelf.save({ id, history, boardName: BOARD, basedOnRev: rev }))
}
const pass = (ms: number): Promise<unknown> => vi.advanceTimersByTimeAsync(ms)
const stage = (desk: Desk): string => desk.copies.getState().stage

test('a folder that was chosen gets every case at once, and each again after it is saved', async () => {
  const { folder, files } = folderOf('copies')
  const desk = openPage(folder)
  await save(desk, 'a', 'first')
  await save(desk, 'b', 'second')
  await chooseFolder(desk)
  expect(Object.fromEntries(files.map(({ id, name }) => [id, name]))).toEqual({
    a: 'first.case.json',
    b: 'second.case.json',
  })
  await save(desk, 'a', 'first', 1)
  await pass(2000)
  expect(files.map(({ id }) => id)).toHaveLength(3)
  const copy = value(readCase(await (files.at(-1)?.bytes.text() ?? ''), 'copy'))
  expect(copy.arrival.account).toBe('edit 1')
})

test('while somebody types, no more than one copy in five seconds is written, and the last state comes', async () => {
  const { folder, files } = folderOf('copies')
  const desk = openPage(folder)
  await chooseFolder(desk)
  for (let rev = 0; rev < 100; rev++) {
    await save(desk, 'a', 'typed', rev)
    await pass(200)
  }
  expect(files.length).toBeGreaterThanOrEqual(3)
  expect(files.length).toBeLessThanOrEqual(5)
  await pass(6000)
  const copy = value(readCase(await (files.at(-1)?.bytes.text() ?? ''), 'copy'))
  expect(copy.arrival.account).toBe('edit 99')
})

test('a permission that is gone is told, and once it is given again every case is written', async () => {
  const { folder, files, state } = folderOf('copies')
  const desk = openPage(folder)
  await chooseFolder(desk)
  state.may = 'prompt'
  await save(desk, 'a', 'first')
  await pass(2000)
  expect(stage(desk)).toBe('asks')
  expect(files).toEqual([])
  await allowCopies(desk)
  expect(stage(desk)).toBe('on')
  expect(files.map(({ id }) => id)).toEqual(['a'])
})

test('after a restart the folder of last time goes on, or it is told that the browser wants to ask again', async () => {
  const granted = folderOf('copies')
  const on = openPage(granted.folder, granted.folder)
  await pass(0)
  expect(stage(on)).toBe('on')
  const asking = folderOf('copies')
  asking.state.may = 'prompt'
  const asks = openPage(asking.folder, asking.folder)
  await pass(0)
  expect(stage(asks)).toBe('asks')
})

test('a folder that refuses is told with its reason, and tried again with the next save', async () => {
  const { folder, files, state } = folderOf('copies')
  const desk = openPage(folder)
  await chooseFolder(desk)
  state.refuses = { path: 'folder', found: 'not there', expected: 'there' }
  await save(desk, 'a', 'first')
  await pass(2000)
  expect(desk.copies.getState()).toMatchObject({ stage: 'failed', fault: { found: 'not there' } })
  state.refuses = undefined
  await save(desk, 'a', 'first', 1)
  await pass(6000)
  expect(desk.copies.getState()).toMatchObject({ stage: 'on', fault: undefined })
  expect(files).toHaveLength(1)
})

test('a copy settles what is to be exported; without copies nothing more is written', async () => {
  const { folder, files } = folderOf('copies')
  const desk = openPage(folder)
  await chooseFolder(desk)
  expect(desk.ledger.read().folder).toBe('copies')
  owe(desk, 'a', undefined)
  await save(desk, 'a', 'first')
  await pass(2000)
  expect(desk.saving.getState().owed).toEqual([])
  await stopCopies(desk)
  expect(desk.ledger.read().folder).toBeUndefined()
  await save(desk, 'a', 'first', 1)
  await pass(6000)
  expect(files).toHaveLength(1)
})
