/** The camera as the hand meets it: frozen and kept by keys, gone while it is live, not there, not allowed; and closed with its dialog. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test, vi } from 'vitest'
import { undoEdit } from '../../src/view/actions/edit.ts'
import { focusOn, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'

let app: RunningApp
/** Every stream that was handed out. */
let streams: MediaStream[] = []
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  await app.reset()
  app.desk.screen.setState({ station: 'inspection', selection: undefined, chosenTheme: 'paper' })
  streams = []
})
afterEach(async () => {
  vi.restoreAllMocks()
  await userEvent.keyboard('{Escape}')
  await waitUntil(() => dialog().query() === null)
})
afterAll(() => app.close())

const why = () => page.getByRole('complementary', { name: 'Why' })
const dialog = () => page.getByRole('dialog', { name: 'Camera' })
const photos = () => app.desk.cases.getState().history?.present.photos ?? []

/** A camera of 640 × 480 px that sees one colour; it gives a picture whenever it is painted. */
function plugIn(): void {
  vi.spyOn(navigator.mediaDevices, 'getUserMedia').mockImplementation(() => {
    const canvas = document.createElement('canvas')
    canvas.width = 640
    canvas.height = 480
    const context = canvas.getContext('2d')
    const stream = canvas.captureStream()
    const paint = (): void => {
      if (context === null || !stream.active) return
      context.fillStyle = '#2060a0'
      context.fillRect(0, 0, 640, 480)
      requestAnimationFrame(paint)
    }
    paint()
    streams.push(stream)
    return Promise.resolve(stream)
  })
}

const refuse = (name: string): void => {
  vi.spyOn(navigator.mediaDevices, 'getUserMedia').mockRejectedValue(new DOMException('', name))
}

async function openCamera(): Promise<void> {
  await focusOn(why().getByRole('button', { name: 'Camera…' }))
  await userEvent.keyboard('{Enter}')
  await waitUntil(() => dialog().query() !== null)
}

/** By the button that has the keyboard as soon as the dialog is there. */
async function freezes(): Promise<void> {
  await waitUntil(() => seesSomething() && document.activeElement?.textContent === 'Freeze')
  await userEvent.keyboard('{Enter}')
}

const seesSomething = (): boolean => (document.querySelector('video')?.videoWidth ?? 0) > 0
const tracks = (): readonly string[] =>
  streams.flatMap((stream) => stream.getTracks().map(({ readyState }) => readyState))

test('two presses take a photo, which is kept as a dropped one is, at the camera’s own size', async () => {
  plugIn()
  await openCamera()
  await freezes()
  await expect.element(dialog().getByRole('img', { name: 'Frozen picture' })).toBeVisible()
  await userEvent.keyboard('{Enter}')
  await expect.element(dialog().getByText('1 photo kept')).toBeVisible()
  expect(photos()).toMatchObject([{ name: 'camera-1.jpg', type: 'image/jpeg', widthPx: 640, heightPx: 480 }])
  expect(photos()[0]?.atIntake).toBeUndefined()
  await userEvent.keyboard('{Escape}')
  await expect.element(why().getByRole('article', { name: 'camera-1.jpg' })).toBeVisible()
  await expect.element(why().getByRole('button', { name: 'Match to the board' })).toBeVisible()
})

test('a photo that is taken at arrival stays there, marked as one of the intake', async () => {
  app.desk.screen.setState({ station: 'arrival' })
  await expect.element(why().getByRole('region', { name: 'Photos at intake' })).toBeVisible()
  plugIn()
  await openCamera()
  await freezes()
  await dialog().getByRole('button', { name: 'Keep photo' }).click()
  await waitUntil(() => photos().length === 1)
  expect(photos()[0]?.atIntake).toBe(true)
  expect(app.desk.screen.getState().station).toBe('arrival')
  undoEdit(app.desk)
  expect(photos()).toEqual([])
})

test('the camera is off as soon as the dialog is closed', async () => {
  plugIn()
  await openCamera()
  await waitUntil(seesSomething)
  expect(tracks()).toContain('live')
  await userEvent.keyboard('{Escape}')
  await waitUntil(() => dialog().query() === null)
  expect(new Set(tracks())).toEqual(new Set(['ended']))
})

test('a camera that is unplugged says so, what was frozen can still be kept, and it starts again when it is there', async () => {
  plugIn()
  await openCamera()
  await freezes()
  await expect.element(dialog().getByRole('button', { name: 'Keep photo' })).toBeVisible()
  streams.at(-1)?.getVideoTracks()[0]?.dispatchEvent(new Event('ended'))
  await dialog().getByRole('button', { name: 'Keep photo' }).click()
  await waitUntil(() => photos().length === 1)
  await expect.element(dialog().getByRole('alert')).toHaveTextContent('The camera is gone. Plug it in again')
  await dialog().getByRole('button', { name: 'Try again' }).click()
  await waitUntil(() => streams.length >= 2 && seesSomething())
  await expect.element(dialog().getByRole('alert')).not.toBeInTheDocument()
})

test.each([
  ['NotFoundError', 'No camera is connected. Plug one in'],
  ['NotAllowedError', 'Allow it beside the address'],
  ['NotReadableError', 'Close that program'],
  ['UnknownError', 'Unplug it, plug it in'],
])('where the browser says %s, the sentence says what to do', async (name, words) => {
  refuse(name)
  await openCamera()
  await expect.element(dialog().getByRole('alert')).toHaveTextContent(words)
  await focusOn(dialog().getByRole('button', { name: 'Freeze' }))
  await userEvent.keyboard('{Enter}')
  await expect.element(dialog().getByRole('button', { name: 'Keep photo' })).not.toBeInTheDocument()
})

test.each([
  ['paper', 1440, 900],
  ['chalk', 820, 1180],
] as const)('axe finds nothing in the camera on %s at %i px', async (theme, width, height) => {
  await page.viewport(width, height)
  app.desk.screen.setState({ chosenTheme: theme })
  plugIn()
  await openCamera()
  await waitUntil(seesSomething)
  const found = await axe.run(dialog().element())
  expect(found.violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([])
})
