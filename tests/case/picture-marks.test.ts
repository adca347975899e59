/** Marks on the printed sheet: what was painted has the shape that it was painted in, and words are only words. */
import { expect, test } from 'vitest'
import { distanceToSegment } from '../../src/base/index.ts'
import { drawSheet } from '../../src/case/index.ts'
import type { AreaMark, Mark } from '../../src/spill/index.ts'
import { assessorFor } from '../support/kept-answers.ts'
import { nothingEntered } from '../support/nothing-entered.ts'
import { spillBoard } from '../support/board-fixture.ts'

const model = spillBoard(100, 70)
const assessment = assessorFor(model).assess(nothingEntered)
const drawn = (side: 'top' | 'bottom', marks: readonly Mark[]): string =>
  drawSheet({ model, side, show: ['marks'], marks, tally: undefined, assessment, title: 'a sheet' })

const film: AreaMark = { kind: 'film', id: 'f', side: 'top', at: { x: 20, y: 20 }, radiusMm: 2.5 }
/** The margin around the board is 8 mm, and y runs down. */
const at = (x: number, y: number): string => `${8 + x} ${8 + 70 - y}`

test('a brush stroke is drawn around its way, as wide as the brush', () => {
  const svg = drawn('top', [
    {
      ...film,
      path: [
        { x: 20, y: 20 },
        { x: 50, y: 30 },
      ],
    },
  ])
  const [edge = ''] = /d="M[^"]+Z"/.exec(svg.split('fill-opacity="0.12"')[0]?.split('<path').at(-1) ?? '') ?? []
  const figures = [...edge.matchAll(/([-\d.]+) ([-\d.]+)/g)].map(([, x, y]) => ({
    x: Number(x) - 8,
    y: 78 - Number(y),
  }))
  expect(figures.length).toBeGreaterThan(20)
  for (const point of figures) expect(distanceToSegment(point, { x: 20, y: 20 }, { x: 50, y: 30 })).toBeCloseTo(2.5, 0)
  expect(svg).toContain('film seen')
  expect(svg).not.toMatch(/<circle[^>]*r="2.5"/)
})

test('a lasso is drawn closed, a circle as a circle, and neither on the other side', () => {
  const outline = [
    { x: 20, y: 20 },
    { x: 40, y: 20 },
    { x: 30, y: 40 },
  ]
  expect(drawn('top', [{ ...film, outline }])).toContain(`d="M${at(20, 20)}L${at(40, 20)}L${at(30, 40)}Z"`)
  expect(drawn('top', [film])).toMatch(/<circle[^>]*r="2.5"/)
  expect(drawn('bottom', [film, { ...film, outline }])).not.toContain('film seen')
})

test('a note stays text, whatever stands in it', () => {
  const svg = drawn('top', [{ kind: 'note', id: 'n', side: 'top', at: { x: 5, y: 5 }, text: '<b onload="x">&' }])
  expect(svg).toContain('&lt;b onload=&quot;x&quot;&gt;&amp;')
  expect(svg).not.toContain('<b ')
})
