/** The rings of reach on a printed sheet are those that the sheet on the screen shows, at the same distances. */
import { expect, test } from 'vitest'
import { drawSheet, themes } from '../../src/case/index.ts'
import { ringsOf, type SpillMark } from '../../src/spill/index.ts'
import { assessorFor } from '../support/kept-answers.ts'
import { nothingEntered } from '../support/nothing-entered.ts'
import { spillBoard } from '../support/board-fixture.ts'

const model = spillBoard(100, 70)
const spill: SpillMark = {
  kind: 'spill',
  id: 's',
  side: 'top',
  at: { x: 50, y: 35 },
  sdMm: 2,
  substance: 'coolant-eg',
  amount: { volumeMl: 0.4 },
  amountSdLog: 0,
  pressed: 'no',
  pushMm: 0,
  reachesOtherSide: false,
}
const assessment = assessorFor(model).assess({ ...nothingEntered, marks: [spill] })
const sheet = (side: 'top' | 'bottom'): string =>
  drawSheet({ model, side, show: ['reach'], marks: [spill], tally: undefined, assessment, title: 'a sheet' })

const ringPaths = (side: 'top' | 'bottom'): string[] =>
  [...sheet(side).matchAll(/<path[^>]*>/g)].map(([path]) => path).filter((path) => path.includes(themes.paper.reach))

test('each ring is there with its distance, and the edge of what is wetted alone is solid', () => {
  const reach = assessment.reaches[0]?.reach
  const [field] = reach?.fields ?? []
  if (reach === undefined || field === undefined) throw new Error('a spill without reach')
  const rings = ringsOf(field, reach.radiusMm)
  expect(rings.length).toBeGreaterThan(2)
  const drawn = [...sheet('top').matchAll(/>([\d.]+ mm)</g)].map(([, label]) => label)
  for (const { label } of rings) expect(drawn).toContain(label)
  expect(rings.filter(({ solid }) => solid).map(({ effortMm }) => effortMm)).toEqual([reach.radiusMm])
  expect(ringPaths('top')).toHaveLength(rings.length)
  expect(ringPaths('top').filter((path) => !path.includes('stroke-dasharray'))).toHaveLength(1)
})

test('the other side, which it does not reach, has none', () => {
  expect(ringPaths('bottom')).toEqual([])
})
