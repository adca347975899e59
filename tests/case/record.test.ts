/** The technician's record holds every fact of a case, and no text that somebody typed can become anything but text. */
import { fc, test as property } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import {
  type Audience,
  billOf,
  cautionsDefer,
  cautionsOfCase,
  codeWords,
  loadCase,
  type RecordDocument,
  recordHtml,
  recordOf,
  recordPdfDefinition,
} from '../../src/case/index.ts'
import { fullCase, openFull, type RecordedCase } from '../support/recordCase.ts'

const opened = await openFull()

const recordFor = (audience: Audience, from: RecordedCase = opened): RecordDocument =>
  recordOf({ ...from, audience, today: '2026-03-20' })

/** What a reader sees: tags off, entities read, spaces plain. */
function wordsOf(html: string): string {
  return html
    .replace(/<style>[\s\S]*?<\/style>/, '')
    .replace(/<[^>]*>/g, ' ')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')
    .replace(/\s+/g, ' ')
}

/** Leaves with their path; what is no fact about the card, how to reach its owner, or stands for bytes, is left out. */
function factsOf(value: unknown, path = ''): [string, string | number][] {
  if (/^(\$schema|format|demo|board|intake\.(phone|mail))|\.(id|text|bytes|type|shownPct|coversAll|recipe)$/.test(path))
    return []
  if (typeof value === 'string' || typeof value === 'number') return value === '' ? [] : [[path, value]]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inside]) => factsOf(inside, path === '' ? key : `${path}.${key}`))
}

/** The ways in which a record may write a fact. */
function waysToSay(path: string, fact: string | number): string[] {
  if (typeof fact === 'number') {
    const plain = [String(fact), fact.toLocaleString('en-GB'), fact.toFixed(2)]
    if (path.endsWith('.minutes')) return [`${Math.floor(fact / 60)} h ${fact % 60} min`]
    if (path.endsWith('amountSdLog')) return [Math.exp(fact).toFixed(2)]
    return plain
  }
  if (path === 'intake.code') return [codeWords(fact)]
  const day = /^2026-03-(\d\d)(?:T(\d\d:\d\d))?/.exec(fact)
  if (day !== null)
    return [day[2] === undefined ? `${Number(day[1])} March 2026` : `${Number(day[1])} March 2026, ${day[2]} UTC`]
  return [fact, fact.replaceAll('-', ' '), said[fact] ?? fact]
}

const said: Readonly<Record<string, string>> = {
  unknown: 'not known',
  first: 'as the card came',
  retest: 'after the work',
  'coolant-pg': 'Coolant, propylene glycol and water 3:7',
  value: 'Reading',
  ohms: 'Cold resistance to ground',
  volts: 'Voltage under power',
  'not-safe': 'not safe to power',
  upright: 'On edge, slot down (lower edge down)',
  before: 'before the work',
}

describe('the technician’s record', () => {
  const whole = wordsOf(recordHtml(recordFor('technician')))

  test.each(factsOf(opened.caseFile))('says %s: %s', (path, fact) => {
    expect(waysToSay(path, fact).some((way) => whole.includes(way))).toBe(true)
  })

  test('says of an empty case what was not done, part by part', async () => {
    const bare = await openFull(({ format, version, board }) => ({ format, version, board, title: 'Bare' }))
    const words = wordsOf(recordHtml(recordFor('technician', bare)))
    for (const sentence of [
      'Nothing was measured.',
      'No power-up is on the record.',
      'No test report is in the case.',
      'Nothing was marked on the board.',
      'No photos are in the case.',
      'No further check is on the record.',
      'No pass was logged.',
      'No parts were used.',
      'The memory was not tested after the work.',
      'nothing to judge by yet',
      'rail VMEM 20 to 150 Ω (common practice, no source) not measured not measured',
    ])
      expect(words).toContain(sentence)
  })

  test('says every caution that the case calls for, and each once', () => {
    const blocks = recordFor('technician').sections.flatMap((section) => section.blocks)
    const printed = blocks.flatMap((block) => (block.kind === 'cautions' ? block.sentences : []))
    const called = cautionsOfCase(opened.caseFile).filter((sentence) => sentence !== cautionsDefer)
    expect(printed.toSorted()).toEqual(called.toSorted())
    expect(whole.split(cautionsDefer)).toHaveLength(2)
  })

  test('counts every error that the report gives to a lane', () => {
    expect(whole).toMatch(/U2\.A0 1,234/)
    expect(whole).toMatch(/U2\.A1 fails, 871 errors no error gone/)
  })

  test('lists a photo, and shows it where its small picture is handed in', () => {
    const dataUrl =
      'data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNk+A8AAQUBAScY42YAAAAASUVORK5CYII='
    const record = recordOf({
      ...opened,
      audience: 'technician',
      today: '2026-03-20',
      photos: new Map([['photo-1', dataUrl]]),
    })
    expect(recordHtml(record)).toContain(`src="${dataUrl}"`)
    const bad = recordOf({
      ...opened,
      audience: 'technician',
      today: '2026-03-20',
      photos: new Map([['photo-1', 'javascript:alert(1)']]),
    })
    expect(recordHtml(bad)).not.toContain('javascript:')
  })
})

describe('what adds up', () => {
  test('parts, labour at the shop’s rate, and the difference to what was charged', () => {
    // 2 × 17.35 + 6.40 = 41.10; 187 min at 73 an hour = 227.516…; together 268.62; charged 231.90 (by hand)
    const bill = billOf(opened)
    expect(bill).toMatchObject({ partsSum: 41.1, labour: 227.52, sum: 268.62, difference: -36.72 })
    expect(wordsOf(recordHtml(recordFor('technician')))).toContain('231.90 EUR, 36.72 EUR less than the sum')
  })
})

