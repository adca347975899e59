/** The scorecard as a page: sentences, rows and plots of a small scorecard, worked by hand. */
import { describe, expect, it } from 'vitest'
import { type Calibration, type Scorecard, scorecardOf, scorecardPage } from '../../src/rehearsal/index.ts'
import { threeCards } from './score-support.ts'

const INK = '#3b372f'
const FAINT = '#b9b2a3'
// Okabe and Ito, Color Universal Design, 2008
const [BLUE, VERMILLION, GREEN, PURPLE, ORANGE, SKY] = [
  '#0072b2',
  '#d55e00',
  '#009e73',
  '#cc79a7',
  '#e69f00',
  '#56b4e9',
]

const three = scorecardOf({ seed: 7, mixture: 'middle', weights: {} }, threeCards)
const page = (change: Partial<Scorecard> = {}): string => scorecardPage({ ...three, ...change })
const svgs = (html: string): string[] => html.match(/<svg .*?<\/svg>/gs) ?? []
const rowsOf = (html: string, heading: string): string[][] => {
  const [, after = ''] = html.split(`<h2>${heading}</h2>`)
  const [table = ''] = /<table>.*?<\/table>/s.exec(after) ?? []
  return [...table.matchAll(/<tr>(.*?)<\/tr>/g)].map(([, row = '']) =>
    [...row.matchAll(/<t[hd]>(.*?)<\/t[hd]>/g)].map(([, cell = '']) => cell),
  )
}
const text = (x: string, y: string, words: string, anchor = 'start'): string =>
  `<text x="${x}" y="${y}" text-anchor="${anchor}">${words}</text>`

describe('the page of a scorecard', () => {
  it('says in one paragraph of what it is, and how often it was right', () => {
    expect(page()).toContain(`<h1>How right it is</h1>
<p>3 made-up cards with a known truth, seed 7, mixture middle; the core had to come off on
66.7 %. The true cause stood first on 33.3 %, among the first three on
66.7 %. A card: 1.00 needed parts missed, 1.00 lifted for nothing.</p>
<h2>Cost of a card</h2><p>In the shop's currency; lines are ranges of 95 % over the cards.</p>
<svg `)
    expect(page()).toMatch(
      /^<!doctype html><html lang="en"><meta charset="utf-8"><title>Scorecard<\/title><style>body\{[^<]*\}<\/style>\n/,
    )
    expect(page()).toMatch(/\n<\/html>\n$/)
  })

  it('has a table of each grouping, in the order of the page', () => {
    const headings = [...page().matchAll(/<h2>(.*?)<\/h2>/g)].map(([, heading]) => heading)
    expect(headings).toEqual([
      'Cost of a card',
      'What was said and what was so',
      'By what had happened',
      'By packages that the report names',
      'By board',
      'By substance',
      'By what the owner said',
      'With less to go by',
    ])
    const names = headings.slice(2, 7).map((heading = '') => rowsOf(page(), heading).map(([name]) => name))
    expect(names).toEqual([
      ['', 'die', 'wet-spill'],
      ['', '1', '4', '5 or more'],
      ['', 'first', 'second'],
      ['', 'none', 'water'],
      ['', 'accident', 'unknown'],
    ])
  })

  it('gives each group its cards, costs, hits and what was said of the core', () => {
    expect(rowsOf(page(), 'By what had happened')).toEqual([
      [
        '',
        'cards',
        'Liftmap, its list at once',
        'Liftmap, in steps',
        'what the report names',
        'and the core from two on',
        'and the core always',
        'who knows the truth',
        'who knows it, with repairs beside and the last run',
        'first',
        'missed',
        'needless',
        'core said',
        'core was',
      ],
      // two dies: (100 + 200) / 2 and so on; 97.5 is written 98
      ['die', '2', '150', '145', '115', '110', '175', '60', '98', '50.0 %', '1.00', '1.50', '0.30', '0.50'],
      ['wet-spill', '1', '300', '250', '400', '350', '350', '240', '255', '0.0 %', '1.00', '0.00', '0.80', '1.00'],
    ])
  })

  it('has nought where nobody of a group worked so', () => {
    const [die] = Object.values(three.byKind)
    if (die === undefined) throw new Error('no group')
    const byTold = { a: { ...die, cost: { liftmap: 9, other: 4 } }, b: { ...die, cost: { liftmap: 7 } } }
    const rows = rowsOf(page({ byTold }), 'By what the owner said').map((row) => row.slice(0, 4))
    expect(rows).toEqual([
      ['', 'cards', 'Liftmap, its list at once', 'other'],
      ['a', '2', '9', '4'],
      ['b', '2', '7', '0'],
    ])
  })

  it('names what the list had less to go by', () => {
    expect(
      rowsOf(
        page({ without: { ...three.without, spare: { cards: 2, liftmap: 60, eceCore: 0.25 } } }),
        'With less to go by',
      ),
    ).toEqual([
      ['', 'cards', 'cost of the list', 'error at the core'],
      ['everything', '1', '100', '0.200'],
      ['without looks', '1', '110', '0.300'],
      ['without readings', '1', '130', '0.400'],
      ['without either', '1', '140', '0.500'],
      ['all cards, after the checks that were proposed', '1', '290', '0.100'],
      ['spare', '2', '60', '0.250'],
    ])
  })
})

