/** The shelf in a real browser: started anew the app goes on where it was; what is in the way is said; one file carries a case. */
import axe from 'axe-core'
import { page } from 'vitest/browser'
import { afterEach, expect, test, vi } from 'vitest'
import { bad } from '../../src/base/index.ts'
import { editArrival, editCase, undoEdit } from '../../src/view/actions/edit.ts'
import { exportCase } from '../../src/view/actions/exchange.ts'
import { type DatabaseShelf, openDatabaseShelf } from '../../src/view/shelf/databaseShelf.ts'
import { noStorage } from '../../src/view/shelf/troubles.ts'
import { caseShelfInMemory } from '../../src/view/shelf/memoryShelf.ts'
import { dropFile, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'
import { sees } from '../support/waiting.ts'

const running: RunningApp[] = []
const opened: DatabaseShelf[] = []
afterEach(() => {
  for (const app of running.splice(0)) app.close()
  for (const shelf of opened.splice(0)) shelf.close()
  sessionStorage.clear()
  vi.restoreAllMocks()
})

let names = 0
const freshName = (): string => `liftmap-test-${Date.now()}-${++names}`

function openShelf(name: string): DatabaseShelf {
  const shelf = openDatabaseShelf({ name })
  opened.push(shelf)
  return shelf
}

async function start(name: string): Promise<{ app: RunningApp; shelf: DatabaseShelf }> {
  const shelf = openShelf(name)
  const app = await startApp({ caseShelf: shelf, files: shelf.files })
  running.push(app)
  return { app, shelf }
}

const account = (app: RunningApp): string => app.desk.cases.getState().history?.present.arrival.account ?? ''
const word = (text: string) => page.getByRole('banner').getByText(text, { exact: true })
const noticeBox = (): Element => document.querySelector('[aria-label="Keeping the case"]') ?? document.body
const notice = (): string => noticeBox().querySelector('p')?.textContent ?? ''
const button = (name: string) => page.getByRole('button', { name, exact: true })

test('a demo is kept once it is changed; started anew, the app goes on there with undo and redo', async () => {
  const name = freshName()
  const first = await start(name)
  await expect.element(word('Demo')).toBeVisible()
  expect(await first.shelf.list()).toMatchObject({ value: [] })
  editArrival(first.app.desk, { account: 'one' })
  editArrival(first.app.desk, { seen: 'two' })
  editArrival(first.app.desk, { owner: 'three' })
  undoEdit(first.app.desk)
  await expect.element(word('Saved')).toBeVisible()
  const before = first.app.desk.cases.getState()
  running.pop()?.close()

  const { app } = await start(name)
  const after = app.desk.cases.getState()
  expect(after.id).toBe(before.id)
  expect(after.history?.present).toEqual(before.history?.present)
  await button('Redo').click()
  expect(app.desk.cases.getState().history?.present.arrival.owner).toBe('three')
  for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Undo', exact: true }).click()
  expect(account(app)).toBe('A fitting leaked.')
  expect(app.desk.cases.getState().history?.past).toEqual([])
})

test('full storage is said with an export and a second try; work goes on, and nothing is lost', async () => {
  const { app, shelf } = await start(freshName())
  const full = vi
    .spyOn(shelf, 'save')
    .mockResolvedValue(bad({ path: 'shelf', found: 'no room left', expected: 'room', todo: 'Make some.' }))
  editArrival(app.desk, { account: 'typed while it is full' })
  editArrival(app.desk, { owner: 'typed on' })
  await waitUntil(() => notice().includes('Not kept yet: no room left. Make some.'))
  await expect.element(word('Not saved')).toBeVisible()
  await expect.element(button('Export now')).toBeVisible()
  const found = await axe.run(noticeBox())
  expect(found.violations.map(({ id }) => id)).toEqual([])
  full.mockRestore()
  await button('Try again').click()
  await expect.element(word('Saved')).toBeVisible()
  expect(notice()).toContain('The storage failed once: no room left.')
  await button('Export now').click()
  await waitUntil(() => notice() === '')
  const id = app.desk.cases.getState().id ?? ''
  expect(await shelf.load(id)).toMatchObject({
    value: { history: { present: { arrival: { account: 'typed while it is full', owner: 'typed on' } } } },
  })
})

test('another tab’s change comes in by itself; where both changed, the choice is offered and nothing is overwritten', async () => {
  const name = freshName()
  const { app, shelf } = await start(name)
  editArrival(app.desk, { account: 'first' })
  await expect.element(word('Saved')).toBeVisible()
  const id = app.desk.cases.getState().id ?? ''
  const other = openShelf(name)
  const saveOther = async (words: string): Promise<void> => {
    const stored = await other.load(id)
    if (!stored.ok) throw new Error('not there')
    const { entry, history } = stored.value
    const present = { ...history.present, arrival: { ...history.present.arrival, account: words } }
    await other.save({ id, history: { ...history, present }, boardName: entry.boardName, basedOnRev: entry.rev })
  }
  await saveOther('from the other tab')
  await waitUntil(() => account(app) === 'from the other tab')
  expect(notice()).toBe('')

  const held = vi.spyOn(shelf, 'save').mockResolvedValue(bad({ path: 'x', found: 'a moment', expected: 'y' }))
  editArrival(app.desk, { owner: 'mine' })
  await saveOther('theirs again')
  await waitUntil(() => notice().startsWith('Another tab changed this case.'))
  held.mockRestore()
  await button('Keep mine as a copy').click()
  await expect.element(word('Saved')).toBeVisible()
  await sees(async () => {
    const kept = await shelf.list()
    expect(kept.ok && kept.value.map(({ title, owner }) => [title, owner])).toEqual([
      ['a fitting leaked, two packages fail (mine)', 'mine'],
      ['a fitting leaked, two packages fail', ''],
    ])
  })
})

test('a browser that offers no storage is said, and everything else works', async () => {
  const app = await startApp({ caseShelf: { ...caseShelfInMemory(), notice: noStorage } })
  running.push(app)
  await waitUntil(() => notice().startsWith('Nothing is kept here.'))
  editArrival(app.desk, { account: 'typed' })
  await expect.element(word('Not saved')).toBeVisible()
})

test('a case with a photo goes through one file and back, twice, as cases of their own', async () => {
  const { app, shelf } = await start(freshName())
  const photo = new File([await pngOf(120, 90)], 'corner.png', { type: 'image/png' })
  dropFile(photo, { x: 700, y: 500 })
  await waitUntil(() => app.desk.cases.getState().history?.present.photos.length === 1)
  editCase(app.desk, (c) => ({ ...c, demo: false, title: 'with a photo' }))
  const exported = await exportCase(app.desk)
  if (!exported.ok) throw new Error(JSON.stringify(exported.faults))
  expect(exported.value).toMatchObject({ name: '0417.case.zip', leftOut: [] })
  const ids = new Set([app.desk.cases.getState().id])
  for (let i = 0; i < 2; i++) {
    dropFile(new File([exported.value.bytes], 'anything.bin'), { x: 700, y: 500 })
    await waitUntil(() => !ids.has(app.desk.cases.getState().id))
    ids.add(app.desk.cases.getState().id)
    const [taken] = app.desk.cases.getState().history?.present.photos ?? []
    const bytes = await shelf.files.get(taken?.id ?? '')
    expect(new Uint8Array((await bytes?.arrayBuffer()) ?? [])).toEqual(new Uint8Array(await photo.arrayBuffer()))
    await expect.element(word('Saved')).toBeVisible()
  }
  await sees(async () => {
    const kept = await shelf.list()
    expect(kept.ok && kept.value.map(({ title }) => title)).toEqual(['with a photo', 'with a photo', 'with a photo'])
  })
})

async function pngOf(width: number, height: number): Promise<Blob> {
  const canvas = new OffscreenCanvas(width, height)
  const pen = canvas.getContext('2d')
  pen?.fillRect(10, 10, 30, 30)
  return canvas.convertToBlob({ type: 'image/png' })
}
