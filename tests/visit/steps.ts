/** A whole visit, station by station, as somebody does it who has only what the hand can do and what the screen says. */
import { expect } from 'vitest'
import type { Locator, Page } from 'playwright'
import bowline from '../../boards/bowline-8.json' with { type: 'json' }
import type { Hand, VisitFile } from './hands.ts'

export interface Visit {
  readonly page: Page
  readonly hand: Hand
}

export interface Step {
  readonly station: string
  readonly key: string
  readonly run: (visit: Visit) => Promise<void>
}

const lanes = bowline.memory.channels.flatMap((channel) => channel.lanes.map((lane) => `${channel.part}.${lane.name}`))

/** Lane labels and counts: all lanes of one package fail, or none does. */
const reportOf = (name: string, failing: string): VisitFile => ({
  name,
  mimeType: 'text/csv',
  buffer: Buffer.from(
    `lane,errors\n${lanes.map((lane) => `${lane},${lane.startsWith(failing) ? 900 : 0}`).join('\n')}\n`,
  ),
})

export const why = (page: Page): Locator => page.getByRole('complementary', { name: 'Why' })

/** What the list of stations says of one. */
export const told = (page: Page, station: string): Locator =>
  page.getByRole('navigation', { name: 'Stations' }).getByRole('button', { name: new RegExp(`^${station}`) })

async function choosesFile({ page, hand }: Visit, button: Locator, file: VisitFile): Promise<void> {
  const chooser = page.waitForEvent('filechooser')
  await hand.press(button)
  await (await chooser).setFiles(file)
}

export async function beginCase({ page, hand }: Visit): Promise<void> {
  await page.getByText('Demo card: invented.').waitFor()
  await hand.press(page.getByRole('button', { name: 'Cases', exact: true }))
  const list = page.getByRole('dialog', { name: 'Cases' })
  await hand.select(list.getByRole('combobox', { name: 'A new case on' }), 'bowline-8')
  await hand.press(list.getByRole('button', { name: 'Begin a case' }))
  await list.waitFor({ state: 'detached' })
  await why(page).getByRole('heading', { name: 'Arrival' }).waitFor()
}

async function arrival({ page, hand }: Visit): Promise<void> {
  const panel = why(page)
  await hand.type(panel.getByRole('textbox', { name: 'Card number' }), '0420')
  await hand.type(panel.getByRole('textbox', { name: 'Owner', exact: true }), 'Mira')
  await hand.type(panel.getByRole('textbox', { name: 'What it does and does not do' }), 'no picture, fan runs')
  await hand.choose(panel.getByRole('radio', { name: 'Spill or leak' }))
  await hand.type(panel.getByRole('textbox', { name: 'The owner’s account' }), 'a hose wept')
  await hand.choose(panel.getByRole('radio', { name: 'It stood upright' }))
  await hand.choose(
    panel.getByRole('group', { name: 'Powered since?' }).getByRole('radio', { name: 'No', exact: true }),
  )
  await told(page, 'Arrival').getByText('filled in').waitFor({ state: 'attached' })
}

async function memoryRun(visit: Visit): Promise<void> {
  const panel = why(visit.page)
  await choosesFile(visit, panel.getByRole('button', { name: 'Choose a report…' }), reportOf('run-1.csv', 'U17.'))
  await panel.getByRole('article', { name: 'Report run-1.csv' }).getByText('32 rows read').waitFor()
}

async function inspection(visit: Visit): Promise<void> {
  const { page, hand } = visit
  const panel = why(page)
  if (hand.draw === undefined) {
    await hand.press(panel.getByText('Type a mark’s place instead'))
    await hand.type(panel.getByRole('textbox', { name: 'Radius' }), '2')
    await hand.press(panel.getByRole('button', { name: 'Add this mark' }))
  } else {
    await hand.press(panel.getByRole('button', { name: 'Residue', exact: true }))
    const { x, y } = await middleOfSheet(page)
    await hand.draw({ x, y }, { x: x + 24, y })
  }
  await told(page, 'Inspection').getByText('1 residue').waitFor()
}

async function spill({ page, hand }: Visit): Promise<void> {
  const panel = why(page)
  if (hand.draw === undefined) await hand.press(panel.getByRole('button', { name: 'Type its place' }))
  else {
    await hand.press(panel.getByRole('button', { name: 'Point at it' }))
    const { x, y } = await middleOfSheet(page)
    await hand.draw({ x: x + 60, y: y - 40 }, { x: x + 60, y: y - 40 })
  }
  await panel.getByText(/It spreads .* mm and covers/).waitFor()
}

async function middleOfSheet(page: Page): Promise<{ x: number; y: number }> {
  const box = await page.getByTestId('sheet').boundingBox()
  if (box === null) throw new Error('there is no sheet')
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 }
}

async function suspects({ page }: Visit): Promise<void> {
  await why(page).getByRole('list', { name: 'Parts to lift' }).getByText('U17').first().waitFor()
}

async function plan({ page, hand }: Visit): Promise<void> {
  const done = why(page)
    .getByRole('button', { name: /^Done: step \d+, [Ll]ift/ })
    .first()
  await done.waitFor({ timeout: 120_000 })
  await hand.press(done)
  await hand.press(why(page).getByRole('button', { name: 'Note it and plan the rest' }))
  await told(page, 'Plan').getByText('1 pass noted').waitFor()
}

const nothingYet = async (): Promise<void> => expect(true).toBe(true)

export const steps: readonly Step[] = [
  { station: 'Arrival', key: '1', run: arrival },
  { station: 'Cold measuring', key: '2', run: nothingYet },
  { station: 'Powered measuring', key: '3', run: nothingYet },
  { station: 'Memory run', key: '4', run: memoryRun },
  { station: 'Inspection', key: '5', run: inspection },
  { station: 'Spill', key: '6', run: spill },
  { station: 'Suspects', key: '7', run: suspects },
  { station: 'Plan', key: '8', run: plan },
  { station: 'Proof', key: '9', run: nothingYet },
  { station: 'Hand-back', key: '0', run: nothingYet },
]
