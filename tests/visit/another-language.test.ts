/**
 * The application in a language in which every message stands between marks: what is read outside of them was not said
 * through the catalogue, and is a mistake unless it is data: a name or text of the case, the board or its report, a part, a
 * number with its unit.
 */
import { readFileSync } from 'node:fs'
import type { Page } from 'playwright'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { browserOfFile } from '../support/browser-of-file.ts'
import { type BuiltApp, serveBuiltApp } from '../support/built-app.ts'
import { everythingMarked, outsideOfMarks } from '../support/everything-marked.ts'
import { PATIENT_MS, TEST_MS } from '../support/patience.ts'

const DEMOS = ['A fitting leaked', 'A tool slipped'] as const
const CASES = ['wept-fitting', 'slipped-tool'].map((name) => `demo-data/${name}.case.json`)
const BOARDS = ['boards/hitch-12.json', 'boards/splice-6.json']
const REPORTS = ['demo-data/wept-fitting.report.txt', 'demo-data/slipped-tool.report.csv']

/** The chunk with the German catalogue, and what it exports it as. */
const CATALOGUE = /\/german-[\w-]+\.js$/
const EXPORTED = /export\s*\{\s*[\w$]+ as ([\w$]+)\s*\};?\s*$/

function withMarks(path: string, bytes: Buffer): Buffer {
  if (!CATALOGUE.test(path)) return bytes
  const [, name] = EXPORTED.exec(bytes.toString()) ?? []
  if (name === undefined) throw new Error(`${path} exports its catalogue in another way`)
  return Buffer.from(`export const ${name} = ${JSON.stringify(everythingMarked())}`)
}

let app: BuiltApp
const browser = browserOfFile()
beforeAll(async () => {
  app = await serveBuiltApp(withMarks)
})
afterAll(async () => {
  await app.close()
})

/** What of it is seen or read out, everything opened that can be opened; a run of text and its marks is one. */
const readOn = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const inline = new Set([
      'B',
      'SPAN',
      'SMALL',
      'STRONG',
      'EM',
      'A',
      'BUTTON',
      'CODE',
      'SUP',
      'svg',
      'KBD',
      'IMG',
      'BR',
    ])
    const found: string[] = []
    for (const details of document.querySelectorAll('details')) details.open = true
    for (const element of document.body.querySelectorAll('*'))
      for (const name of ['aria-label', 'aria-description', 'title', 'placeholder', 'alt'])
        found.push(element.getAttribute(name) ?? '')
    const read = (element: Element): void => {
      if (['SCRIPT', 'STYLE', 'TEXTAREA', 'IFRAME'].includes(element.tagName)) return
      if ([...element.querySelectorAll('*')].every(({ tagName }) => inline.has(tagName))) {
        found.push(element.textContent ?? '')
        return
      }
      for (const node of element.childNodes) if (node instanceof Text) found.push(node.data)
      for (const child of element.children) read(child)
    }
    read(document.body)
    return [...new Set(found.filter((text) => text.trim() !== ''))]
  })

/** A single small word is a name that the program goes by, and is to be said. */
const isMachineWord = (text: string): boolean => /^[a-z][a-z-]*$/.test(text)

function textsIn(value: unknown): string[] {
  if (typeof value === 'string') return isMachineWord(value) ? [] : [value]
  if (Array.isArray(value)) return value.flatMap(textsIn)
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(textsIn) : []
}

/** Names of files, parts and channels, units, currencies, keys of the keyboard: the same in each language. */
const IN_EVERY_LANGUAGE =
  /(?<![\p{L}\d])(?:Liftmap|English|Deutsch|EUR|GND|DQ|CA|DP|Esc|Enter|Tab|Ctrl|min|mm|cm|ml|[kMm]Ω|mV|kg\/m³|Pa·s|GT\/s|max|USB|PDF|CSV|SVG|JSON|HTML|[A-Z]{1,5}\d+[\w/.-]*|0x[0-9a-f]+|\w+\.(?:json|txt|csv|pdf))(?![\p{L}\d])/gu

const data = [...CASES, ...BOARDS]
  .flatMap((file) => textsIn(JSON.parse(readFileSync(file, 'utf8'))))
  .concat(REPORTS.flatMap((file) => readFileSync(file, 'utf8').split('\n')).map((line) => line.trim()))
  .filter((text) => /\p{L}{2}/u.test(text))
