/** `liftmap record` as it is called: HTML on standard output, files by their ending, wrong use refused, the same bytes for the same day. */
import { beforeAll, describe, expect, test } from 'vitest'
import { good } from '../../src/base/index.ts'
import { type Io, nodeIo } from '../../src/cli/io.ts'
import { runCommandLine } from '../../src/cli/run.ts'
import { readPdf } from '../support/pdf-text.ts'
import { fullCase } from '../support/recordCase.ts'

const CASE = 'full.case.json'
const caseText = JSON.stringify(fullCase())

async function* bytesOf(text: string): AsyncIterable<Uint8Array> {
  yield new TextEncoder().encode(text)
}

const liftmap = (...words: string[]) => liftmapOn(caseText, ...words)

async function liftmapOn(text: string, ...words: string[]) {
  const run = { code: 0, out: '', err: '', pages: new Map<string, string>(), pdfs: new Map<string, Uint8Array>() }
  const io: Io = {
    out: (printed) => {
      run.out += printed
    },
    err: (printed) => {
      run.err += printed
    },
    open: async (path) => (path === CASE ? good(bytesOf(text)) : await nodeIo.open(path)),
    openNamed: nodeIo.openNamed,
    write: (path, content) => {
      if (typeof content === 'string') run.pages.set(path, content)
      else run.pdfs.set(path, content)
      return good(undefined)
    },
  }
  run.code = await runCommandLine(['record', ...words], io)
  return run
}

test.each([
  ['owner', 'Your card, and what we did'],
  ['technician', 'Every field filled in'],
  ['intake', 'Intake slip'],
])('for the %s: a whole page on standard output, nothing on standard error', async (reader, title) => {
  const run = await liftmap(CASE, '--for', reader, '--date', '2026-03-20')
  expect(run.code).toBe(0)
  expect(run.err).toBe('')
  expect(run.out.startsWith('<!doctype html>')).toBe(true)
  expect(run.out.trimEnd().endsWith('</html>')).toBe(true)
  expect(run.out.includes(`<h1>${title}</h1>`)).toBe(true)
  expect(run.out.includes('20 March 2026')).toBe(true)
})

test('a page goes into a file that ends in .html; one line on standard error says what was written where', async () => {
  const run = await liftmap(CASE, '--for', 'owner', '--date', '2026-03-20', '--out', 'x.html')
  expect(run.out).toBe('')
  expect(run.err).toBe('Wrote the page for the owner to x.html.\n')
  expect(run.pages.get('x.html')).toBe((await liftmap(CASE, '--for', 'owner', '--date', '2026-03-20')).out)
})

test('without a day it is made today', async () => {
  const day = (): string => new Date().toISOString().slice(0, 10)
  const before = day()
  const run = await liftmap(CASE, '--for', 'technician')
  // midnight may pass meanwhile
  const made = async (on: string): Promise<string> => (await liftmap(CASE, '--for', 'technician', '--date', on)).out
  expect([await made(before), await made(day())]).toContain(run.out)
})

describe('wrong use ends with 2 and says what was expected', () => {
  test.each([
    [['--for', 'insurer'], 'expected owner, technician, intake, quote or invoice'],
    [['--date', '2026-02-30'], 'expected a day'],
    [['--date', 'tomorrow'], 'expected a day'],
    [['--out', 'record.docx'], '.html or .pdf'],
  ])('%s', async (words, said) => {
    const run = await liftmap(CASE, ...words)
    expect(run.code).toBe(2)
    expect(run.err).toContain(said)
    expect(run.out).toBe('')
  })

  test('a case that is not there is bad input: 1', async () => {
    expect((await liftmap('demo-data/none.case.json', '--for', 'owner')).code).toBe(1)
  })
})

