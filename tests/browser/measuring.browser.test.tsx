/** The two measuring stations as hands meet them: keyboard alone, verdicts, power on the record, a bench meter, axe, both screens. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { meterStoreOf } from '../../src/view/stores/meterStore.ts'
import type { Measurement } from '../../src/measure/index.ts'
import { lineOfStreams } from '../../src/view/meter/streamLine.ts'
import { type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'
import { type MeterQuirks, simulatedMeter } from '../support/simulated-meter.ts'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  await app.reset()
  meterStoreOf(app.desk).setState({
    ports: undefined,
    state: 'off',
    meter: undefined,
    port: undefined,
    phase: undefined,
  })
  app.desk.screen.setState({ station: 'cold-measuring', selection: undefined, chosenTheme: 'paper' })
  await expect.element(why().getByRole('heading', { name: 'Cold measuring' })).toBeVisible()
})
afterAll(() => app.close())

const why = () => page.getByRole('complementary', { name: 'Why' })
const present = () => {
  const found = app.desk.cases.getState().history?.present
  if (found === undefined) throw new Error('no case')
  return found
}
const readings = (): Pick<Measurement, 'line' | 'quantity' | 'phase' | 'reading' | 'typed'>[] => present().measurements
const fields = (): HTMLInputElement[] => [...document.querySelectorAll<HTMLInputElement>('input[data-measuring]')]
const fieldOf = (line: string, column?: 'diode'): HTMLInputElement => {
  const found = fields().find(
    ({ dataset }) => dataset['line'] === line && (dataset['measuring'] === 'diode') === (column === 'diode'),
  )
  if (found === undefined) throw new Error(`no field of ${line}`)
  return found
}
const rowsInSight = (): number =>
  fields().filter((field) => field.checkVisibility() && field.dataset['measuring'] === 'ohms').length
const press = (words: RegExp) => why().getByText(words).click()
const focused = (): string | undefined =>
  document.activeElement instanceof HTMLElement ? document.activeElement.dataset['line'] : undefined
const verdictOf = (line: string): string =>
  fieldOf(line).parentElement?.querySelector('[data-shape]')?.textContent.trim() ?? ''

/** Types into whatever has the focus, as voice typing and a keyboard do, and presses Enter. */
const enter = async (text: string): Promise<void> => {
  if (text !== '') await userEvent.keyboard(text)
  await userEvent.keyboard('{Enter}')
}

const WELL: Readonly<Record<string, string>> = {
  'rail 12V': '2k2',
  'rail VCORE': '0,38',
  'rail VMEM': '62 ohms.',
  'rail 3V3': '1.2 k',
  'rail 0V9': '12',
  'rail VPP': '300',
}

/** From the first field to the last, never touching anything but the keyboard. */
const enterAll = async (changed: Readonly<Record<string, string>> = {}): Promise<void> => {
  fields()[0]?.focus()
  for (;;) {
    const line = focused()
    if (line === undefined) return
    await enter(changed[line] ?? WELL[line] ?? (line.startsWith('stage') ? '2k' : ''))
    if (focused() === line) throw new Error(`${line} did not let go`)
  }
}

test('every line is entered by keyboard alone, units settle, and the focus ends at what it comes to', async () => {
  const count = 6 + 11
  // the stages stand behind their folds until they are due
  expect(rowsInSight()).toBe(6)
  await enterAll({ 'stage S8 input': '3k1', 'stage S9 input': '3k' })
  expect(readings()).toHaveLength(count)
  expect(rowsInSight()).toBe(count)
  expect(document.activeElement?.textContent).toContain('Not known whether it is safe to power')
  expect(fieldOf('rail 12V').value).toBe('2.2 kΩ')
  expect(fieldOf('rail VCORE').value).toBe('380 mΩ')
  expect(fieldOf('rail VMEM').value).toBe('62 Ω')
  expect(verdictOf('rail VMEM')).toBe('in range')
  expect(verdictOf('stage S8 input')).toBe('like its siblings')
  expect(readings()[0]).toMatchObject({ typed: '2k2', quantity: 'ohms', phase: 'before' })
  await expect.element(page.getByRole('button', { name: /^Cold measuring/ })).toHaveTextContent('17 of 17 lines')
})

