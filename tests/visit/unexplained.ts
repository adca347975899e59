/** Numbers of a panel that can't say how they were worked out, as far as they are told by a unit. */
import type { Page } from 'playwright'

/**
 * Where a chance, a temperature or an amount stands as it is: typed by the user, a constant within a caution or a choice,
 * a figure with its source beside it, or the way to where the same number is explained.
 */
const MAY_STAND_PLAIN = [
  'option, textarea, input, .visually-hidden',
  // A line that opens holds nothing else that can be pressed; what opens explains its numbers.
  'summary',
  '[aria-label^="Caution"]',
  '[aria-label="All parts on the board"]',
  '[aria-label="Assumptions"], [data-sources]',
  'th[scope="row"]',
  '[aria-label="Equipment"]',
  '[aria-label="Done so far"]',
  'blockquote, q',
].join(', ')

const hasNumber = String.raw`\d[\s\u00a0]?(?:%|°C|EUR)(?!\p{L})`

/** With everything opened that can be opened, and shut again; each is told with the words around it. */
export const unexplained = (page: Page): Promise<string[]> =>
  page.evaluate(
    ({ plain, pattern }) => {
      const panel = document.querySelector<HTMLElement>('#why-panel')
      if (panel === null) throw new Error('no panel')
      const closed = [...panel.querySelectorAll('details')].filter(({ open }) => !open)
      for (const details of closed) details.open = true
      const number = new RegExp(pattern, 'u')
      const found: string[] = []
      const walker = document.createTreeWalker(panel, NodeFilter.SHOW_TEXT)
      for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
        const words = node.textContent ?? ''
        const element = node.parentElement
        if (!number.test(words) || element === null || element.closest(`[data-figure], ${plain}`) !== null) continue
        found.push(words.trim().slice(0, 120))
      }
      for (const details of closed) details.open = false
      return found
    },
    { plain: MAY_STAND_PLAIN, pattern: hasNumber },
  )