describe('a PDF', () => {
  const pdfOf = async (reader: string, day = '2026-03-20'): Promise<Uint8Array> =>
    (await liftmap(CASE, '--for', reader, '--date', day, '--out', 'x.pdf')).pdfs.get('x.pdf') ?? new Uint8Array()
  let forTechnician = new Uint8Array()
  beforeAll(async () => {
    forTechnician = Uint8Array.from(await pdfOf('technician'))
  })

  test('is one, on A4, and says on every page which it is', () => {
    const bytes = forTechnician
    expect(Buffer.from(bytes.slice(0, 5)).toString()).toBe('%PDF-')
    expect(Buffer.from(bytes.slice(-6)).toString().trim()).toBe('%%EOF')
    const pages = readPdf(bytes)
    expect(pages.length).toBeGreaterThan(2)
    for (const [i, { words, mediaBox }] of pages.entries()) {
      expect(mediaBox.map(Math.round)).toEqual([0, 0, 595, 842])
      expect(words).toContain(`Card K-0731, record for the technician, 20 March 2026 ${i + 1} of ${pages.length}`)
    }
  })

  test('holds the words of the record, with signs and all', () => {
    const words = readPdf(forTechnician)
      .map((page) => page.words)
      .join(' ')
      .replaceAll('\u00a0', ' ')
    for (const said of [
      'Every field filled in',
      'U2.A0 fails, 1,234 errors no error gone',
      '20 to 150 Ω',
      '17.25 Ω, below the range 53.5 Ω, in range',
      '236.5 °C',
      '34.70 EUR',
      '1.35 V',
    ])
      expect(words).toContain(said)
    expect(words).not.toContain('\ufffd')
  })

  test('no page ends with a heading alone', () => {
    const pages = readPdf(forTechnician)
    const headings = [
      'Memory run',
      'Measured',
      'Seen on the board',
      'Judged',
      'Done',
      'Hours, parts and price',
      'Proof',
      'Lift list',
      'Passes as logged',
    ]
    for (const { words } of pages) {
      const body = words.slice(0, words.indexOf('Card K-0731, record')).trim()
      expect(headings.filter((heading) => body.endsWith(heading))).toEqual([])
    }
  })

  test('is the same, byte for byte, for the same case and day; another day gives another', async () => {
    const first = Buffer.from(await pdfOf('owner'))
    expect(first.equals(Buffer.from(await pdfOf('owner')))).toBe(true)
    expect(first.equals(Buffer.from(await pdfOf('owner', '2026-03-21')))).toBe(false)
  })
})

describe('quote and invoice', () => {
  const billed = JSON.stringify({
    ...fullCase(),
    handBack: { ...fullCase().handBack, currency: 'EUR' },
    quote: { on: '2026-03-15', low: 140, expected: 190, high: 310, daysLow: 2, daysHigh: 8 },
    invoice: {
      number: '2026-0017',
      on: '2026-03-20',
      taxPct: 19,
      lines: [{ what: 'Work, at the bench', unit: 'minutes', quantity: 150, price: 60 }],
    },
  })

  test('each is a page of its own, the invoice with 150.00 and 28.50 tax, together 178.50', async () => {
    const quote = await liftmapOn(billed, CASE, '--for', 'quote')
    expect(quote.code).toBe(0)
    expect(quote.out).toContain('140.00 EUR to 310.00 EUR')
    const invoice = await liftmapOn(billed, CASE, '--for', 'invoice')
    expect(invoice.out).toContain('<h1>Invoice 2026-0017</h1>')
    expect(invoice.out).toContain('178.50 EUR')
  })

  test('the invoice goes into a table too, with a decimal comma where it is wished', async () => {
    const plain = await liftmapOn(billed, CASE, '--for', 'invoice', '--out', 'x.csv')
    expect(plain.pages.get('x.csv')).toContain('"Work, at the bench",2.500,h,60.00,0.00,150.00,EUR\r\n')
    const comma = await liftmapOn(billed, CASE, '--for', 'invoice', '--out', 'x.csv', '--decimal-comma')
    expect(comma.pages.get('x.csv')).toContain(';Work, at the bench;2,500;h;60,00;0,00;150,00;EUR\r\n')
  })

  test('no other page becomes a table', async () => {
    expect((await liftmapOn(billed, CASE, '--for', 'owner', '--out', 'x.csv')).code).toBe(2)
  })

  test('where none was written there is nothing to print: 1', async () => {
    for (const reader of ['quote', 'invoice']) {
      const run = await liftmap(CASE, '--for', reader)
      expect(run.code).toBe(1)
      expect(run.out).toBe('')
      expect(run.err).toContain(`$.${reader}`)
    }
  })
})