describe('the same input gives the same record', () => {
  test.each(['owner', 'technician'] as const)('for the %s', (audience) => {
    expect(recordHtml(recordFor(audience))).toBe(recordHtml(recordFor(audience)))
    expect(JSON.stringify(recordPdfDefinition(recordFor(audience)))).toBe(
      JSON.stringify(recordPdfDefinition(recordFor(audience))),
    )
  })
})

/** Opening and closing tags in a row with the names of their attributes: what the page is, without what it says. */
const skeleton = (html: string): string[] =>
  [...html.replace(/<style>[\s\S]*?<\/style>/, '<style></style>').matchAll(/<[^>]*>/g)].map(([tag]) =>
    tag.replace(/="[^"]*"/g, ''),
  )

const nasty = fc
  .array(
    fc.constantFrom(
      '<',
      '>',
      '"',
      "'",
      '&',
      '</style>',
      '<script>',
      '<img src=x onerror=alert(1)>',
      ']]>',
      '<!--',
      '-->',
      '\\',
      '}',
      '@import',
      '&lt;',
      'a',
      ' ',
      '\u2028',
      '\ud83d\ude00',
      '${x}',
      '</title>',
    ),
    { minLength: 1, maxLength: 12 },
  )
  .map((pieces) => `x${pieces.join('')}x`)

function typedEverywhere(text: string) {
  const plain = fullCase()
  return {
    ...plain,
    title: text.slice(0, 200),
    card: text.slice(0, 120),
    arrival: { ...plain.arrival, owner: text, seen: text, account: text },
    intake: {
      ...plain.intake,
      model: text,
      serial: text.slice(0, 120),
      sealsNote: text,
      cameWith: text,
      earlierRepairs: text,
      phone: text.slice(0, 80),
      mail: text.slice(0, 200),
    },
    powered: { ...plain.powered, note: text },
    powerUps: plain.powerUps.map((power) => ({ ...power, reasons: [text], against: text })),
    proofNote: text,
    handBack: {
      ...plain.handBack,
      done: text,
      advice: text,
      currency: text.slice(0, 12),
      usedParts: [{ what: text, count: 1, price: 1 }],
    },
    marks: plain.marks.map((mark) =>
      'note' in mark ? { ...mark, note: text } : mark.kind === 'note' ? { ...mark, text } : mark,
    ),
    photos: plain.photos.map((photo) => ({ ...photo, name: text, note: text })),
    checks: plain.checks.map((check) => ({ ...check, at: text, note: text })),
    passes: plain.passes.map((pass) => ('note' in pass ? { ...pass, note: text } : pass)),
    quote: {
      on: '2026-03-15',
      low: 100,
      expected: 150,
      high: 300,
      daysLow: 1,
      daysHigh: 4,
      ifWorse: text,
      answeredBy: text,
      letterhead: { name: text, address: text, contact: text, taxNumber: text.slice(0, 80) },
      pastLimit: [{ limit: 200, spent: 210, on: '2026-03-18', reason: text }],
    },
    invoice: {
      number: text.slice(0, 60),
      on: '2026-03-20',
      to: text,
      letterhead: { name: text, address: text, contact: text, taxNumber: text.slice(0, 80) },
      lines: [{ what: text, quantity: 1, price: 10 }],
      warranty: text,
    },
    followUps: [{ on: '2026-05-02', answer: 'works', note: text }],
  }
}

const calm = await openFull(() => typedEverywhere('calm'))
const calmSkeletons = {
  owner: skeleton(recordHtml(recordFor('owner', calm))),
  technician: skeleton(recordHtml(recordFor('technician', calm))),
  intake: skeleton(recordHtml(recordFor('intake', calm))),
  quote: skeleton(recordHtml(recordFor('quote', calm))),
  invoice: skeleton(recordHtml(recordFor('invoice', calm))),
}

property.prop(
  [nasty, fc.constantFrom<keyof typeof calmSkeletons>('owner', 'technician', 'intake', 'quote', 'invoice')],
  {
    numRuns: 100,
    seed: 4,
  },
)('whatever is typed changes what the page says, never what it is', (text, audience) => {
  const typed = loadCase(typedEverywhere(text))
  if (!typed.ok) throw new Error(JSON.stringify(typed.faults))
  const html = recordHtml(recordFor(audience, { ...calm, caseFile: typed.value }))
  expect(skeleton(html)).toEqual(calmSkeletons[audience])
  expect(wordsOf(html).includes(text.replace(/\s+/g, ' ').trim())).toBe(true)
  const style = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? ''
  expect(style.split('{').length).toBe(style.split('}').length)
  expect(style).not.toContain('<')
})

test('nothing in the page asks for another file or runs', () => {
  for (const audience of ['owner', 'technician', 'intake', 'quote', 'invoice'] as const) {
    const html = recordHtml(recordFor(audience))
    const besidesDrawings = html.replace(/src="data:image\/svg\+xml,[^"]*"/g, '')
    expect(besidesDrawings.match(/<script|<link|@import|url\(|\son\w+=|srcset/i)).toBeNull()
    for (const [, source] of html.matchAll(/src="([^"]*)"/g)) expect(source).toMatch(/^data:image\//)
    expect(html).toMatch(/^<!doctype html>\n<html lang="en">/)
  }
})
