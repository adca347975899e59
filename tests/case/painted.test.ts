/** What is painted on the sheet, as evidence: it draws the spill to it or keeps it off, whatever it was painted with. */
import { describe, expect, test } from 'vitest'
import { distance, type Point } from '../../src/base/index.ts'
import { type Assessment } from '../../src/case/index.ts'
import { type AreaMark, spillMarkSchema } from '../../src/spill/index.ts'
import { assessorFor } from '../support/kept-answers.ts'
import { nothingEntered } from '../support/nothing-entered.ts'
import { shippedBoard } from '../support/read-board.ts'

const assessor = assessorFor(shippedBoard('bowline-8'))

const spill = spillMarkSchema.parse({
  kind: 'spill',
  id: 'spill',
  side: 'top',
  at: { x: 147, y: 84 },
  sdMm: 10,
  substance: 'coolant-eg',
  amount: { volumeMl: 0.2 },
})

const assessed = (areas: readonly AreaMark[]): Assessment =>
  assessor.assess({ ...nothingEntered, marks: [spill, ...areas] })

const centreOf = (areas: readonly AreaMark[]): Point => {
  const { suspects, faults } = assessed(areas)
  expect(faults).toEqual([])
  if (suspects.spill === undefined) throw new Error('no spill')
  return suspects.spill.at
}

/** Posterior mass of the spill within so many mm of a point. */
function massNear(areas: readonly AreaMark[], at: Point, withinMm: number): number {
  const found = assessed(areas).suspects.spill
  if (found === undefined) return 0
  const { grid, density } = found
  let sum = 0
  for (let cell = 0; cell < density.length; cell++) {
    const column = cell % grid.columns
    const x = grid.originXMm + (column + 0.5) * grid.cellMm
    const y = grid.originYMm + ((cell - column) / grid.columns + 0.5) * grid.cellMm
    if (distance({ x, y }, at) <= withinMm) sum += density[cell] ?? 0
  }
  return sum
}

const mark = (kind: AreaMark['kind'], at: Point, more: Partial<AreaMark>): AreaMark => ({
  kind,
  id: `${kind} at ${at.x}`,
  side: 'top',
  at,
  radiusMm: 2,
  ...more,
})
const east = { x: 166, y: 84 }
const along = [east, { x: 168, y: 90 }, { x: 166, y: 97 }]
const around = [
  { x: 163, y: 80 },
  { x: 171, y: 80 },
  { x: 171, y: 98 },
  { x: 163, y: 98 },
]

describe('painted residue', () => {
  test('draws the spill towards it, by brush and by lasso as by circle', () => {
    const before = centreOf([])
    for (const shape of [{}, { path: along }, { outline: around }]) {
      const after = centreOf([mark('residue', east, shape)])
      expect(distance(after, east)).toBeLessThan(distance(before, east) - 1)
    }
  })

  test('says less the more ground it may have been on', () => {
    const tight = massNear([mark('film', east, { radiusMm: 2 })], east, 14)
    const loose = massNear([mark('film', { x: 147, y: 84 }, { radiusMm: 30 })], east, 14)
    expect(tight).toBeGreaterThan(loose + 0.05)
    expect(massNear([], east, 14)).toBeCloseTo(loose, 2)
  })
})

describe('a painted clean spot', () => {
  test('keeps the spill off, and the more the larger it is', () => {
    const near = { x: 155, y: 84 }
    const masses = [
      massNear([], near, 8),
      massNear([mark('clean', near, { radiusMm: 1 })], near, 8),
      massNear([mark('clean', near, { radiusMm: 6 })], near, 8),
    ]
    expect(masses[1]).toBeLessThan(masses[0] ?? 0)
    expect(masses[2]).toBeLessThanOrEqual((masses[1] ?? 0) + 1e-9)
  })
})
