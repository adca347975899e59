/** Copies in a real folder: of the browser's own file system, in place of one on the user's disk. */
import axe from 'axe-core'
import { page } from 'vitest/browser'
import { afterEach, expect, test, vi } from 'vitest'
import { readCase } from '../../src/case/index.ts'
import { editArrival, editCase } from '../../src/view/actions/edit.ts'
import { type DatabaseShelf, openDatabaseShelf } from '../../src/view/shelf/databaseShelf.ts'
import { folderKeeper } from '../../src/view/shelf/folderKeeper.ts'
import { type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'
import { sees } from '../support/waiting.ts'

const running: RunningApp[] = []
const opened: DatabaseShelf[] = []
afterEach(() => {
  for (const app of running.splice(0)) app.close()
  for (const shelf of opened.splice(0)) shelf.close()
  sessionStorage.clear()
  vi.restoreAllMocks()
  delete window.showDirectoryPicker
})

const button = (name: string) => page.getByRole('button', { name, exact: true })
const notice = (): string => document.querySelector('[aria-label="Keeping the case"]')?.textContent ?? ''

/** The browser offers this folder, whatever the user would choose. */
async function offer(name: string): Promise<FileSystemDirectoryHandle> {
  const root = await navigator.storage.getDirectory()
  const folder = await root.getDirectoryHandle(name, { create: true })
  window.showDirectoryPicker = () => Promise.resolve(folder)
  return folder
}

async function start(name: string): Promise<RunningApp> {
  const shelf = openDatabaseShelf({ name })
  opened.push(shelf)
  const app = await startApp({ caseShelf: shelf, files: shelf.files, folders: folderKeeper(window, `${name} folder`) })
  running.push(app)
  return app
}

async function namesIn(folder: FileSystemDirectoryHandle): Promise<string[]> {
  const names: string[] = []
  for await (const name of folder.keys()) names.push(name)
  return names
}

test('a chosen folder holds one file a case, also after the case was renamed and after a restart', async () => {
  const name = `copies-${Date.now()}`
  const folder = await offer(name)
  const app = await start(name)
  editCase(app.desk, (c) => ({ ...c, demo: false, card: '0417' }))
  await app.desk.saving.getState().saveNow()
  await button('Cases').click()
  await button('Copies in a folder…').click()
  await sees(async () =>
    expect(await namesIn(folder)).toEqual([expect.stringMatching(/^0417-[0-9a-f]{8}\.case\.json$/)]),
  )
  await expect.element(page.getByText(`Each case is copied to the folder “${name}”`)).toBeVisible()
  await page.getByRole('button', { name: 'Close the list of cases' }).click()

  editCase(app.desk, (c) => ({ ...c, card: '0418' }))
  await app.desk.saving.getState().saveNow()
  await sees(async () => expect(await namesIn(folder)).toEqual([expect.stringMatching(/^0418-/)]))
  running.pop()?.close()

  const again = await start(name)
  await waitUntil(() => again.desk.copies.getState().stage === 'on')
  editArrival(again.desk, { account: 'after a restart' })
  await again.desk.saving.getState().saveNow()
  await sees(async () => {
    const [fileName = ''] = await namesIn(folder)
    const file = await (await folder.getFileHandle(fileName)).getFile()
    const copy = readCase(await file.text(), fileName)
    expect(copy.ok && copy.value.arrival.account).toBe('after a restart')
  })
})

test('a folder that is gone is told in a sentence, with what can be done', async () => {
  const name = `gone-${Date.now()}`
  const folder = await offer(name)
  const app = await start(name)
  editCase(app.desk, (c) => ({ ...c, demo: false }))
  await app.desk.saving.getState().saveNow()
  await button('Cases').click()
  await button('Copies in a folder…').click()
  await sees(async () => expect(await namesIn(folder)).toHaveLength(1))
  await page.getByRole('button', { name: 'Close the list of cases' }).click()
  const root = await navigator.storage.getDirectory()
  await root.removeEntry(name, { recursive: true })
  editArrival(app.desk, { account: 'into nothing' })
  await waitUntil(() => notice().includes(`the folder “${name}” is not there any more`))
  const box = document.querySelector('[aria-label="Keeping the case"]') ?? document.body
  expect((await axe.run(box)).violations.map(({ id }) => id)).toEqual([])
  await button('Stop copying').click()
  await waitUntil(() => notice() === '')
})