describe('the plots of the page', () => {
  it('draw costs as bars from 0 over 420, the longest range filling it, each with its figure', () => {
    const cost = { liftmap: 200, steps: 100 }
    const [first] = svgs(page({ cost, ci: { 'cost.liftmap': { value: 200, low: 150, high: 250 } } }))
    // 420 are 250: 200 are 336, 150 are 252; the figure stands 6 right of bar and range
    expect(first).toBe(
      `<svg viewBox="0 0 670 52" width="670" height="52" role="img" aria-label="Cost of a card" font-size="12" fill="${INK}">` +
        text('182.0', '15.0', 'Liftmap, its list at once', 'end') +
        `<rect x="190" y="4" width="336.0" height="14" fill="${BLUE}"/>` +
        `<line x1="442.0" y1="11.0" x2="610.0" y2="11.0" stroke="${INK}"/>` +
        text('616.0', '15.0', '200') +
        text('182.0', '37.0', 'Liftmap, in steps', 'end') +
        `<rect x="190" y="26" width="168.0" height="14" fill="${VERMILLION}"/>` +
        text('364.0', '37.0', '100') +
        `<line x1="190.0" y1="0.0" x2="190.0" y2="44.0" stroke="${FAINT}"/></svg>`,
    )
  })

  it('give every worker a colour of its own as far as the palette goes', () => {
    const [first = ''] = svgs(page({ ci: {} }))
    const colours = [...first.matchAll(/<rect [^>]*fill="(.*?)"/g)].map(([, colour]) => colour)
    expect(colours).toEqual([BLUE, VERMILLION, GREEN, PURPLE, ORANGE, SKY, BLUE])
    expect(svgs(page({ cost: { liftmap: 0 }, ci: {} }))[0]).toContain('width="0.0"')
  })

  it('draw four workers of each kind of accident, and none that did not work', () => {
    const plot = (html: string): string[] =>
      [...(svgs(html)[4] ?? '').matchAll(/text-anchor="end">(.*?)</g)].map(([, name = '']) => name)
    const names = ['list at once', 'in steps', 'plain rule', 'known']
    expect(plot(page())).toEqual(['die', 'wet-spill'].flatMap((kind) => names.map((name) => `${kind}: ${name}`)))
    expect(svgs(page())[4]).toContain('aria-label="Cost by what had happened"')
    const [die] = Object.values(three.byKind)
    if (die === undefined) throw new Error('no group')
    expect(plot(page({ byKind: { die: { ...die, cost: { liftmap: 9, named: 3 } } } }))).toEqual(['die: list at once'])
  })

  it('draw what was said against what was so, dots by how many they are', () => {
    const bin = { from: 0, count: 0, said: 0, was: 0 }
    const core: Calibration = {
      count: 5,
      brier: 0,
      ece: 0.125,
      eceByChance: 0,
      said: 0,
      was: 0,
      bins: [{ from: 0, count: 1, said: 0.05, was: 0 }, bin, { from: 0.5, count: 4, said: 0.55, was: 0.5 }],
    }
    const plots = svgs(page({ reliability: { core, failing: core, all: { ...core, bins: [bin] } } })).slice(1, 4)
    // a square of 260 from (44, 10): 0.05 lies at 44 + 13, 0.55 at 44 + 143, half way up at 140; radius 3 + 8 √(1/4)
    expect(plots[0]).toBe(
      `<svg viewBox="0 0 324 336" width="324" height="336" role="img" aria-label="Core: error 0.125, 5 said" font-size="12" fill="${INK}">` +
        `<rect x="44" y="10" width="260" height="260" fill="none" stroke="${FAINT}"/>` +
        `<line x1="44.0" y1="270.0" x2="304.0" y2="10.0" stroke="${FAINT}"/>` +
        `<polyline points="57.0,270.0 187.0,140.0" fill="none" stroke="${BLUE}"/>` +
        `<circle cx="57.0" cy="270.0" r="7.0" fill="${BLUE}" fill-opacity="0.6"><title>1 times: said 0.05, was 0.00</title></circle>` +
        `<circle cx="187.0" cy="140.0" r="11.0" fill="${BLUE}" fill-opacity="0.6"><title>4 times: said 0.55, was 0.50</title></circle>` +
        text('44.0', '288.0', '0', 'middle') +
        text('36.0', '274.0', '0', 'end') +
        text('174.0', '288.0', '0.5', 'middle') +
        text('36.0', '144.0', '0.5', 'end') +
        text('304.0', '288.0', '1', 'middle') +
        text('36.0', '14.0', '1', 'end') +
        text('174.0', '306.0', 'probability that was said', 'middle') +
        text('44.0', '326.0', 'Core: error 0.125, 5 said') +
        '</svg>',
    )
    expect(plots[1]).toContain(`stroke="${VERMILLION}"`)
    expect(plots[1]).toContain('Packages that failed: error 0.125, 5 said')
    expect(plots[2]).toContain(`<polyline points="" fill="none" stroke="${GREEN}"/>`)
    expect(plots[2]).toContain('All parts: error 0.125, 5 said')
    expect(page()).toContain(`<div class="row"><svg `)
  })
})
