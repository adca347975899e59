/** What a step says at the bench adds up to what it costs, and what is not done is said with its reason. */
import { describe, expect, test } from 'vitest'
import { packageOutlines } from '../../src/board/index.ts'
import type { PlanInput } from '../../src/plan/index.ts'
import { substanceOf } from '../support/board-fixture.ts'
import { exposuresOf, plainBoard, planned } from './plan-fixture.ts'

const input: PlanInput = {
  model: plainBoard([{ ref: 'U2', x: 30, heatCount: 1, package: '180-ball' }]),
  lift: ['U2'],
  exposures: exposuresOf({ U2: {} }),
  successProbability: 0.8,
}

const minutesIn = (lines: readonly string[]): number[] =>
  lines.flatMap((line) => [...line.matchAll(/\((\d+) min\)/g)].map(([, minutes]) => Number(minutes)))

describe('the step that puts a part on new balls', () => {
  const step = planned(input).best.steps.find(({ action }) => action === 'reball')
  const lines = step?.why.split('\n') ?? []
  // Price book: 12 min and 2 min each hundred balls; 180 balls: 12 + 3.6 = 15.6, of which 4 wicking, 2 looking, 3.6
  // setting, 3 melting, 3 washing: running totals 4, 6, 9.6, 12.6, 15.6 make 4, 2, 4, 3, 3.
  test('says each piece of work with minutes that add up to its own', () => {
    expect(packageOutlines.get('180-ball')?.joints).toBe('balls')
    expect(minutesIn(lines)).toEqual([4, 2, 4, 3, 3])
    expect(Math.round(step?.minutes ?? 0)).toBe(16)
  })
  test('names what is done in the order of the bench, with balls and temperature', () => {
    expect(lines.slice(1).map((line) => line.replace(/^\d\. /, '').split(' ')[0])).toEqual([
      'Wick',
      'Look',
      'A',
      'Melt',
      'Wash',
    ])
    expect(lines[3]).toContain('180 balls of')
    // SAC305 is liquid at 220 °C; 230 to 250 °C as at a refit
    expect(lines[4]).toContain('230 to 250 °C')
  })
  test('has its cautions: solvent beside heat, and static', () => {
    expect(step?.cautions.join(' ')).toMatch(/catches fire/)
    expect(step?.cautions.join(' ')).toMatch(/Static kills/)
  })
})

describe('a bake that is not planned', () => {
  // J-STD-033, bake tables of the user side: level 3, body to 1.4 mm, over by more than 72 h: 33 h at 90 °C.
  const hours = /33 h at 90 °C before more than 200 °C/
  const unbaked = (more: Partial<PlanInput>): string => planned({ ...input, ...more }).best.unbaked
  test('is said with the part’s level and what it would take', () => {
    expect(unbaked({})).toMatch(/U2 \(level 3\) counts as within floor life/)
    expect(unbaked({})).toMatch(hours)
  })
  test('of a wetted card it is said that drying is no bake', () => {
    const coolant = [substanceOf('coolant-pg')]
    expect(unbaked({ substances: coolant, cleanFirst: coolant })).toMatch(/not the damp inside the bodies/)
    expect(unbaked({ substances: coolant, cleanFirst: coolant })).toMatch(hours)
  })
  test('is no matter for a part that comes off for good, nor where one is planned', () => {
    expect(unbaked({ replace: new Set(['U2']) })).toBe('')
    expect(unbaked({ floorLife: new Map([['U2', 'over by more or unknown']]) })).toBe('')
  })
})
