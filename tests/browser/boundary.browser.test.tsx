/** What breaks while it is drawn stays in its place: it says so, the rest goes on, and its case is not opened again by itself. */
import { createRoot } from 'react-dom/client'
import { page, userEvent } from 'vitest/browser'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test, vi } from 'vitest'
import { caseSchema } from '../../src/case/index.ts'
import { isBroken } from '../../src/view/actions/brokenCase.ts'
import { openCase } from '../../src/view/actions/open.ts'
import { Boundary } from '../../src/view/panels/Boundary.tsx'
import { DeskContext } from '../../src/view/stores/hooks.ts'
import { exampleCase, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'
import bowline from '../../boards/bowline-8.json' with { type: 'json' }

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await app.reset()
  localStorage.clear()
})
afterEach(() => vi.restoreAllMocks())
afterAll(() => app.close())

test('a part of the page that breaks says so in a sentence, and can be tried again', async () => {
  vi.spyOn(console, 'error').mockImplementation(() => undefined)
  const home = document.createElement('div')
  document.body.append(home)
  const root = createRoot(home, { onCaughtError: () => undefined })
  const state = { breaks: true }
  function Odd() {
    if (state.breaks) throw new Error('a name that cannot be written')
    return <p>drawn well</p>
  }
  root.render(
    <DeskContext value={app.desk}>
      <Boundary what="This station" drawn="a">
        <Odd />
      </Boundary>
      <p>the rest</p>
    </DeskContext>,
  )
  const alert = page.getByRole('alert', { name: 'This station could not be drawn' })
  await expect.element(alert).toHaveTextContent('a name that cannot be written')
  await expect.element(page.getByText('the rest')).toBeVisible()
  for (const name of ['Export this case', 'Try again', 'Open without it'])
    await expect.element(alert.getByRole('button', { name })).toBeVisible()
  const { id } = app.desk.cases.getState()
  expect(id !== undefined && isBroken(id)).toBe(true)
  state.breaks = false
  await alert.getByRole('button', { name: 'Try again' }).click()
  await expect.element(page.getByText('drawn well')).toBeVisible()
  root.unmount()
  home.remove()
})

test('a board named with half a pair of characters is shown at every station, hand-back too', async () => {
  const board = { ...bowline, name: 'b\ud800d' }
  const odd = caseSchema.parse({ ...exampleCase, title: 'odd \udc00 name', board: { inline: board } })
  await openCase(app.desk, odd, 'odd', { x: 0, y: 0 })
  await waitUntil(() => app.desk.cases.getState().board?.model.name === 'b\ud800d')
  for (const key of ['1', '2', '3', '4', '5', '6', '7', '8', '9', '0']) {
    await userEvent.keyboard(key)
    await waitUntil(() => document.activeElement?.tagName === 'H2')
    expect(document.querySelector('[role="alert"][aria-label$="could not be drawn"]')).toBeNull()
  }
  await page.getByRole('button', { name: 'Look at it' }).click()
  await waitUntil(
    () =>
      document.querySelector<HTMLIFrameElement>('iframe[title^="Record"]')?.contentDocument?.querySelector('main') !=
      null,
  )
})
