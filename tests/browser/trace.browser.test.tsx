/** A board traced from a photo as a new user would: clicks counted, places held to the board that was photographed. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, expect, test } from 'vitest'
import bowlineFile from '../../boards/bowline-8.json'
import { distance, type Point } from '../../src/base/index.ts'
import { loadBoard } from '../../src/board/index.ts'
import { type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'
import { boardCorners, photographed } from '../support/board-photo.ts'

let app: RunningApp
let clicks = 0
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
afterAll(() => app.close())

const loaded = loadBoard(bowlineFile)
if (!loaded.ok) throw new Error('no board')
const bowline = loaded.value
const corners = boardCorners(bowline)
/** What is traced has its origin where the board has its lower left corner, without the tab. */
const LOWER_MM = corners[3]?.y ?? 0
const SIZE = { widthPx: 1500, heightPx: 750 }

async function photoFile(): Promise<{ readonly file: File; readonly seen: (at: Point, heightMm?: number) => Point }> {
  const { picture, seen } = photographed(bowline, { ...SIZE, seed: 921, mask: 'green', k1: -0.04 })
  const canvas = new OffscreenCanvas(SIZE.widthPx, SIZE.heightPx)
  canvas
    .getContext('2d')
    ?.putImageData(new ImageData(new Uint8ClampedArray(picture.rgba), SIZE.widthPx, SIZE.heightPx), 0, 0)
  return {
    file: new File([await canvas.convertToBlob({ type: 'image/png' })], 'card.png', { type: 'image/png' }),
    seen,
  }
}

const dialog = () => page.getByRole('dialog', { name: 'A board from a photo' })
const photo = (): HTMLElement => {
  const found = document.querySelector<HTMLElement>('[aria-roledescription="photo to click on"]')
  if (found === null) throw new Error('no photo')
  return found
}
const press = async (name: string): Promise<void> => {
  clicks++
  await dialog().getByRole('button', { name, exact: true }).click()
}
const choose = async (label: string, option: string): Promise<void> => {
  clicks += 2
  await dialog().getByRole('combobox', { name: label }).selectOptions(option)
}

/** A click on the photo at a share of its width and height. */
function clickShare({ x, y }: Point): void {
  clicks++
  const box = photo().getBoundingClientRect()
  photo().dispatchEvent(
    new MouseEvent('click', { bubbles: true, clientX: box.left + x * box.width, clientY: box.top + y * box.height }),
  )
}

/** What the straight photo shows, in mm of the board as it is traced. */
const FRAME = { minX: -3, maxX: 270, minY: -14, maxY: 106 }
const shareOf = ({ x, y }: Point): Point => ({
  x: (x - FRAME.minX) / (FRAME.maxX - FRAME.minX),
  y: (FRAME.maxY - (y - LOWER_MM)) / (FRAME.maxY - FRAME.minY),
})

const tracedCount = (): number => Number(/(\d+) parts? traced/.exec(document.body.textContent ?? '')?.[1] ?? 0)
const proposalsCount = (): number => document.querySelectorAll('[data-out]').length

async function placeAt(ref: string): Promise<void> {
  const part = bowline.partByRef.get(ref)
  if (part === undefined) throw new Error(`no ${ref}`)
  const before = tracedCount()
  clickShare(shareOf({ x: part.placement.at.x + 0.8, y: part.placement.at.y - 0.6 }))
  await waitUntil(() => tracedCount() === before + 1)
}

/** Finds the likes of the part that was placed last, strikes out what is not of this kind, and takes the rest. */
async function takeLikes(kind: string, narrow = 0): Promise<void> {
  await press('Find its likes')
  await waitUntil(() => proposalsCount() > 0)
  const right = bowline.parts.filter((part) => part.kind === kind && part.side === 'top' && part.widthMm > narrow)
  const rows = [...document.querySelectorAll<HTMLLIElement>('section[aria-label="What looks like it"] li')]
  const wrong = rows.filter((row) => {
    const [, x = 0, y = 0] = /at (-?\d+), (-?\d+) mm/.exec(row.textContent ?? '')?.map(Number) ?? []
    return !right.some(({ placement }) => distance(placement.at, { x, y: y + LOWER_MM }) < 2)
  })
  for (const row of wrong) {
    clicks++
    row.querySelector('input')?.click()
  }
  await waitUntil(() => document.querySelectorAll('[data-out="true"]').length === wrong.length)
  await press(`Take ${rows.length - wrong.length}`)
}

