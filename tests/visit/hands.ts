/**
 * Three ways to do the same at the screen: keys alone, a mouse, a finger. Each does only what such a person can: the keys
 * never click, the finger never hovers. Files come through the browser's own chooser in all of them.
 */
import type { Locator, Page } from 'playwright'

export interface Point {
  readonly x: number
  readonly y: number
}

export interface VisitFile {
  readonly name: string
  readonly mimeType: string
  readonly buffer: Buffer
}

export interface Hand {
  /** A button, a link, something that opens. */
  press(target: Locator): Promise<void>
  /** Replaces what a field holds. */
  type(target: Locator, words: string): Promise<void>
  /** One of several radio buttons, or a tick. */
  choose(target: Locator): Promise<void>
  select(target: Locator, words: string): Promise<void>
  /** The key of the station, or its place in the list. */
  goTo(station: string, key: string): Promise<void>
  /** A press on the sheet, or a drag from one point to another; undefined where a hand can't: it types the place. */
  readonly draw: ((from: Point, to: Point) => Promise<void>) | undefined
}

const stationButton = (page: Page, station: string): Locator =>
  page.getByRole('navigation', { name: 'Stations' }).getByRole('button', { name: new RegExp(`^${station}`) })

export function keyboardHand(page: Page): Hand {
  const { keyboard } = page
  const type = async (target: Locator, words: string): Promise<void> => {
    await tabTo(page, target)
    await keyboard.press('ControlOrMeta+a')
    await keyboard.press('Delete')
    await keyboard.type(words)
  }
  return {
    press: async (target) => {
      await tabTo(page, target)
      await keyboard.press('Enter')
    },
    type,
    choose: async (target) => {
      if ((await target.getAttribute('type')) === 'checkbox') {
        await tabTo(page, target)
        return keyboard.press('Space')
      }
      await tabTo(page, await entryOfGroup(target))
      for (let presses = 0; presses < 12 && !(await hasFocus(target)); presses++) await keyboard.press('ArrowRight')
      if (!(await target.isChecked())) await keyboard.press('Space')
    },
    // letter by letter would be quicker; a slow machine takes a letter that comes late for the first of another word
    select: async (target, words) => {
      await tabTo(page, target)
      await keyboard.press('Home')
      const count = await target.locator('option').count()
      for (let presses = 0; presses < count && (await chosenIn(target)) !== words; presses++)
        await keyboard.press('ArrowDown')
    },
    goTo: async (_, key) => {
      if (await isTyping(page)) await keyboard.press('Escape')
      await keyboard.press(key)
    },
    draw: undefined,
  }
}

const hasFocus = (target: Locator): Promise<boolean> => target.evaluate((element) => element === document.activeElement)

const chosenIn = (select: Locator): Promise<string> => select.locator('option:checked').innerText()

const isTyping = (page: Page): Promise<boolean> =>
  page.evaluate(
    () => document.activeElement?.matches('textarea, select, input:not([type="radio"], [type="checkbox"])') ?? false,
  )

/** Tab enters a group of radio buttons at the one that is checked. */
async function entryOfGroup(radio: Locator): Promise<Locator> {
  const group = radio.locator('xpath=ancestor::fieldset[1]').getByRole('radio')
  const checked = group.and(radio.page().locator(':checked'))
  return (await checked.count()) > 0 ? checked.first() : group.first()
}

const MOST_TABS = 400

/**
 * Presses Tab, or Shift and Tab where the target stands before the focus, until the target has it. The target is looked up once:
 * to find it by its name costs the page more than the press does.
 */
async function tabTo(page: Page, target: Locator): Promise<void> {
  let found = await target.elementHandle()
  for (let presses = 0; presses < MOST_TABS; presses++) {
    const where = await found?.evaluate((element) => {
      const focused = document.activeElement ?? document.body
      if (focused === element) return 'there'
      if (!element.isConnected) return 'gone'
      return (focused.compareDocumentPosition(element) & Node.DOCUMENT_POSITION_PRECEDING) > 0 ? 'before' : 'after'
    })
    if (where === 'there') return
    if (where === 'gone') found = await target.elementHandle()
    else await page.keyboard.press(where === 'before' ? 'Shift+Tab' : 'Tab')
  }
  throw new Error(`${MOST_TABS} presses of Tab did not reach ${target.toString()}`)
}

export function mouseHand(page: Page): Hand {
  return {
    press: (target) => target.click(),
    type: async (target, words) => {
      await target.click()
      await target.fill('')
      await page.keyboard.type(words)
    },
    choose: (target) => target.click(),
    select: async (target, words) => {
      await target.selectOption({ label: words })
    },
    goTo: (station) => stationButton(page, station).click(),
    draw: async (from, to) => {
      await page.mouse.move(from.x, from.y)
      await page.mouse.down()
      await page.mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2)
      await page.mouse.move(to.x, to.y)
      await page.mouse.up()
    },
  }
}

export function touchHand(page: Page): Hand {
  return {
    press: (target) => target.tap(),
    type: async (target, words) => {
      await target.tap()
      await target.fill('')
      await page.keyboard.type(words)
    },
    choose: (target) => target.tap(),
    select: async (target, words) => {
      await target.selectOption({ label: words })
    },
    goTo: (station) => stationButton(page, station).tap(),
    draw: async (from, to) => {
      const touch = await page.context().newCDPSession(page)
      const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', points: readonly Point[]) =>
        touch.send('Input.dispatchTouchEvent', { type, touchPoints: points.map(({ x, y }) => ({ x, y })) })
      await send('touchStart', [from])
      if (from.x !== to.x || from.y !== to.y) {
        await send('touchMove', [{ x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }])
        await send('touchMove', [to])
      }
      await send('touchEnd', [])
      await touch.detach()
    },
  }
}
