/** The app in a test, on an invented case of its own: two packages fail beside a spill. Nothing in it is a result. */
import { CASE_VERSION, type ReportEntry } from '../../src/case/index.ts'
import { createRoot } from 'react-dom/client'
import { type Locator, page } from 'vitest/browser'
import bowline from '../../boards/bowline-8.json'
import type { Point } from '../../src/base/index.ts'
import { openDemo } from '../../src/view/actions/open.ts'
import { App } from '../../src/view/App.tsx'
import '../../src/view/base.css'
import { installTokens } from '../../src/view/look/index.ts'
import { closeDesk, createDesk, type Desk, type DeskParts } from '../../src/view/stores/desk.ts'
import { headOf, type Reading } from '../../src/view/stores/readingStore.ts'
import type { Shelf } from '../../src/view/stores/shelf.ts'
import { lendCoreWorker } from './lent-workers.ts'
import { drawn } from './sheetHand.ts'
import { waitUntil } from './waiting.ts'

export { waitUntil }

const lanes = bowline.memory.channels.flatMap((channel) => channel.lanes.map((lane) => `${channel.part}.${lane.name}`))

/** A report with lane labels: every lane of U13 fails, and the byte lanes of U12 that end in 1. */
export const reportText = `lane,errors\n${lanes
  .map((lane) => `${lane},${lane.startsWith('U13.') || /^U12\..1$/.test(lane) ? 1200 : 0}`)
  .join('\n')}\n`

/** The same board, with one package failing alone. */
export const otherReportText = `lane,errors\n${lanes.map((lane) => `${lane},${lane.startsWith('U17.') ? 900 : 0}`).join('\n')}\n`

export const exampleCase = {
  format: 'liftmap-case',
  version: CASE_VERSION,
  title: 'a fitting leaked, two packages fail',
  card: '0417',
  demo: true,
  board: { path: 'bowline-8.json' },
  arrival: { accident: 'spill', account: 'A fitting leaked.', mounted: 'upright', poweredSince: 'no' },
  reports: [{ name: 'run-1.csv', text: reportText }],
  marks: [
    {
      kind: 'spill',
      id: 'spill-a',
      side: 'top',
      at: { x: 147, y: 84 },
      sdMm: 4,
      substance: 'coolant-eg',
      amount: { volumeMl: 0.4 },
      downDeg: 270,
    },
    { kind: 'residue', id: 'residue-a', side: 'top', at: { x: 146, y: 79 }, radiusMm: 3 },
    { kind: 'clean', id: 'clean-a', side: 'top', at: { x: 168, y: 40 }, radiusMm: 3 },
  ],
}

const exampleShelf: Shelf = {
  cases: [{ name: 'example', title: 'Example', text: () => Promise.resolve(JSON.stringify(exampleCase)) }],
  boards: ['bowline-8.json'],
  open: (path) => Promise.resolve(path === 'bowline-8.json' ? new Blob([JSON.stringify(bowline)]) : undefined),
}

export interface RunningApp {
  readonly desk: Desk
  /** Back to how the example opened; quick where the same board is still on the desk. */
  readonly reset: () => Promise<void>
  readonly close: () => void
}

/**
 * Starts the app and waits for the first lift list.
 * @param kept where cases and files are kept; left out, in memory
 */
export async function startApp(kept: Pick<DeskParts, 'caseShelf' | 'files' | 'folders'> = {}): Promise<RunningApp> {
  installTokens(document)
  const desk = createDesk({ startWorker: lendCoreWorker, shelf: exampleShelf, ...kept })
  const home = document.createElement('div')
  document.body.append(home)
  const root = createRoot(home)
  root.render(<App desk={desk} />)
  await waitForAnswer(desk)
  const screen = desk.screen.getState()
  let opened = caseOnDesk(desk)
  return {
    desk,
    reset: async () => {
      // a field that is left may still enter what it holds
      if (document.activeElement instanceof HTMLElement) document.activeElement.blur()
      if (desk.cases.getState().board === opened.cases.board) putBack(desk, opened)
      else await openDemo(desk, 'example', { x: 40, y: 80 })
      desk.screen.setState(screen)
      await waitForAnswer(desk)
      opened = caseOnDesk(desk)
    },
    close: () => {
      root.unmount()
      home.remove()
      closeDesk(desk)
    },
  }
}

