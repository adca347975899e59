/** The page on paper: a real browser prints it on A4, with its foot on every page and no heading left alone. */
import { chromium } from 'playwright'
import { expect, test } from 'vitest'
import { type Audience, recordHtml, recordOf } from '../../src/case/index.ts'
import { chromiumLaunchOptions } from '../support/chromium.ts'
import { readPdf } from '../support/pdf-text.ts'
import { openFull } from '../support/recordCase.ts'

const opened = await openFull()

async function printed(
  audience: Audience,
): Promise<readonly { readonly words: string; readonly mediaBox: readonly number[] }[]> {
  const browser = await chromium.launch(await chromiumLaunchOptions())
  try {
    const page = await browser.newPage()
    await page.setContent(recordHtml(recordOf({ ...opened, audience, today: '2026-03-20' })))
    return readPdf(await page.pdf({ preferCSSPageSize: true }))
  } finally {
    await browser.close()
  }
}

/** The browser places letters one by one, so spaces say nothing there. */
const packed = (text: string): string => text.replaceAll(/\s/g, '')

test.each([
  ['owner', ['Yourcard,andwhatwedid', 'Whattoavoid,andwhattowatchfor']],
  ['technician', ['Everyfieldfilledin', 'Casefileversion']],
] as const)(
  'for the %s: A4, numbered and named at the foot, no heading at the end of a page',
  async (audience, said) => {
    const pages = await printed(audience)
    const all = pages.map(({ words }) => packed(words).replaceAll('ﬁ', 'fi'))
    const headings = recordOf({ ...opened, audience, today: '2026-03-20' }).sections.map(({ title }) => packed(title))
    expect(pages.length).toBeGreaterThan(1)
    for (const [i, { mediaBox }] of pages.entries()) {
      expect(mediaBox.map(Math.round)).toEqual([0, 0, 595, 842])
      expect(all[i]).toContain(`${i + 1}of${pages.length}`)
      expect(all[i]).toContain(packed(`Card K-0731, record for the ${audience}, 20 March 2026`))
      expect(headings.filter((heading) => all[i]?.endsWith(heading))).toEqual([])
    }
    for (const words of said) expect(all.join('')).toContain(words)
  },
)