test('what can’t be read stays, selected, and says why; Escape takes it back; Shift+Enter goes back; an empty Enter skips', async () => {
  fieldOf('rail VMEM').focus()
  await enter('12 V')
  expect(focused()).toBe('rail VMEM')
  await expect
    .element(why().getByRole('alert'))
    .toHaveTextContent('That is a voltage; this field takes resistance to ground')
  expect(fieldOf('rail VMEM').getAttribute('aria-invalid')).toBe('true')
  await userEvent.keyboard('{Escape}')
  expect(fieldOf('rail VMEM').value).toBe('')
  await enter('')
  expect(focused()).toBe('stage S8 input')
  await userEvent.keyboard('{Shift>}{Enter}{/Shift}')
  expect(focused()).toBe('rail VMEM')
  expect(readings()).toEqual([])
})

test('a field that has the focus lights its rail on the sheet, and the form stays', async () => {
  fieldOf('rail VMEM').focus()
  expect(app.desk.screen.getState().selection).toEqual({ kind: 'rail', id: 'VMEM' })
  await userEvent.keyboard('{Enter}')
  expect(focused()).toBe('stage S8 input')
  expect(app.desk.screen.getState().selection).toEqual({ kind: 'part', id: 'S8' })
  await expect.element(why().getByRole('heading', { name: 'Cold measuring' })).toBeVisible()
  const camera = app.desk.cases.getState().board?.camera.getState()
  const point = app.desk.cases.getState().board?.model.partByRef.get('L8')?.placement.at
  if (camera === undefined || point === undefined) throw new Error('no camera')
  expect(Math.abs(point.x - camera.centre.x) * camera.scale).toBeLessThan(camera.width / 2)
  app.desk.screen.setState({ selection: { kind: 'part', id: 'U13' } })
  await expect.element(why().getByRole('heading', { name: 'Evidence for U13' })).toBeInTheDocument()
})

test('a low rail changes its verdict, the verdict on power and the stories, and undo brings all back', async () => {
  const rails = (): boolean =>
    (app.desk.results.getState().assessment?.suspects.stories ?? []).some(({ causes }) =>
      causes.some(({ at }) => at === 'rail 3V3'),
    )
  const before = app.desk.results.getState().assessment?.suspects.stories
  fieldOf('rail 3V3').focus()
  await enter('1')
  expect(verdictOf('rail 3V3')).toBe('short')
  await expect.element(why().getByRole('heading', { name: 'Not safe to power' })).toBeVisible()
  await expect.element(why().getByText(/Rail 3V3, short: 1 Ω is less than 2 Ω/)).toBeVisible()
  await waitUntil(() => app.desk.results.getState().assessment?.suspects.stories !== before && rails())
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  expect(fieldOf('rail 3V3').value).toBe('')
  await expect.element(why().getByRole('heading', { name: /Not known whether/ })).toBeVisible()
  await waitUntil(() => app.desk.results.getState().state === 'done')
})

test('the points of the stages fold up by kind, and one pin that stands out is named where it is folded', async () => {
  await why()
    .getByRole('region', { name: 'Rail VCORE' })
    .getByText(/^Other stage points: 0 of/)
    .click()
  const pins = why().getByText(/^PWM pin: 0 of 9 stages read/)
  await pins.click()
  fieldOf('stage S1 pwm').focus()
  for (const text of ['12k', '12k', '12k', '1']) await enter(text)
  expect(verdictOf('stage S1 pwm')).toBe('like its siblings')
  expect(verdictOf('stage S4 pwm')).toBe('short')
  expect(readings().at(-1)).toMatchObject({ line: { kind: 'stage', name: 'S4', point: 'pwm' } })
  await expect.element(why().getByText('PWM pin: 4 of 9 stages read; look at S4')).toBeVisible()
  await why()
    .getByRole('button', { name: /Not known whether it is safe to power/ })
    .click()
  await expect.element(why().getByText(/Stage S4, PWM pin, short: 1 Ω is less than 5 Ω/)).toBeVisible()
})

