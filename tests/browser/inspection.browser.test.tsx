/** The inspection as the hand meets it: photos matched by keys, seen under the drawing, strokes by mouse and by touch, axe. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { type Box, distance, type Point } from '../../src/base/index.ts'
import { type Mark, mannerOf } from '../../src/spill/index.ts'
import { putMark, undoEdit } from '../../src/view/actions/edit.ts'
import { movedMark } from '../../src/view/sheet/index.ts'
import { focusOn, dropFile, pageAt, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'
import { photoOf, SEEN_CORNERS } from '../support/photoOf.ts'
import { drawn } from '../support/sheetHand.ts'
import { sees } from '../support/waiting.ts'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  await app.reset()
  app.desk.screen.setState({ station: 'inspection', selection: undefined, tool: 'select', chosenTheme: 'paper' })
})
afterAll(() => app.close())

const why = () => page.getByRole('complementary', { name: 'Why' })
const present = () => {
  const now = app.desk.cases.getState().history?.present
  if (now === undefined) throw new Error('no case')
  return now
}
const model = () => {
  const board = app.desk.cases.getState().board
  if (board === undefined) throw new Error('no board')
  return board.model
}
/** In bare ground, where the drawing covers nothing. */
const patch: Box = { minX: 32, minY: 100, maxX: 44, maxY: 110 }
const middle = { x: 38.4, y: 105.3 }

async function dropPhoto(): Promise<void> {
  dropFile(await photoOf(model(), patch), pageAt(app.desk, { x: 100, y: 60 }))
  await waitUntil(() => present().photos.length === 1)
}

/** Tabs on until the element with this name has the keyboard. */
async function tabTo(name: RegExp): Promise<void> {
  for (let i = 0; i < 60; i++) {
    const label = document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent ?? ''
    if (name.test(label)) return
    await userEvent.keyboard('{Tab}')
  }
  throw new Error(`no way by Tab to ${name}`)
}

async function matchByKeys(): Promise<void> {
  await focusOn(why().getByRole('button', { name: 'Match to the board' }))
  await userEvent.keyboard('{Enter}')
  const dialog = page.getByRole('dialog')
  await waitUntil(() => dialog.query()?.contains(document.activeElement) ?? false)
  await expect.element(page.getByRole('button', { name: /^Point 1 on the photo/ })).toBeVisible()
  for (const [i, wanted] of SEEN_CORNERS.entries()) {
    await tabTo(new RegExp(`^Point ${i + 1} on the photo`))
    await stepTo(wanted)
  }
  await tabTo(/^Use this match$/)
  await userEvent.keyboard('{Enter}')
  await waitUntil(() => present().photos[0]?.corners !== undefined)
}

/** The held point's place, as it says it. */
function heldAt(): Point {
  const said = /(\d+) across, (\d+) down/.exec(document.activeElement?.getAttribute('aria-label') ?? '')
  return { x: Number(said?.[1]), y: Number(said?.[2]) }
}

async function stepTo(wanted: Point): Promise<void> {
  const FAR_PX = 24
  const from = heldAt()
  for (const [by, forth, back] of [
    [wanted.x - from.x, 'ArrowRight', 'ArrowLeft'],
    [wanted.y - from.y, 'ArrowDown', 'ArrowUp'],
  ] as const) {
    const key = by > 0 ? forth : back
    const far = Math.floor(Math.abs(by) / FAR_PX)
    if (far > 0) await userEvent.keyboard(`{Shift>}${`{${key}}`.repeat(far)}{/Shift}`)
    if (Math.abs(by) % FAR_PX > 0) await userEvent.keyboard(`{${key}}`.repeat(Math.abs(by) % FAR_PX))
  }
  await sees(() => expect(heldAt()).toEqual(wanted))
}