const caseOnDesk = ({ cases, readings }: Desk) => ({
  cases: cases.getState(),
  readings: readings.getState(),
  camera: cases.getState().board?.camera.getState(),
})

function putBack(desk: Desk, { cases, readings, camera }: ReturnType<typeof caseOnDesk>): void {
  desk.readings.setState(readings)
  desk.cases.setState(cases)
  if (camera !== undefined) cases.board?.camera.setState(camera)
}

/** Until the lift list stands for the case as it is now, and the sheet shows it. */
async function waitForAnswer(desk: Desk): Promise<void> {
  await waitUntil(() => desk.results.getState().state === 'done' && liftedRefs().length > 0)
  await drawn()
}

export const liftedRefs = (): string[] =>
  [...document.querySelectorAll('ol[aria-label="Parts to lift"] button b')].map((ref) => ref.textContent)

/** Begins a case of one's own on the example's board. */
export async function startOwn(desk: Desk): Promise<void> {
  const { id } = desk.cases.getState()
  await page.getByRole('button', { name: 'Start my own case' }).click()
  await page
    .getByRole('dialog', { name: /A new case/ })
    .getByRole('button', { name: /bowline-8/ })
    .click()
  await waitUntil(() => desk.cases.getState().id !== id)
  await drawn()
}

/** The keyboard's focus goes to what is there, or comes. */
export const focusOn = async (target: Locator): Promise<void> => (await target.findElement()).focus()

/** Until the lift list of the opened case stands. */
export const waitForLiftList = (): Promise<void> => waitUntil(() => liftedRefs().length > 0)

/** A point of the board's top side, in the page. */
export function pageAt(desk: Desk, onBoard: Point): Point {
  const camera = desk.cases.getState().board?.camera.getState()
  const sheet = document.querySelector('[data-testid="sheet"]')?.getBoundingClientRect()
  if (camera === undefined || sheet === undefined) throw new Error('no sheet yet')
  return {
    x: sheet.left + sheet.width / 2 + (onBoard.x - camera.centre.x) * camera.scale,
    y: sheet.top + sheet.height / 2 - (onBoard.y - camera.centre.y) * camera.scale,
  }
}

export function dropFile(file: File, at: Point): void {
  const dataTransfer = new DataTransfer()
  dataTransfer.items.add(file)
  const target = document.elementFromPoint(at.x, at.y) ?? document.body
  target.dispatchEvent(
    new DragEvent('drop', { dataTransfer, clientX: at.x, clientY: at.y, bubbles: true, cancelable: true }),
  )
}

/** The hand: presses at the first point, moves over the others, lets go at the last. */
export async function drag(points: readonly Point[]): Promise<void> {
  const [first, ...others] = points
  if (first === undefined) return
  const target = document.elementFromPoint(first.x, first.y) ?? document.body
  const at = (type: string, { x, y }: Point, buttons: number): void => {
    const shared = { clientX: x, clientY: y, bubbles: true, cancelable: true, button: 0, buttons }
    target.dispatchEvent(new PointerEvent(type, { ...shared, pointerId: 1, pointerType: 'mouse', isPrimary: true }))
  }
  at('pointermove', first, 0)
  at('pointerdown', first, 1)
  for (const point of others) {
    at('pointermove', point, 1)
    await new Promise((resolve) => requestAnimationFrame(() => resolve(undefined)))
  }
  at('pointerup', points.at(-1) ?? first, 0)
}

/** What became of the report of that name, the run as the card came where nothing else is said. */
export function readingNamed(desk: Desk, name: string, run: ReportEntry['run'] = 'first'): Reading | undefined {
  const { byId } = desk.readings.getState()
  const reports = desk.cases.getState().history?.present.reports ?? []
  const id = [...byId.keys()].find((each) => {
    const head = headOf(each, reports, byId)
    return head?.name === name && head.run === run
  })
  return id === undefined ? undefined : byId.get(id)
}