test('diode mode has a column of its own, beside the ohms', async () => {
  fieldOf('rail VMEM', 'diode').focus()
  await enter('0.5')
  await expect.element(why().getByRole('alert')).toHaveTextContent('Is 0.5 in volts or in millivolts?')
  await userEvent.keyboard('{Escape}')
  await enter('120')
  expect(fieldOf('rail VMEM', 'diode').value).toBe('120 mV')
  expect(fieldOf('rail VMEM').value).toBe('')
  expect(readings()).toMatchObject([{ quantity: 'diode', reading: { kind: 'value', value: 0.12 }, typed: '120' }])
  fieldOf('rail 3V3').focus()
  await enter('0.545 V')
  await expect.element(why().getByRole('alert')).toHaveTextContent('Was the meter in diode mode?')
})

test('readings after the work are kept apart, and a reading can be taken back', async () => {
  fieldOf('rail VMEM').focus()
  await enter('1.5')
  await why().getByText('After the work').click()
  expect(fieldOf('rail VMEM').value).toBe('')
  fieldOf('rail VMEM').focus()
  await enter('62')
  expect(readings().map(({ phase, typed }) => [phase, typed])).toEqual([
    ['before', '1.5'],
    ['after', '62'],
  ])
  fieldOf('rail VMEM').focus()
  await why().getByRole('button', { name: 'Take back the reading of VMEM' }).click()
  expect(readings().map(({ phase }) => phase)).toEqual(['before'])
})

test('a card known to be good is said so, and good cards of the shop become the reference', async () => {
  await why()
    .getByRole('checkbox', { name: /known to be good/ })
    .click()
  expect(present().goodCard).toBe(true)
  const { history } = app.desk.cases.getState()
  if (history === undefined) throw new Error('no case')
  const goodReadings = [
    { line: { kind: 'rail' as const, name: 'VMEM' }, quantity: 'ohms' as const, values: [60, 62, 64, 61, 63, 58, 66] },
  ]
  app.desk.cases.setState({ history: { ...history, present: { ...history.present, goodReadings } } })
  fieldOf('rail VMEM').focus()
  await expect.element(why().getByText(/median 62 Ω on 7 good cards of this board; \d+ to \d+ Ω/)).toBeVisible()
  await enter('40')
  expect(verdictOf('rail VMEM')).toBe('below the range')
})

test('power against the verdict asks for a typed reason, which stays on the record', async () => {
  fieldOf('rail VMEM').focus()
  await enter('short')
  app.desk.screen.setState({ station: 'powered-measuring', selection: undefined })
  const button = why().getByRole('button', { name: 'Log power-up' })
  await button.click()
  expect(present().powerUps).toEqual([])
  await expect.element(why().getByRole('alert')).toHaveTextContent('Say why it gets power all the same')
  expect(document.activeElement?.tagName).toBe('TEXTAREA')
  await userEvent.keyboard('To find the short by its heat.')
  await button.click()
  expect(present().powerUps).toMatchObject([{ verdict: 'not-safe', against: 'To find the short by its heat.' }])
  expect(present().powerUps[0]?.reasons[0]).toContain('Rail VMEM, short')
  await press(/^Powered once; verdict then: not safe/)
  await expect
    .element(why().getByRole('list', { name: 'Power given so far' }))
    .toHaveTextContent('To find the short by its heat.')
})

test('voltages and what the host sees are entered at the powered station', async () => {
  app.desk.screen.setState({ station: 'powered-measuring', selection: undefined })
  await expect.element(why().getByRole('heading', { name: 'Powered measuring' })).toBeVisible()
  fieldOf('rail 12V').focus()
  await enter('12,1 V')
  expect(fieldOf('rail 12V').value).toBe('12.1 V')
  expect(verdictOf('rail 12V')).toBe('in range')
  expect(focused()).toBe('rail VCORE')
  await enter('3 mV')
  expect(verdictOf('rail VCORE')).toBe('no voltage')
  await why().getByRole('group', { name: 'Picture' }).getByText('Disturbed').click()
  await why()
    .getByRole('textbox', { name: /Current into the card/ })
    .fill('1,4')
  expect(present().powered).toMatchObject({ picture: 'disturbed', inputCurrentA: 1.4 })
  await expect.element(why().getByText(/before fans and clocks start means a fault/)).toBeVisible()
})