/** The colour of the board's own layer at a place of the top side. */
function colourAt(at: Point): readonly [number, number, number] {
  const canvas = document.querySelector<HTMLCanvasElement>('[data-pane="top"] canvas')
  const box = canvas?.getBoundingClientRect()
  const ctx = canvas?.getContext('2d')
  if (canvas === null || box === undefined || ctx === null || ctx === undefined) throw new Error('no sheet')
  const on = pageAt(app.desk, at)
  const ratio = canvas.width / box.width
  const [r = 0, g = 0, b = 0] = ctx.getImageData((on.x - box.left) * ratio, (on.y - box.top) * ratio, 1, 1).data
  return [r, g, b]
}
const isRed = (at: Point): boolean => {
  const [r, g, b] = colourAt(at)
  return r > 190 && g < 90 && b < 90
}

test('a dropped photo is kept whole, shown small, and its match by keys alone lays it straight under the drawing', async () => {
  await dropPhoto()
  const [photo] = present().photos
  expect(photo).toMatchObject({ type: 'image/png', widthPx: 1200, heightPx: 900, side: 'top' })
  expect((await app.desk.files.get(photo?.id ?? ''))?.size).toBe(photo?.bytes)
  await waitUntil(() => document.querySelector('article canvas') !== null)
  expect(document.querySelectorAll('article img')).toHaveLength(0)
  expect(document.querySelector<HTMLCanvasElement>('article canvas')?.width).toBeLessThanOrEqual(192)
  await matchByKeys()
  await waitUntil(() => app.desk.photos.getState().straightened.get(photo?.id ?? '')?.state === 'done')
  app.desk.cases.getState().board?.camera.getState().fit()
  await why().getByRole('slider', { name: 'Under the drawing' }).fill('100')
  await drawn()
  expect(isRed(middle)).toBe(true)
  for (const inside of [
    { x: 32.8, y: 100.8 },
    { x: 43.2, y: 109.2 },
  ]) {
    expect(isRed(inside)).toBe(true)
  }
  for (const outside of [
    { x: 30.9, y: 105 },
    { x: 45.1, y: 105 },
    { x: 38, y: 98.9 },
    { x: 38, y: 111.1 },
  ]) {
    expect(isRed(outside)).toBe(false)
  }
  await why().getByRole('slider', { name: 'Under the drawing' }).fill('0')
  await drawn()
  expect(isRed(middle)).toBe(false)
})

test('a removed photo comes back with undo, picture and all', async () => {
  await dropPhoto()
  const id = present().photos[0]?.id ?? ''
  app.desk.screen.setState({ selection: { kind: 'mark', id: 'residue-a' } })
  await why().getByRole('combobox', { name: 'Seen on the photo' }).selectOptions('top.png')
  const seenOn = (): unknown => present().marks.map((mark) => ('photo' in mark ? mark.photo : undefined))[1]
  expect(seenOn()).toBe(id)
  await why().getByRole('button', { name: 'Remove top.png' }).click()
  expect(present().photos).toHaveLength(0)
  expect(seenOn()).toBeUndefined()
  undoEdit(app.desk)
  expect(present().photos[0]?.id).toBe(id)
  expect(seenOn()).toBe(id)
  await waitUntil(() => document.querySelector('article canvas') !== null)
})

/** A JPEG with a note, as cameras write it, that it was held a quarter turn to the left (Exif 2.32, tag 0x0112, value 6). */
async function turnedJpeg(): Promise<File> {
  const canvas = new OffscreenCanvas(300, 200)
  canvas.getContext('2d')?.fillRect(0, 0, 300, 200)
  const plain = new Uint8Array(await (await canvas.convertToBlob({ type: 'image/jpeg' })).arrayBuffer())
  const tiff = [0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, 6, 0, 0, 0, 0, 0, 0]
  const segment = [0x45, 0x78, 0x69, 0x66, 0, 0, ...tiff]
  const note = [0xff, 0xe1, 0, segment.length + 2, ...segment]
  return new File([plain.slice(0, 2), new Uint8Array(note), plain.slice(2)], 'turned.jpg')
}

test('a photo taken with the camera on its side stands upright', async () => {
  dropFile(await turnedJpeg(), { x: 600, y: 400 })
  await waitUntil(() => present().photos.length === 1)
  expect(present().photos[0]).toMatchObject({ type: 'image/jpeg', widthPx: 200, heightPx: 300 })
  await waitUntil(() => document.querySelector('article canvas') !== null)
  const thumb = document.querySelector<HTMLCanvasElement>('article canvas')
  expect(thumb?.height).toBeGreaterThan(thumb?.width ?? 0)
})

