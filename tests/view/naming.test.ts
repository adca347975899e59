/** Telling names of a report: what a place on the sheet gives, names as they stand there, what the board and the browser keep. */
import { describe, expect, test } from 'vitest'
import bowline from '../../boards/bowline-8.json' with { type: 'json' }
import { loadBoard } from '../../src/board/index.ts'
import { CASE_VERSION, type Case, caseSchema } from '../../src/case/index.ts'
import { type ForeignName, lanesOfMeaning } from '../../src/report/index.ts'
import {
  descriptionOf,
  wordsOf,
  wordsUnder,
  wordsWithNames,
  wordsWithout,
  wordsWithRecipe,
  withWords,
} from '../../src/view/stores/boardWords.ts'
import { isPlace, meantPlace, placesOf, shareSaid } from '../../src/view/stations/memory-run/handPlace.ts'
import { freeShare, likelyShare, meaningAt, sharesOn } from '../../src/view/stores/naming.ts'
import { sheetNamesOf } from '../../src/view/stations/memory-run/names/sheetNames.ts'
import { shopWordsIn, shopWordsInMemory } from '../../src/view/stores/shopWords.ts'

const loaded = loadBoard(bowline)
if (!loaded.ok) throw new Error('the board of this test did not load')
const model = loaded.value
const ofU14 = model.channels.filter(({ parts }) => parts.includes('U14')).map(({ id }) => id)
const [low = '', high = ''] = ofU14

const foreign = (n: number): ForeignName[] =>
  Array.from({ length: n }, (_, i) => ({ name: `C${i}`, proposal: undefined, errors: undefined, line: i + 1 }))

const present: Case = caseSchema.parse({
  format: 'liftmap-case',
  version: CASE_VERSION,
  title: 'a card',
  board: { inline: model.description },
})
const sample = ['C0 low: 0 errors', 'C0 high: 0 errors', 'C1 low: 7 errors'].join('\n')
const told = { title: 'run-1.txt of 2026-03-14', sample }
const recipe = {
  name: 'mine',
  layout: { kind: 'spaced' as const },
  columns: [
    { role: 'part' as const, at: 0, base: 'auto' as const },
    { role: 'count' as const, at: 1, base: 'auto' as const },
  ],
  skipLinesWith: [],
  addressUnitBytes: 1,
}

describe('a place on the sheet', () => {
  test('is the package, the nearer half or the nearest lane, as one name is said to be', () => {
    for (const lane of model.lanes) {
      const polygon = model.regionById.get(lane.memoryRegion)?.polygon ?? []
      const n = polygon.length
      const at = {
        x: polygon.reduce((sum, p) => sum + p.x, 0) / n,
        y: polygon.reduce((sum, p) => sum + p.y, 0) / n,
      }
      const side = model.partByRef.get(lane.part)?.side ?? 'top'
      expect(meaningAt(model, at, side, 'package')).toBe(lane.part)
      expect(meaningAt(model, at, side, 'lane')).toBe(lane.id)
      expect(lanesOfMeaning(model, meaningAt(model, at, side, 'half') ?? '')).toContain(lane.id)
    }
  })

  test('is nothing beside all packages and on the other side of the board', () => {
    const at = model.partByRef.get('U14')?.placement.at ?? { x: 0, y: 0 }
    expect(meaningAt(model, model.core?.placement.at ?? at, 'top', 'package')).toBeUndefined()
    expect(meaningAt(model, at, 'bottom', 'package')).toBeUndefined()
  })

  test('by keyboard is the first half that no name has, and the first of all where every half has one', () => {
    expect(sharesOn(model, 'U14', 'half')).toEqual([low, high])
    expect(freeShare(model, 'U14', 'half', {})).toBe(low)
    expect(freeShare(model, 'U14', 'half', { one: low })).toBe(high)
    expect(freeShare(model, 'U14', 'half', { one: 'U14' })).toBe(low)
  })

  test('is likely a package for as many names as packages, half of one for twice as many, a lane beyond', () => {
    expect(likelyShare(foreign(8), model)).toBe('package')
    expect(likelyShare(foreign(16), model)).toBe('half')
    expect(likelyShare(foreign(32), model)).toBe('lane')
    expect(likelyShare([{ name: 'x', proposal: low, errors: undefined, line: 1 }], model)).toBe('half')
  })
})

