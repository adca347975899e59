/** What of the shop's cards the reference ranges learn from. */
import { expect, test } from 'vitest'
import { CASE_VERSION, cardReadingsOf, caseSchema, goodReadingsOf } from '../../src/case/index.ts'
import { measured } from '../measure/measured.ts'

const card = (change: object) =>
  cardReadingsOf(
    caseSchema.parse({
      format: 'liftmap-case',
      version: CASE_VERSION,
      title: 'x',
      board: { path: 'b.json' },
      ...change,
    }),
  )

const before = measured({ VMEM: '1.5' })
const after = measured({ VMEM: '62', VPP: 'OL' }, 'ohms', 'after')
const valuesOf = (...cards: readonly object[]) => goodReadingsOf(cards.map(card)).map(({ values }) => values)

test('a card known to be good counts with its last reading of each line, one value a card', () => {
  const twice = [...measured({ VMEM: '60' }), ...measured({ VMEM: '61' })]
  expect(valuesOf({ goodCard: true, measurements: twice }, { goodCard: true, measurements: after })).toEqual([[61, 62]])
})

test('a repaired card counts with its readings after the work alone', () => {
  const measurements = [...before, ...after]
  expect(valuesOf({ measurements, handBack: { outcome: 'repaired' } })).toEqual([[62]])
  expect(valuesOf({ measurements: before, handBack: { outcome: 'repaired' } })).toEqual([])
})

test.each(['partly repaired', 'not repaired', 'not worth repairing', undefined])(
  'a card that is %s counts for nothing',
  (outcome) => expect(valuesOf({ measurements: [...before, ...after], handBack: { outcome } })).toEqual([]),
)
