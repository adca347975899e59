/** A whole visit, station by station, as somebody does it who has only what the hand can do and what the screen says. */
import { readFileSync } from 'node:fs'
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

/** The line behind which fields of a station stand. */
export const opening = (page: Page, name: string): Locator => why(page).locator('summary').filter({ hasText: name })

async function choosesFile({ page, hand }: Visit, button: Locator, file: VisitFile): Promise<void> {
  const chooser = page.waitForEvent('filechooser')
  await hand.press(button)
  await (await chooser).setFiles(file)
}

export async function beginCase({ page, hand }: Visit): Promise<void> {
  await page.getByText('Demo card: invented.').waitFor()
  await hand.press(page.getByRole('button', { name: 'Cases', exact: true }))
  const list = page.getByRole('dialog', { name: 'Cases' })
  await hand.press(list.getByRole('button', { name: 'New case…' }))
  const start = page.getByRole('dialog', { name: /A new case/ })
  const example = start.getByRole('button', { name: /8 packages in a ring.*bowline-8/ })
  await example.waitFor()
  await hand.press(example)
  await start.waitFor({ state: 'detached' })
  await why(page).getByRole('heading', { name: 'Arrival' }).waitFor()
}

async function arrival({ page, hand }: Visit): Promise<void> {
  const panel = why(page)
  await hand.choose(panel.getByRole('radio', { name: 'Spill or leak' }))
  await hand.type(panel.getByRole('textbox', { name: 'What it does and does not do' }), 'no picture, fan runs')
  await hand.type(panel.getByRole('textbox', { name: 'The owner’s account' }), 'a hose leaked')
  await hand.select(
    panel.getByRole('combobox', { name: 'How the card hung then' }),
    'On edge, slot down (lower edge down)',
  )
  await hand.choose(
    panel.getByRole('group', { name: 'Powered by the owner since?' }).getByRole('radio', { name: 'No', exact: true }),
  )
  await hand.press(opening(page, 'Card and seals'))
  await hand.type(panel.getByRole('textbox', { name: 'Card number' }), '0420')
  await hand.press(opening(page, 'Owner and contact'))
  await hand.type(panel.getByRole('textbox', { name: 'Owner', exact: true }), 'Mira')
  await told(page, 'Arrival').getByText('filled in').waitFor({ state: 'attached' })
}

/** In the middle of what the board gives for each rail, or a plain figure where it gives nothing. */
const ohmsOf = ({ ohmsToGround: range }: (typeof bowline.rails)[number]): string =>
  range === undefined ? '500' : String(Number(Math.sqrt(range.lowOhm * range.highOhm).toPrecision(2)))

async function coldMeasuring({ page, hand }: Visit): Promise<void> {
  const panel = why(page)
  for (const rail of bowline.rails) {
    const field = panel.getByRole('textbox', { name: `Rail ${rail.name}, ohms to ground` })
    await hand.type(field, `${ohmsOf(rail)}\n`)
  }
  await hasSomething(page, 'Cold measuring')
}

async function poweredMeasuring({ page, hand }: Visit): Promise<void> {
  const panel = why(page)
  const log = panel.getByRole('button', { name: 'Log power-up' })
  await hand.press(log)
  // against the verdict it asks why first
  const reason = panel.getByRole('textbox', { name: 'Reason for powering it anyway' })
  if ((await reason.count()) > 0) {
    await hand.type(reason, 'current limited to one ampere')
    await hand.press(log)
  }
  await panel.getByText(/^Powered once/).waitFor()
  const seen = panel.getByRole('group', { name: 'Detected by the PC' })
  await hand.choose(seen.getByRole('radio', { name: 'Yes', exact: true }))
  await hasSomething(page, 'Powered measuring')
}

const hasSomething = (page: Page, station: string): Promise<void> =>
  told(page, station).and(page.locator(':not([data-state="empty"])')).waitFor()

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
    await hand.type(panel.getByRole('textbox', { name: 'x from the left' }), BESIDE_MM)
    await hand.type(panel.getByRole('textbox', { name: 'Radius' }), '2')
    await hand.press(panel.getByRole('button', { name: 'Add this mark' }))
  } else {
    await hand.press(panel.getByRole('button', { name: 'Mark what you see' }))
    // the sheet still shows where the last probe went
    await hand.press(page.getByRole('button', { name: 'Fit', exact: true }))
    const { x, y } = await onSheet(page, 0.85, 0.5)
    await hand.draw({ x, y }, { x: x + 24, y })
  }
  await told(page, 'Inspection').getByText('1 residue').waitFor()
}