describe('names on the sheet', () => {
  test('are what names of one package have in common, with the rest in its lanes; a proposal has a question mark', () => {
    const names = sheetNamesOf(model, { 'C3 low': low, 'C3 high': high }, { 'C4 low': 'U15', 'C3 low': 'U11' })
    expect(Object.fromEntries(names.parts)).toEqual({ U14: 'C3', U15: 'C4 low?' })
    const [lane = ''] = lanesOfMeaning(model, low)
    const [other = ''] = lanesOfMeaning(model, high)
    expect([names.lanes.get(lane), names.lanes.get(other)]).toEqual(['low', 'high'])
  })

  test('C10 and C11 have no C1 in common', () => {
    expect(sheetNamesOf(model, { C10: low, C11: high }).parts.get('U14')).toBe('C10, C11')
  })
})

describe('words of the board', () => {
  test('lie in the case’s own board, and taking all names back leaves the board as it was', () => {
    const words = wordsWithNames([], told, { 'C0 low': low })
    const after = withWords(present, model, words)
    expect(descriptionOf(after, model).reportWords).toMatchObject([{ title: told.title, names: { 'C0 low': low } }])
    expect(wordsOf(after, model)).toEqual(words)
    const back = withWords(after, model, wordsWithNames(words, told, {}))
    expect('inline' in back.board && back.board.inline).toEqual(model.description)
    expect(withWords(present, model, [])).toBe(present)
  })

  test('a recipe joins the names of the same kind of report, and stays when the names go', () => {
    const named = wordsWithNames([], told, { 'C0 low': low })
    const both = wordsWithRecipe(named, told, { ...recipe, names: { 'C0 low': 'U11' } })
    expect(both).toMatchObject([{ names: { 'C0 low': low }, recipe: { name: 'mine' } }])
    expect(both[0]?.recipe).not.toHaveProperty('names')
    expect(wordsWithNames(both, told, {})).toMatchObject([{ recipe: { name: 'mine' } }])
    expect(wordsWithNames(both, told, {})[0]).not.toHaveProperty('names')
    const [first] = both
    expect(first && wordsWithout(both, first)).toEqual([])
  })

  test('one’s own count before what comes in, and names of another board stay out', () => {
    const own = wordsWithNames([], told, { 'C0 low': low })
    const others = wordsWithNames([], told, { 'C0 low': high })
    expect(wordsUnder(own, others, model)).toMatchObject([{ names: { 'C0 low': low } }])
    const strange = [{ title: 'elsewhere', look: ['x'], names: { A: 'U99' } }]
    expect(wordsUnder(own, strange, model)).toEqual(own)
  })

  test('the browser keeps them by board; a reading that can’t be read is left out, a full storage loses nothing at once', () => {
    const kept = new Map<string, string>()
    const storage = {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => void kept.set(key, value),
    }
    const words = wordsWithNames([], told, { 'C0 low': low })
    shopWordsIn(storage).keep('bowline-8', words)
    expect(shopWordsIn(storage).of('bowline-8')).toEqual(words)
    expect(shopWordsIn(storage).of('hitch-12')).toEqual([])
    for (const key of kept.keys()) kept.set(key, JSON.stringify([{ title: 3 }, ...words]))
    expect(shopWordsIn(storage).of('bowline-8')).toEqual(words)
    for (const key of kept.keys()) kept.set(key, '{')
    expect(shopWordsIn(storage).of('bowline-8')).toEqual([])
    const full = shopWordsIn({
      getItem: () => {
        throw new Error('forbidden')
      },
      setItem: () => {
        throw new Error('full')
      },
    })
    full.keep('bowline-8', words)
    expect(full.of('bowline-8')).toEqual(words)
    expect(shopWordsInMemory().of('bowline-8')).toEqual([])
  })
})

describe('a place that is typed', () => {
  const places = placesOf(model, { 'C3 low': low, pair: ['U12.B0', 'U13.B0'] })
  const meant = (typed: string) => {
    const found = meantPlace(places, typed)
    return isPlace(found) ? found.name : found
  }

  test('is completed where it can mean one thing only, whatever its case and marks', () => {
    expect(meant('u13 a0')).toBe('U13.A0')
    expect(meant('u13')).toBe('U13')
    expect(meant('c3l')).toBe('C3 low')
    expect(meant('u9')).toEqual([])
    expect(meant('')).toEqual([])
    expect(meant('u13.a')).toEqual(['U13.A0', 'U13.A1'])
  })

  test('says that a channel is half of a package, and nothing of a whole one', () => {
    expect(shareSaid(model, { channel: low })).toBe('half of U14 (A0, A1), not the whole package')
    expect(shareSaid(model, { part: 'U14' })).toBeUndefined()
    expect(shareSaid(model, { lane: 'U14.A0' })).toBeUndefined()
  })
})
