/** Layouts by hand and from the generator: what is taken as sure is right, and what can't be sure is asked. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readReport, recipeSchema } from '../../src/report/index.ts'
import { blamed } from '../fixtures/layouts/blamed.ts'
import { SHAPES } from '../fixtures/layouts/by-hand.ts'
import { corpus } from '../fixtures/layouts/generator/corpus.ts'
import { differenceByHand, scoreCase } from '../fixtures/layouts/generator/score.ts'
import { STRANGERS } from '../fixtures/layouts/strangers.ts'
import { shippedBoard } from '../support/read-board.ts'
import { pieces, utf8 } from './support.ts'

const model = shippedBoard('bowline-8')

describe('a shape by hand is read right, or asked about', () => {
  test.each(SHAPES.map((shape) => [shape.name, shape] as const))('%s', async (_, { text, says }) => {
    const read = await readReport(pieces(utf8(`${text}\n`)), { model })
    const sure = read.ok && read.value.sure === 'sure' ? blamed(read.value) : undefined
    expect(sure).toEqual(says === 'ask' ? undefined : says)
  })
})

describe('a layout that a stranger might print is read right, or asked about', () => {
  test.each(STRANGERS.map((shape) => [shape.name, shape] as const))('%s', async (_, { board, text, says }) => {
    const read = await readReport(pieces(utf8(text)), { model: shippedBoard(board) })
    const sure = read.ok && read.value.sure === 'sure' ? blamed(read.value) : undefined
    expect(sure).toEqual(says === 'ask' ? undefined : says)
  })
})

describe('the corpus of generated layouts', () => {
  const layouts = corpus()
  test('is what its seeds make', () => {
    expect(layouts.length).toBeGreaterThanOrEqual(150)
    for (const { seed, layout } of layouts) {
      expect(readFileSync(`tests/fixtures/layouts/corpus/${seed}.txt`, 'utf8')).toBe(layout.text)
    }
  })
  test('holds nothing that is read wrong and taken as sure, and of what a person could read nine in ten are read', async () => {
    const wrong: string[] = []
    let readable = 0
    let right = 0
    for (const { seed, layout } of layouts) {
      const { outcome, said } = await scoreCase(layout)
      if (outcome === 'wrong') wrong.push(`${seed}: ${layout.kind}: ${said}`)
      if (layout.ask) continue
      readable++
      if (outcome === 'right') right++
    }
    expect(wrong).toEqual([])
    expect(right / readable).toBeGreaterThanOrEqual(0.9)
  })
})

test('a text of the corpus that is cut in its middle blames no lane that the whole does not, or is asked about', async () => {
  const wrong: string[] = []
  for (const { seed, layout } of corpus()) {
    const text = layout.text.slice(0, layout.text.length >> 1)
    const { outcome, said } = await scoreCase({ ...layout, text })
    if (outcome === 'wrong' && said.includes('blamed wrongly')) wrong.push(`${seed}: ${layout.kind}: ${said}`)
  }
  expect(wrong).toEqual([])
})

describe('a recipe made by hand', () => {
  const layouts = corpus()
  test('reads every text of the corpus that a recipe can express', async () => {
    const wrong: string[] = []
    for (const { seed, layout } of layouts) {
      if (typeof layout.byHand === 'string') continue
      const said = await differenceByHand(layout, recipeSchema.parse(layout.byHand))
      if (said !== '') wrong.push(`${seed}: ${layout.kind}: ${said}`)
    }
    expect(wrong).toEqual([])
  })
  test('can express all but these', () => {
    const reasons = layouts.flatMap(({ layout }) =>
      typeof layout.byHand === 'string' ? [`${layout.kind}: ${layout.byHand}`] : [],
    )
    expect([...new Set(reasons)].toSorted()).toEqual([
      'named foreign: its halves are drawn at random, and one name stands for several channels: they mean nothing on the board',
      'named share " ": which of two numbers counts errors is only said by the words of a pattern',
    ])
    expect(reasons.length).toBeLessThan(layouts.length / 10)
  })
})