test('the first rail that did not come up is named, a core is held to what the card does, a limit that stays forbids power', async () => {
  app.desk.screen.setState({ station: 'powered-measuring', selection: undefined })
  await why()
    .getByRole('group', { name: /the card is/ })
    .getByText('Idle')
    .click()
  const volts = {
    'rail 12V': '12.1',
    'rail 3V3': '3.3',
    'rail VPP': '1.8',
    'rail VCORE': '0.65',
    'rail VMEM': '0',
    'rail 0V9': '0',
  }
  for (const [line, typed] of Object.entries(volts)) {
    fieldOf(line).focus()
    await enter(typed)
  }
  expect(verdictOf('rail VCORE')).toBe('as is usual')
  expect(present().measurements.find(({ line }) => line.name === 'VCORE')?.state).toBe('idle')
  await expect
    .element(why().getByText('VMEM is the first that did not come up. 0V9 may only wait for it.'))
    .toBeVisible()
  await press(/^Bench supply: limit not noted/)
  await why()
    .getByRole('textbox', { name: /Current limit/ })
    .fill('2')
  await expect.element(why().getByText(/Give first power at 1 A or less/)).toBeVisible()
  await why().getByRole('group', { name: 'It ran into its limit' }).getByText('Stays').click()
  await expect.element(why().getByRole('heading', { name: 'Not safe to power' })).toBeVisible()
})

test('a supply that is named stands under its input, and can go again', async () => {
  await why()
    .getByText(/^Supplies:/)
    .click()
  await why()
    .getByRole('textbox', { name: /Another supply/ })
    .fill('slot 12 V')
  await why().getByRole('button', { name: 'Add the supply' }).click()
  fieldOf('supply before F1').focus()
  await enter('1')
  expect(verdictOf('supply before F1')).toBe('short')
  fieldOf('supply slot 12 V').focus()
  await enter('2k')
  expect(readings().at(-1)?.line).toEqual({ kind: 'supply', name: 'slot 12 V' })
  await why().getByRole('button', { name: 'Remove slot 12 V' }).click()
  expect(fields().some(({ dataset }) => dataset['line'] === 'supply slot 12 V')).toBe(false)
})

/** A serial port with the simulated meter behind it: its characters go through byte streams as real ones do. */
function plug(quirks: MeterQuirks = {}) {
  const simulated = simulatedMeter(quirks)
  const toScreen = new TransformStream<Uint8Array, Uint8Array>()
  const out = toScreen.writable.getWriter()
  const encoder = new TextEncoder()
  const writable = new WritableStream<Uint8Array>({
    write: async (bytes) => {
      await simulated.line.send(new TextDecoder().decode(bytes).trim())
      for (;;) {
        const line = await simulated.line.receive(0)
        if (line === undefined) return
        // in two pieces, as serial ports cut where they like
        const text = `${line}\r\n`
        void out.write(encoder.encode(text.slice(0, 3)))
        void out.write(encoder.encode(text.slice(3)))
      }
    },
  })
  const line = lineOfStreams({ readable: toScreen.readable, writable })
  const asked: number[] = []
  const ports = {
    choose: (baudRate: number) => {
      asked.push(baudRate)
      return Promise.resolve({ line, close: line.close })
    },
  }
  meterStoreOf(app.desk).setState({ ports })
  return { simulated, asked }
}

test('without a meter nothing of one is shown', () => {
  expect(why().getByRole('group', { name: 'Bench meter' }).query()).toBeNull()
})