async function spill({ page, hand }: Visit): Promise<void> {
  const panel = why(page)
  if (hand.draw === undefined) {
    await hand.press(panel.getByRole('button', { name: 'Type its place' }))
    await hand.type(panel.getByRole('textbox', { name: 'x from the left' }), BESIDE_MM)
  } else {
    await hand.press(panel.getByRole('button', { name: 'Point at it' }))
    const at = await onSheet(page, 0.85, 0.4)
    await hand.draw(at, at)
  }
  await panel
    .getByText(/It spreads .* mm.* and covers/)
    .first()
    .waitFor()
}

/** Away from core and memory, so that there is one part to lift and the plan is soon made. */
const BESIDE_MM = '40'

/** @param right, down shares of the sheet's width and height */
async function onSheet(page: Page, right: number, down: number): Promise<{ x: number; y: number }> {
  const box = await page.getByTestId('sheet').boundingBox()
  if (box === null) throw new Error('there is no sheet')
  return { x: box.x + box.width * right, y: box.y + box.height * down }
}

async function suspects({ page, hand }: Visit): Promise<void> {
  const panel = why(page)
  await panel.getByRole('list', { name: 'Parts to lift' }).getByText('U17').first().waitFor()
  const checks = panel.getByRole('region', { name: 'Next checks' })
  await hand.press(checks.getByRole('button', { name: 'Nothing found' }).first())
  // what was looked for at a place becomes a mark; any other answer joins the list of checks that were done
  const kept = told(page, 'Inspection').getByText('clean spot')
  await kept
    .or(checks.getByRole('list', { name: 'Checks that were done' }))
    .first()
    .waitFor()
}

async function plan({ page, hand }: Visit): Promise<void> {
  const steps = why(page).getByRole('list', { name: 'Steps in order' })
  const lift = steps
    .locator('summary')
    .filter({ hasText: /: Lift / })
    .first()
  await lift.waitFor()
  await hand.press(lift)
  const done = why(page)
    .getByRole('button', { name: /^Done: step \d+, [Ll]ift/ })
    .first()
  await done.waitFor()
  await hand.press(done)
  await hand.press(why(page).getByRole('button', { name: 'Record it and plan the rest' }))
  await told(page, 'Plan').getByText('1 pass noted').waitFor()
}

async function proof(visit: Visit): Promise<void> {
  const { page, hand } = visit
  const panel = why(page)
  await choosesFile(visit, panel.getByRole('button', { name: 'Choose a report…' }), reportOf('run-2.csv', 'none'))
  const run = panel.getByRole('article', { name: 'Report run-2.csv' })
  await run.getByText('32 rows read').waitFor()
  await hand.type(run.getByRole('textbox', { name: 'Complete runs' }), '30')
  await told(page, 'Proof').getByText('30 runs without an error').waitFor()
}

async function handBack(visit: Visit): Promise<void> {
  const { page, hand } = visit
  const panel = why(page)
  await hand.choose(panel.getByRole('radio', { name: 'repaired', exact: true }))
  await hand.press(panel.getByRole('button', { name: 'Today', exact: true }))
  const behind = async (name: string): Promise<void> =>
    await hand.press(panel.locator('summary').filter({ hasText: name }).first())
  await behind('What was done')
  await hand.type(panel.getByRole('textbox', { name: 'What was done' }), 'lifted U17, cleaned below it, put it back')
  await hand.type(panel.getByRole('textbox', { name: 'Time at the bench' }), '95')
  await behind('Parts and price')
  await hand.type(panel.getByRole('textbox', { name: 'Charged' }), '140')
  await behind('Advice to the owner')
  await hand.type(panel.getByRole('textbox', { name: 'Advice to the owner' }), 'renew the hoses')
  await told(page, 'Hand-back').getByText('repaired').waitFor()
  const saved = page.waitForEvent('download')
  await hand.press(panel.getByRole('button', { name: 'Save PDF' }))
  const pdf = await (await saved).path()
  expect(readFileSync(pdf).subarray(0, 5).toString()).toBe('%PDF-')
  await hand.press(panel.getByRole('button', { name: 'Look at it' }))
  const record = page.frameLocator('iframe[title="Record for the owner"]')
  await record.getByText('renew the hoses').waitFor()
}

export const steps: readonly Step[] = [
  { station: 'Arrival', key: '1', run: arrival },
  { station: 'Cold measuring', key: '2', run: coldMeasuring },
  { station: 'Powered measuring', key: '3', run: poweredMeasuring },
  { station: 'Memory run', key: '4', run: memoryRun },
  { station: 'Inspection', key: '5', run: inspection },
  { station: 'Spill', key: '6', run: spill },
  { station: 'Suspects', key: '7', run: suspects },
  { station: 'Plan', key: '8', run: plan },
  { station: 'Proof', key: '9', run: proof },
  { station: 'Hand-back', key: '0', run: handBack },
]
