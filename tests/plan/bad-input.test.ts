import { describe, expect, test } from 'vitest'
import { sayFault } from '../../src/base/index.ts'
import { type PlanInput, planRework } from '../../src/plan/index.ts'
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
    ['an empty list', { ...sound, lift: [] }, '$.lift: found an empty list'],
    ['an unknown ref', { ...sound, lift: ['U99'] }, '$.lift[0]: found "U99", expected a ref of the board plain'],
    ['a part without exposure', { ...sound, lift: ['U2', 'U4'] }, '$.exposures.U4: found nothing'],
    [
      'a negative price',
      { ...sound, settings: { money: { hourlyRate: -1 } } },
      '$.settings.money.hourlyRate: found -1',
    ],
    ['a chance beyond 1', { ...sound, successProbability: 1.5 }, '$.successProbability: found 1.5'],
    ['half a melt', { ...sound, heatCounts: new Map([['U2', 0.5]]) }, '$.heatCounts.U2: found 0.5'],
    [
      'a moist part of unknown level',
      { ...sound, floorLife: new Map([['U2', 'over by more or unknown']]) },
      '$.floorLife.U2: found a part over by more or unknown, of moisture level unknown',
    ],
  ])('%s', (_, input, start) => {
    expect(messages(input).map((message) => message.slice(0, start.length))).toEqual([start])
  })

  test('a part off the board', () => {
    const off = sound.model.parts.map((part) =>
      part.ref === 'U2' ? { ...part, placement: { ...part.placement, at: { x: 900, y: 50 } } } : part,
    )
    const model = { ...sound.model, parts: off, partByRef: new Map(off.map((part) => [part.ref, part])) }
    expect(messages({ ...sound, model })[0]).toContain('U2 at (900, 50) mm, off the board')
  })

  test('several faults are all said', () => {
    expect(messages({ ...sound, lift: ['U98', 'U99'], successProbability: -1 })).toHaveLength(3)
  })
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
