/** How a figure was worked out: its numbers are found in a sentence, its rule names a source, its inputs have the values of the case. */
import { describe, expect, test } from 'vitest'
import { explain, figureRules, figureRulesAt } from '../../src/view/figures/catalogue.ts'
import { numbersIn } from '../../src/view/figures/numbersIn.ts'

const numbersOf = (words: string, wanted = {}): string[] =>
  numbersIn(words, wanted).flatMap(({ text, isNumber }) => (isNumber ? [text] : []))

describe('the numbers of a sentence', () => {
  test('are its chances and temperatures, a range as one, and nothing else', () => {
    expect(numbersOf('U14 with 72 %, over 99.9 % at most; 213 to 220 °C for 60 s')).toEqual([
      '72 %',
      'over 99.9 %',
      '213 to 220 °C',
    ])
    expect(numbersOf('U14 is 12 mm from U1')).toEqual([])
  })

  test('are what its unit or its own words name: 1 EUR is no part of 11 EUR, mm none of mm²', () => {
    expect(numbersOf('about +1,704 EUR, 11 EUR', { units: ['EUR'] })).toEqual(['+1,704 EUR', '11 EUR'])
    expect(numbersOf('bill about 411; 41 min', { numbers: ['41'] })).toEqual(['41'])
    expect(numbersOf('12 mm around, 4 mm² in all', { units: ['mm'] })).toEqual(['12 mm'])
  })

  test('are found as each manner writes them', () => {
    const units = ['EUR']
    expect(numbersOf('etwa 1.704,50 EUR bei 0,5 %', { units })).toEqual(['1.704,50 EUR', '0,5 %'])
    expect(numbersOf('vers 1\u202f704,5 EUR', { units })).toEqual(['1\u202f704,5 EUR'])
  })

  test('leave the words whole', () => {
    const words = 'If it passes (32 %), wash it: 25 min.'
    expect(
      numbersIn(words, {})
        .map(({ text }) => text)
        .join(''),
    ).toBe(words)
  })
})

describe('the catalogue', () => {
  test('each rule says how, from what, by whom and when or that nobody published it, and what it can’t know', () => {
    const unsourced = figureRules.filter(
      ({ source }) => !/\(\d{4}\)|\d{4}|J-STD-\d+|common practice|from memory|same sum|Counted in/i.test(source),
    )
    expect(unsourced.map(({ title }) => title)).toEqual(['What it adds up to'])
    for (const { formula, from, limit } of figureRules)
      expect([formula, limit, ...from].every((words) => words.length > 3)).toBe(true)
    expect(new Set(figureRules.map(({ title }) => title)).size).toBe(figureRules.length)
  })

  test('every station that works something out has rules', () => {
    for (const station of ['cold-measuring', 'memory-run', 'spill', 'suspects', 'plan', 'proof', 'hand-back'] as const)
      expect(figureRulesAt(station).length).toBeGreaterThan(0)
  })
})

describe('a figure that brings its inputs', () => {
  test('tells them without a case: 7 of 8 are 88 %, and what the record weighs', () => {
    const share = explain({ kind: 'shop-share', words: 'first story', hits: 7, tries: 8 }, undefined)
    expect(share.title).toMatch(/^first story: /)
    expect(share.inputs.map(({ value }) => value.replace('\u00a0', ' '))).toEqual(['7 of 8', '88 %'])
    const figure = { kind: 'shop-figure', name: 'a rail', shipped: '0.3 %', seen: '1 of 20 rails', weight: '50 cards' }
    expect(explain({ ...figure, kind: 'shop-figure' }, undefined).inputs.map(({ value }) => value)).toEqual([
      '0.3 %',
      '50 cards',
      '1 of 20 rails',
    ])
  })

  test('of the case it tells nothing while none lies on the desk', () => {
    expect(explain({ kind: 'worth' }, undefined).inputs).toEqual([])
  })
})