test('corners on one line are refused with a sentence, and can’t be used', async () => {
  await dropPhoto()
  await why().getByRole('button', { name: 'Match to the board' }).click()
  await page.getByRole('radio', { name: '2', exact: true }).click({ force: true })
  await page.getByRole('textbox', { name: 'Photo, across' }).fill('145')
  await page.getByRole('textbox', { name: 'Photo, down' }).fill('790')
  await expect.element(page.getByRole('status').filter({ hasText: 'one line' })).toBeVisible()
  await expect.element(page.getByRole('button', { name: 'Use this match' })).toBeDisabled()
  await userEvent.keyboard('{Escape}')
  await expect.element(page.getByRole('dialog')).not.toBeInTheDocument()
})

test('pictures that are too small or broken are refused where they were dropped', async () => {
  const small = new OffscreenCanvas(20, 20)
  small.getContext('2d')
  dropFile(new File([await small.convertToBlob({ type: 'image/png' })], 'dot.png'), { x: 600, y: 400 })
  await expect.element(page.getByText(/20 × 20 pixels/)).toBeVisible()
  const whole = new Uint8Array(await (await photoOf(model(), patch)).arrayBuffer())
  dropFile(new File([whole.slice(0, 60)], 'cut.png'), { x: 600, y: 400 })
  await expect.element(page.getByText(/can’t be read to its end/)).toBeVisible()
  expect(present().photos).toHaveLength(0)
})

async function stroke(points: readonly Point[], pointerType: 'mouse' | 'touch'): Promise<void> {
  const [first, ...rest] = points.map((point) => pageAt(app.desk, point))
  if (first === undefined) return
  const target = document.elementFromPoint(first.x, first.y) ?? document.body
  const send = (type: string, { x, y }: Point, buttons: number): boolean =>
    target.dispatchEvent(
      new PointerEvent(type, {
        clientX: x,
        clientY: y,
        bubbles: true,
        cancelable: true,
        button: 0,
        buttons,
        pointerId: 7,
        pointerType,
        isPrimary: true,
      }),
    )
  send('pointerdown', first, 1)
  for (const point of rest) {
    send('pointermove', point, 1)
    await new Promise((resolve) => requestAnimationFrame(() => resolve(undefined)))
  }
  send('pointerup', rest.at(-1) ?? first, 0)
}

const lastMark = (): Mark | undefined => present().marks.at(-1)
const spillAt = (): Point => app.desk.results.getState().assessment?.suspects.spill?.at ?? { x: 0, y: 0 }

async function marking(kind: string, shape: string): Promise<void> {
  await page.getByRole('group', { name: 'What the hand does' }).getByRole('button', { name: /^Mark/ }).click()
  await strip().getByRole('button', { name: kind, exact: true }).click()
  await strip().getByRole('button', { name: shape, exact: true }).click()
}
const strip = () => page.getByRole('toolbar', { name: 'Mark' })

