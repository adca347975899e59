import { describe, expect, test } from 'vitest'
import { sayFault } from '../../src/base/index.ts'
import { type PlanInput, planRework } from '../../src/plan/index.ts'
import { stackedBoard } from '../support/stacked-board.ts'
import { exposureOn, exposuresOf, plainBoard, planned } from './plan-fixture.ts'

const parts = [
  { ref: 'U2', x: 30 },
  { ref: 'U3', x: 60, moistureLevel: '3' as const },
  { ref: 'U4', x: 90 },
]
const sound: PlanInput = {
  model: plainBoard(parts),
  lift: ['U2', 'U3'],
  exposures: exposuresOf({ U2: { U3: 100 }, U3: { U2: 100 } }),
  successProbability: 0.5,
}

const messages = (input: PlanInput): string[] => {
  const answer = planRework(input)
  return answer.ok ? [] : answer.faults.map(sayFault)
}

describe('a question that cannot be planned is refused with its own message', () => {
  test.each<[string, PlanInput, string]>([
    [
      'an empty list',
      { ...sound, lift: [] },
      '$.lift: found an empty list, expected the ref of at least one part. Put the parts that are to come off on the lift list.',
    ],
    [
      'an unknown ref',
      { ...sound, lift: ['U2', 'U99'] },
      '$.lift[1]: found "U99", expected a ref of the board plain. Look for a slip in the ref, or take it off the list.',
    ],
    [
      'a part without exposure',
      { ...sound, lift: ['U2', 'U4'] },
      "$.exposures.U4: found nothing, expected what a pass on U4 does to the other parts. Solve the heat of U4 first; where no setting lifts it with this equipment, it can't be planned.",
    ],
    [
      'a stack on a core',
      { model: stackedBoard(), lift: ['U11'], exposures: exposuresOf({ U11: {} }), successProbability: 1 },
      '$.lift[0]: found U11, which stands on U1, expected a part with joints on the board. Lift U1 instead; U11 comes off with it.',
    ],
    [
      'a chance beyond 1',
      { ...sound, successProbability: 1.5 },
      '$.successProbability: found 1.5, expected a number from 0 to 1.',
    ],
    [
      'a chance below 0',
      { ...sound, successProbability: -0.01 },
      '$.successProbability: found -0.01, expected a number from 0 to 1.',
    ],
    [
      'a chance that is no number',
      { ...sound, successProbability: Number.NaN },
      '$.successProbability: found NaN, expected a number from 0 to 1.',
    ],
    [
      'half a melt',
      { ...sound, heatCounts: new Map([['U2', 0.5]]) },
      '$.heatCounts.U2: found 0.5, expected a whole number from 0 up.',
    ],
    [
      'less than no melt',
      { ...sound, heatCounts: new Map([['U2', -1]]) },
      '$.heatCounts.U2: found -1, expected a whole number from 0 up.',
    ],
    [
      'a moist part of unknown level',
      { ...sound, floorLife: new Map([['U2', 'over by more or unknown']]) },
      '$.floorLife.U2: found a part over by more or unknown, of moisture level unknown, with no bake time known, expected a level and a height for which the bake table has a time. Give its moisture level in the board file, or bake by its maker’s sheet and mark it as within.',
    ],
    [
      'heat that never ends',
      { ...sound, exposures: new Map(sound.lift.map((ref) => [ref, exposureOn(ref, {}, Number.POSITIVE_INFINITY)])) },
      '$.lift: found parts that no order can lift and refit, expected parts with an exposure each.',
    ],
  ])('%s', (_, input, message) => {
    expect(messages(input)).toEqual([message])
  })

  test('a negative price', () => {
    expect(messages({ ...sound, settings: { money: { hourlyRate: -1 } } })).toEqual([
      expect.stringMatching(/^\$\.settings\.money\.hourlyRate: found -1, expected /),
    ])
  })

  // the board reaches from 0 to 400 and from 0 to 100 mm
  const standingAt = (x: number, y: number): PlanInput => {
    const moved = sound.model.parts.map((part) =>
      part.ref === 'U2' ? { ...part, placement: { ...part.placement, at: { x, y } } } : part,
    )
    return {
      ...sound,
      model: { ...sound.model, parts: moved, partByRef: new Map(moved.map((part) => [part.ref, part])) },
    }
  }
  test.each([
    [-1, 50],
    [401, 50],
    [30, -1],
    [30, 101],
  ])('a part off the board, at %d and %d mm', (x, y) => {
    expect(messages(standingAt(x, y))).toEqual([
      `$.lift[0]: found U2 at (${x}, ${y}) mm, off the board, expected a part that stands on the board. Correct its place in the board file.`,
    ])
  })
  test.each([
    [0, 0],
    [400, 100],
  ])('and not one in its corner, at %d and %d mm', (x, y) => {
    expect(messages(standingAt(x, y))).toEqual([])
  })

  test('several faults are all said', () => {
    expect(messages({ ...sound, lift: ['U98', 'U99'], successProbability: -1 })).toHaveLength(3)
  })
})

test('no melt yet, an impossible cure and a sure one are questions too', () => {
  expect(messages({ ...sound, heatCounts: new Map([['U2', 0]]), successProbability: 0 })).toEqual([])
  expect(messages({ ...sound, successProbability: 1 })).toEqual([])
})
test('a ref that stands twice on the list is lifted once', () => {
  expect(planned({ ...sound, lift: ['U2', 'U3', 'U2'] })).toEqual(planned(sound))
})

describe('thirty parts', () => {
  const many = Array.from({ length: 30 }, (_, i) => ({ ref: `U${i + 2}`, x: 10 + 12.7 * i, price: 15, heatCount: 0 }))
  const exposures = new Map(
    many.map(({ ref }, i) => {
      const near = Object.fromEntries(
        many.flatMap((other, j) => (j !== i && Math.abs(i - j) < 3 ? [[other.ref, 240 - 35 * Math.abs(i - j)]] : [])),
      )
      return [ref, exposureOn(ref, near)] as const
    }),
  )
  test('are planned with the gap said', () => {
    const answer = planned({
      model: plainBoard(many),
      lift: many.map(({ ref }) => ref),
      exposures,
      successProbability: 0.5,
    })
    const { optimality, steps } = answer.best
    expect(steps.filter(({ action }) => action === 'lift').flatMap(({ refs }) => refs)).toHaveLength(30)
    expect(optimality.proved).toBe(optimality.costIsAtMostPctAboveBest === 0)
    expect(optimality.costIsAtMostPctAboveBest).toBeLessThan(25)
  })
})

describe('moisture', () => {
  test('a level 3 part of 1 mm, over by at most 72 h, bakes 23 h at 90 °C first of all (J-STD-033, bake tables of the user side)', () => {
    const answer = planned({ ...sound, floorLife: new Map([['U3', 'over by at most 72 h']]) })
    expect(answer.best.steps[0]).toMatchObject({ action: 'bake', refs: ['U3'], hours: 23 })
  })

  test('over by more it bakes 9 h at 125 °C where the shop’s oven is set so (same table)', () => {
    const answer = planned({
      ...sound,
      settings: { heat: { ovenC: 125 } },
      floorLife: new Map([['U3', 'over by more or unknown']]),
    })
    expect(answer.best.steps[0]).toMatchObject({ action: 'bake', hours: 9 })
  })

  test('a part within its floor life is not baked', () => {
    expect(planned(sound).best.steps.some(({ action }) => action === 'bake')).toBe(false)
  })
})