test('a bench meter fills the field at hand, by its button and by Enter on an empty field', async () => {
  const { simulated, asked } = plug({ echo: true, noMeasure: true })
  await press(/^Leads: two wires, as read; no meter/)
  await why().getByRole('combobox', { name: 'Baud rate of the meter' }).selectOptions('19200')
  await why().getByRole('button', { name: 'Connect a meter' }).click()
  await expect.element(why().getByText(/Bench Works DM-1\. Enter on an empty field/)).toBeVisible()
  expect(asked).toEqual([19_200])
  simulated.show('+6.20000000E+01')
  fieldOf('rail VMEM').focus()
  await userEvent.keyboard('{Enter}')
  await waitUntil(() => readings().length === 1)
  expect(fieldOf('rail VMEM').value).toBe('62 Ω')
  expect(present().measurements[0]).toMatchObject({
    meter: 'Bench Works DM-1',
    reading: { kind: 'value', value: 62 },
  })
  await waitUntil(() => focused() === 'stage S8 input')
  simulated.show('+9.90000000E+37')
  await why().getByRole('button', { name: 'Read the meter' }).click()
  await waitUntil(() => fieldOf('stage S8 input').value === 'open')
  simulated.fail('-222,"Data out of range"')
  fieldOf('stage S9 input').focus()
  await userEvent.keyboard('{Enter}')
  await expect.element(why().getByText(/its error -222, Data out of range/)).toBeVisible()
  expect(fieldOf('stage S9 input').value).toBe('')
  await why().getByRole('button', { name: 'Disconnect' }).click()
  await expect.element(why().getByRole('button', { name: 'Connect a meter' })).toBeVisible()
})

test('a port that will not open is said, and choosing none is no fault', async () => {
  const refuse = (name: string) => ({ choose: () => Promise.reject(Object.assign(new Error('in use'), { name })) })
  meterStoreOf(app.desk).setState({ ports: refuse('InvalidStateError') })
  await press(/^Leads: two wires, as read; no meter/)
  await why().getByRole('button', { name: 'Connect a meter' }).click()
  await expect.element(why().getByText(/The port could not be opened \(in use\)/)).toBeVisible()
  meterStoreOf(app.desk).setState({ ports: refuse('NotFoundError') })
  await why().getByRole('button', { name: 'Connect a meter' }).click()
  await expect.element(why().getByText(/could not be opened/)).not.toBeInTheDocument()
})

const violations = async (): Promise<string[]> =>
  (await axe.run(document.body)).violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html}`))

test.each([
  ['cold-measuring', 'paper', 1440, 900],
  ['cold-measuring', 'chalk', 820, 1180],
  ['powered-measuring', 'paper', 820, 1180],
  ['powered-measuring', 'chalk', 1440, 900],
] as const)(
  'axe finds nothing at %s on %s, nothing is cut off and no text is under 12 px at %i x %i',
  async (station, theme, width, height) => {
    plug()
    fieldOf('rail VMEM').focus()
    await enter('1.5')
    await enter('60')
    app.desk.screen.setState({ station, chosenTheme: theme })
    await page.viewport(width, height)
    for (const details of document.querySelectorAll('details')) details.open = true
    await why()
      .getByRole('button', { name: /safe to power/ })
      .click()
    const first = fields().find(({ value }) => value === '')
    first?.focus()
    await enter('12 A')
    expect(await violations()).toEqual([])
    const all = [...document.querySelectorAll('aside *')]
    const cut = all.filter((element) => {
      const box = element.getBoundingClientRect()
      if (box.width === 0 || element.closest('.visually-hidden, [tabindex="0"]') !== null) return false
      return box.right > width + 1 || box.left < -1
    })
    expect(cut.map((element) => element.outerHTML.slice(0, 120))).toEqual([])
    const small = all.filter(
      (element) =>
        [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== '') &&
        Number.parseFloat(getComputedStyle(element).fontSize) < 12,
    )
    expect(small.map((element) => element.outerHTML.slice(0, 120))).toEqual([])
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(width)
    const touched = document.querySelectorAll(
      'section[aria-label$=" measuring"] :is(button, input[data-measuring], select, textarea)',
    )
    const low = [...touched].filter((element) => {
      const { height: tall } = element.getBoundingClientRect()
      // A number within a line may be as low as 24 px (WCAG 2.2, success criterion 2.5.8).
      const least = element.matches('[data-figure]') ? 23.5 : 32
      return tall > 0 && tall < least && !element.className.includes('link')
    })
    expect(low.map((element) => element.outerHTML.slice(0, 120))).toEqual([])
  },
)