test.each(['mouse', 'touch'] as const)(
  'brush and lasso by %s make marks of their shape, and move the evidence',
  async (pointerType) => {
    await waitUntil(() => app.desk.results.getState().state === 'done')
    const before = spillAt()
    await marking('Film', 'Brush')
    const along = Array.from({ length: 12 }, (_, i) => ({ x: 150 + i * 0.6, y: 72 + i * 0.8 }))
    await stroke(along, pointerType)
    await waitUntil(() => lastMark()?.kind === 'film')
    const painted = lastMark()
    if (painted?.kind !== 'film') throw new Error('no film')
    expect(mannerOf(painted)).toBe('brush')
    expect(painted.path?.length).toBeLessThan(6)
    expect(distance(painted.path?.at(-1) ?? before, along.at(-1) ?? before)).toBeLessThan(0.5)
    await waitUntil(() => distance(spillAt(), before) > 0.05)

    await marking('Clean spot', 'Lasso')
    const round = Array.from({ length: 20 }, (_, i) => ({
      x: 120 + 6 * Math.cos((i * Math.PI) / 10),
      y: 60 + 4 * Math.sin((i * Math.PI) / 10),
    }))
    await stroke(round, pointerType)
    await waitUntil(() => lastMark()?.kind === 'clean')
    const lassoed = lastMark()
    if (lassoed?.kind !== 'clean') throw new Error('no clean')
    expect(mannerOf(lassoed)).toBe('lasso')
    expect(distance(lassoed.at, { x: 120, y: 60 })).toBeLessThan(0.8)

    app.desk.screen.setState({ selection: { kind: 'mark', id: painted.id } })
    document.querySelector<HTMLElement>('[role="application"]')?.focus()
    await userEvent.keyboard('{Shift>}{ArrowRight}{/Shift}')
    const moved = present().marks.find(({ id }) => id === painted.id)
    expect(moved?.kind === 'film' ? moved.path?.[0]?.x : 0).toBeCloseTo((painted.path?.[0]?.x ?? 0) + 5, 6)
    await userEvent.keyboard('{Delete}')
    expect(present().marks.some(({ id }) => id === painted.id)).toBe(false)
  },
)

test('one tool is in the hand at a time, and only what is in use is lit', async () => {
  const bar = page.getByRole('group', { name: 'What the hand does' })
  const select = bar.getByRole('button', { name: 'Select' })
  const mark = bar.getByRole('button', { name: /^Mark/ })
  app.desk.screen.setState({ painting: { manner: 'brush', brushMm: 2 } })
  await expect.element(select).toHaveAttribute('aria-pressed', 'true')
  await expect.element(strip()).not.toBeInTheDocument()
  await mark.click()
  await expect.element(mark).toHaveAttribute('aria-pressed', 'true')
  await expect.element(select).toHaveAttribute('aria-pressed', 'false')
  await expect
    .element(strip().getByRole('button', { name: 'Brush', exact: true }))
    .toHaveAttribute('aria-pressed', 'true')
  app.desk.screen.setState(({ naming }) => ({ tool: 'select', naming: { ...naming, held: 'CH0' } }))
  await expect.element(select).toHaveAttribute('aria-pressed', 'false')
  await select.click()
  await expect.element(select).toHaveAttribute('aria-pressed', 'true')
  expect(app.desk.screen.getState().naming.held).toBeUndefined()
})

test('a mark is worked out once for each move, and the drop where it lies asks for nothing', async () => {
  await waitUntil(() => app.desk.results.getState().state === 'done')
  const mark = present().marks.find(({ kind }) => kind === 'spill')
  if (mark === undefined) throw new Error('no spill')
  const at = { x: 100, y: 60 }
  putMark(app.desk, movedMark(mark, { x: 90, y: 60 }), 'move', 'drag')
  const last = movedMark(mark, at)
  putMark(app.desk, last, 'move', 'drag')
  const during = present()
  expect(during.marks).toContain(last)
  putMark(app.desk, last, 'move', 'drop')
  expect(present()).toBe(during)
  undoEdit(app.desk)
  expect(present().marks).toContain(mark)
})

test.each([
  [1440, 900],
  [820, 1180],
] as const)('axe finds nothing at %i by %i, in the panel and in both dialogs', async (width, height) => {
  await page.viewport(width, height)
  await dropPhoto()
  const faults = async (): Promise<string[]> =>
    (await axe.run(document.body)).violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)
  await waitUntil(() => document.querySelector('article canvas') !== null)
  expect(await faults()).toEqual([])
  await why().getByRole('button', { name: 'Match to the board' }).click()
  await expect.element(page.getByRole('button', { name: /^Point 4 on the board/ })).toBeVisible()
  expect(await faults()).toEqual([])
  await page.getByRole('button', { name: 'Close without matching' }).click()
  await why().getByRole('button', { name: 'Look at top.png' }).click()
  await expect.element(page.getByRole('img', { name: /Photo of the top side/ })).toBeVisible()
  expect(await faults()).toEqual([])
  await page.getByRole('button', { name: 'Close the photo' }).click()
})
