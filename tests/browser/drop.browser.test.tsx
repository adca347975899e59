/** A dropped file, whatever it is: opened once, told by its content, and taken where it belongs. */
import { page } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import bowline from '../../boards/bowline-8.json'
import { takeFile } from '../../src/view/actions/drop.ts'
import { exampleCase, reportText, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'
import { photoOf } from '../support/photoOf.ts'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(() => app.reset())
afterAll(() => app.close())

const CORNER = { x: 420, y: 64 }
const onDesk = () => {
  const { history, board } = app.desk.cases.getState()
  if (history === undefined || board === undefined) throw new Error('no case')
  return { ...history.present, model: board.model }
}

/** A file that counts how often its bytes are asked for. */
class Counted extends File {
  opened = 0
  override arrayBuffer(): Promise<ArrayBuffer> {
    this.opened++
    return super.arrayBuffer()
  }
  override text(): Promise<string> {
    this.opened++
    return super.text()
  }
  override stream(): ReadableStream<Uint8Array<ArrayBuffer>> {
    this.opened++
    return super.stream()
  }
  override slice(...range: Parameters<File['slice']>): Blob {
    this.opened++
    return super.slice(...range)
  }
}

const textOf: Readonly<Record<string, () => string>> = {
  board: () => JSON.stringify(bowline),
  case: () => JSON.stringify({ ...exampleCase, title: 'Dropped', board: { inline: bowline } }),
  report: () => reportText,
}

test.each(['report', 'board', 'case'] as const)('a %s is opened once, and is there', async (kind) => {
  const file = new Counted([textOf[kind]?.() ?? ''], `dropped.${kind}`)
  await takeFile(app.desk, file, CORNER)
  if (kind === 'report')
    await waitUntil(() => onDesk().reports.some(({ name, text }) => name === 'dropped.report' && text === reportText))
  if (kind === 'board') expect(onDesk().title).toContain(bowline.name)
  if (kind === 'case') expect(onDesk().title).toBe('Dropped')
  expect(file.opened).toBe(1)
})

test('a photo is opened once, and what is kept of it is all of it', async () => {
  const photo = await photoOf(onDesk().model, { minX: 32, minY: 100, maxX: 44, maxY: 110 })
  const file = new Counted([await photo.arrayBuffer()], 'top.png', { type: photo.type })
  await takeFile(app.desk, file, CORNER)
  const [kept] = onDesk().photos
  expect(kept?.bytes).toBe(photo.size)
  expect((await app.desk.files.get(kept?.id ?? ''))?.size).toBe(photo.size)
  expect(file.opened).toBe(1)
})

test('what nothing can be made of is opened once and refused with what it is', async () => {
  const file = new Counted([new Uint8Array([0x1f, 0x8b, 8, 0, 20, 0, 0, 0, 8, 0])], 'packed.gz')
  await takeFile(app.desk, file, CORNER)
  expect(app.desk.screen.getState().message?.faults).toMatchObject([{ found: 'a binary file' }])
  expect(file.opened).toBe(1)
})