test('what is no photo, or a far too large one, is refused with a sentence and nothing half loaded', async () => {
  await page.getByRole('button', { name: 'Start my own case' }).click()
  await page.getByRole('button', { name: 'Trace a board from a photo…' }).click()
  const head = new Uint8Array(64)
  head.set([
    0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52, 0, 0, 0x75, 0x30, 0, 0, 0x75,
    0x30,
  ])
  const small = head.slice()
  small.set([0, 0, 3, 0xe8, 0, 0, 3, 0xe8], 16)
  for (const [bytes, words] of [
    [head, /30000 × 30000 pixels, expected at most 64 million pixels/],
    [small, /can’t be read to its end/],
    [new TextEncoder().encode('no picture'), /no picture that can be read/],
  ] as const) {
    const chooser = document.querySelector<HTMLInputElement>('input[aria-label="Photo of the board"]')
    const transfer = new DataTransfer()
    transfer.items.add(new File([bytes], 'x.png', { type: 'image/png' }))
    if (chooser === null) throw new Error('no chooser')
    chooser.files = transfer.files
    chooser.dispatchEvent(new Event('change', { bubbles: true }))
    await expect.element(dialog().getByRole('alert')).toHaveTextContent(words)
    expect(document.querySelector('[aria-roledescription="photo to click on"]')).toBeNull()
  }
  await dialog().getByRole('button', { name: 'Close without a new case' }).click()
  await expect.element(dialog()).not.toBeInTheDocument()
})

test('core, eight memories, stages and rails are traced in under 150 clicks, each within 0.3 mm', async () => {
  const { file, seen } = await photoFile()
  clicks++
  await page.getByRole('button', { name: 'Start my own case' }).click()
  clicks++
  await page.getByRole('button', { name: 'Trace a board from a photo…' }).click()
  clicks++
  const chooser = document.querySelector<HTMLInputElement>('input[aria-label="Photo of the board"]')
  if (chooser === null) throw new Error('no chooser')
  const transfer = new DataTransfer()
  transfer.items.add(file)
  chooser.files = transfer.files
  chooser.dispatchEvent(new Event('change', { bubbles: true }))
  await expect.element(dialog().getByText('0 of 4 points clicked.')).toBeVisible()
  // the size that stands in the fields is this board's
  for (const [i, corner] of corners.entries()) {
    const at = seen(corner)
    clickShare({ x: (at.x + 2) / SIZE.widthPx, y: (at.y - 2) / SIZE.heightPx })
    await expect.element(dialog().getByText(`${i + 1} of 4 points clicked.`)).toBeVisible()
  }
  await press('Straighten')
  await expect.element(dialog().getByText(/the edges lie within 0\.\d+ mm/)).toBeVisible()

  await placeAt('U1')
  await choose('The next click places', 'memory')
  await placeAt('U11')
  await takeLikes('memory')
  await choose('The next click places', 'power-stage')
  await placeAt('S1')
  await takeLikes('power-stage', 4)
  expect(
    (await axe.run(document.querySelector('[role="dialog"]') ?? document.body)).violations.map(({ id }) => id),
  ).toEqual([])

  clicks++
  await dialog().getByRole('radio', { name: '3 Supplies and name' }).click()
  clicks++
  await userEvent.fill(dialog().getByRole('textbox', { name: 'Name of the board' }), 'traced card')
  const { id } = app.desk.cases.getState()
  await press('Make the board')
  await waitUntil(() => app.desk.cases.getState().id !== id)
  const board = app.desk.cases.getState().board?.model
  expect(board?.name).toBe('traced card')
  expect(board?.memories).toHaveLength(8)
  const stages = bowline.parts.filter((part) => part.kind === 'power-stage' && part.widthMm > 4)
  expect(board?.parts.filter(({ kind }) => kind === 'power-stage')).toHaveLength(stages.length)
  const wanted = bowline.parts.filter((part) => part.kind === 'core' || part.kind === 'memory' || stages.includes(part))
  const off = wanted.flatMap(({ ref, kind, placement }) => {
    const at = { x: placement.at.x, y: placement.at.y - LOWER_MM }
    const near = Math.min(
      ...(board?.parts ?? []).filter((part) => part.kind === kind).map((part) => distance(part.placement.at, at)),
    )
    return near <= 0.3 ? [] : [`${ref} ${near.toFixed(2)} mm`]
  })
  expect(off).toEqual([])
  expect(board?.rails.length).toBeGreaterThan(4)
  expect(clicks).toBeLessThan(150)
  expect(clicks).toBeGreaterThan(15)
})