const longestFirst = [...new Set(data)].toSorted((a, b) => b.length - a.length)

/** What stands outside of the marks and is no data. */
function unsaid(text: string): string {
  let rest = outsideOfMarks(text).replaceAll(/\s+/g, ' ')
  if (!/\p{L}{2}/u.test(rest)) return ''
  for (const known of longestFirst) rest = rest.replaceAll(known.replaceAll(/\s+/g, ' '), ' ')
  rest = rest.replaceAll(IN_EVERY_LANGUAGE, ' ')
  return /\p{L}{2}/u.test(rest) ? rest.trim() : ''
}

const stations = [
  ['1', 'Arrival'],
  ['2', 'Cold measuring'],
  ['3', 'Powered measuring'],
  ['4', 'Memory run'],
  ['5', 'Inspection'],
  ['6', 'Spill'],
  ['7', 'Lift list'],
  ['8', 'Plan'],
  ['9', 'Proof'],
  ['0', 'Hand-back'],
] as const

const UNDER_WAY = /Working it out|Comparing ways|Looking for what|is being read|is being worked out/

test('all that is told apart from data is: a text without marks is found, one with marks is not', () => {
  expect(unsaid('⟦Lift ⟦U14⟧⟧ first')).toBe('first')
  expect(unsaid('⟦Lift⟧ U14, 12 mm, VMEM')).toBe('')
  expect(unsaid('rail-branch')).not.toBe('')
})

test(
  'ten stations of two cards, the help and the page of languages say everything that is no data through the catalogue',
  async () => {
    const context = await browser().newContext({
      viewport: { width: 1440, height: 900 },
      locale: 'de-DE',
      serviceWorkers: 'block',
    })
    const page = await context.newPage()
    page.setDefaultTimeout(PATIENT_MS)
    const left = new Map<string, string>()
    let said = 0
    const look = async (where: string): Promise<void> => {
      for (const text of await readOn(page)) {
        if (text.includes('⟦')) said++
        const rest = unsaid(text)
        if (rest !== '' && !left.has(rest)) left.set(rest, where)
      }
    }
    await page.goto(app.address)
    await page.getByRole('list', { name: 'Parts to lift' }).waitFor()
    const panel = page.locator('#why-panel')
    const title = await page.getByRole('heading', { level: 1 }).innerText()
    const walk = async (card: string): Promise<void> => {
      for (const [key, heading] of stations) {
        await page.keyboard.press(key)
        await page.locator('h2:focus', { hasText: heading }).waitFor()
        if (heading === 'Lift list') await panel.getByRole('list', { name: 'Parts to lift' }).waitFor()
        if (heading === 'Plan') await panel.getByRole('list', { name: 'Steps in order' }).waitFor()
        await expect
          .poll(
            async () =>
              (await panel.locator('[role="progressbar"], [aria-busy="true"]').count()) === 0 &&
              !UNDER_WAY.test(await panel.innerText()),
            { timeout: PATIENT_MS },
          )
          .toBe(true)
        await look(`${card}, ${heading}`)
      }
    }
    const [first, second] = DEMOS
    await walk(first)
    await page.getByRole('button', { name: '⟦Open⟧', exact: true }).click()
    await page.getByRole('menuitem', { name: second }).click()
    await expect.poll(() => page.getByRole('heading', { level: 1 }).innerText()).not.toBe(title)
    await walk(second)
    await page.getByRole('button', { name: '⟦Open⟧', exact: true }).click()
    await page.getByRole('menuitem').first().waitFor()
    await look('menu')
    await page.getByRole('menuitem', { name: 'Language and numbers' }).click()
    await page.getByRole('dialog').getByText('As the browser').first().waitFor()
    await look('Language and numbers')
    await page.keyboard.press('Escape')
    await page.getByRole('dialog').waitFor({ state: 'detached' })
    await page.keyboard.press('?')
    await page.getByRole('dialog').locator('summary, h3').first().waitFor()
    await look('help')
    expect([...left].map(([text, where]) => `${where}: ${text}`)).toEqual([])
    expect(said).toBeGreaterThan(500)
    await context.close()
  },
  TEST_MS,
)
