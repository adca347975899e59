/** What must hold of every plan: for any list, any heat. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Exposure } from '../../src/heat/index.ts'
import type { PlanInput } from '../../src/plan/index.ts'
import { exposureOn, passesOf, plainBoard, planned, totalOf } from './plan-fixture.ts'

const REFS = ['U2', 'U3', 'U4', 'U5']

/** A question of two to four parts with a fifth that is not on the list; joint temperatures from cool to molten. */
const question = fc
  .record({
    count: fc.integer({ min: 2, max: 4 }),
    jointC: fc.array(fc.integer({ min: 80, max: 250 }), { minLength: 25, maxLength: 25 }),
    heatCounts: fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 5, maxLength: 5 }),
    gapsMm: fc.array(fc.integer({ min: 1, max: 8 }), { minLength: 5, maxLength: 5 }),
    bottom: fc.array(fc.boolean(), { minLength: 5, maxLength: 5 }),
  })
  .map(({ count, jointC, heatCounts, gapsMm, bottom }): PlanInput => {
    const refs = [...REFS, 'U6']
    const sides = bottom.map((is): 'bottom' | 'top' => (is ? 'bottom' : 'top'))
    let x = 10
    const parts = refs.map((ref, i) => {
      x += 10 + (gapsMm[i] ?? 0)
      return { ref, x, side: sides[i] ?? 'top', heatCount: heatCounts[i] ?? 0, price: 20 }
    })
    const exposures = new Map<string, Exposure>(
      refs.slice(0, count).map((ref, i) => {
        const others = refs.flatMap((other, j) => (i === j ? [] : [[other, jointC[i * 5 + j] ?? 100] as const]))
        return [ref, exposureOn(ref, Object.fromEntries(others), 5, sides[i] ?? 'top')]
      }),
    )
    return { model: plainBoard(parts), lift: refs.slice(0, count), exposures, successProbability: 0.7 }
  })

const seeded = { seed: 7, numRuns: 60 }

describe('every plan', () => {
  test('does not depend on the order of the list', () => {
    fc.assert(
      fc.property(question, (input) => {
        expect(planned({ ...input, lift: input.lift.toReversed() })).toEqual(planned(input))
      }),
      seeded,
    )
  })

  test('never costs more when a neighbour is shielded and so takes less heat', () => {
    fc.assert(
      fc.property(question, fc.nat(3), fc.nat(4), fc.integer({ min: 1, max: 120 }), (input, pick, other, coolerK) => {
        const target = input.lift[pick % input.lift.length] ?? ''
        const shielded = new Map(input.exposures)
        const exposure = input.exposures.get(target)
        const victim = [...REFS, 'U6'][other] ?? ''
        const jointC = Object.fromEntries(
          (exposure?.neighbours ?? []).map(({ ref, jointPeakC }) => [ref, jointPeakC - (ref === victim ? coolerK : 0)]),
        )
        shielded.set(target, exposureOn(target, jointC, 5, exposure?.setting.side ?? 'top'))
        expect(totalOf(planned({ ...input, exposures: shielded }))).toBeLessThanOrEqual(totalOf(planned(input)) + 1e-9)
      }),
      seeded,
    )
  })

  test('never costs more when a part is taken off the list, while harm to it in passing is less than its own passes cost', () => {
    fc.assert(
      fc.property(question, fc.nat(3), (input, pick) => {
        const gone = input.lift[pick % input.lift.length] ?? ''
        const fewer = { ...input, lift: input.lift.filter((ref) => ref !== gone) }
        expect(totalOf(planned(fewer))).toBeLessThanOrEqual(totalOf(planned(input)) + 1e-9)
      }),
      seeded,
    )
  })

  test('lifts every part once, refits it once, later, and cleans in between', () => {
    fc.assert(
      fc.property(question, (input) => {
        const { steps } = planned(input).best
        for (const ref of input.lift) {
          const own = steps
            .filter(({ action, refs }) => refs.includes(ref) && action !== 'prepare')
            .map(({ action }) => action)
          const made = own.includes('replace') ? 'replace' : 'reball'
          expect(own).toEqual(['lift', 'clean', made, 'refit', 'inspect'])
        }
      }),
      seeded,
    )
  })

  test('counts the melts of the history on', () => {
    fc.assert(
      fc.property(question, (input) => {
        const { heatCounts, steps } = planned(input).best
        const replaced = new Set(steps.flatMap(({ action, refs }) => (action === 'replace' ? refs : [])))
        for (const ref of input.lift) {
          const before = input.model.partByRef.get(ref)?.description.heatCount ?? 0
          const found = heatCounts.find((each) => each.ref === ref)
          expect(found?.before).toBe(before)
          expect(found?.after ?? 0).toBeGreaterThanOrEqual(replaced.has(ref) ? 1 : before + 3)
          expect(before < 3 || replaced.has(ref)).toBe(true)
        }
      }),
      seeded,
    )
  })
})

describe('a pair under one nozzle', () => {
  const model = plainBoard([
    { ref: 'U2', x: 50, heatCount: 0 },
    { ref: 'U3', x: 62, heatCount: 0 },
  ])
  const exposures = new Map([
    ['U2', exposureOn('U2', { U3: 230 })],
    ['U3', exposureOn('U3', { U2: 230 })],
  ])
  const input: PlanInput = { model, lift: ['U2', 'U3'], exposures, successProbability: 1 }

  test('is taken when it saves a heating, and every part by itself is the other way', () => {
    const answer = planned({ ...input, groups: [{ refs: ['U3', 'U2'], exposure: exposureOn('U2', {}, 6) }] })
    expect(passesOf(answer)).toEqual(['lift U2 U3', 'refit U2 U3'])
    expect(answer.alternative?.differsIn).toBe('every part by itself instead of U2 and U3 under one nozzle')
    expect(answer.alternative?.costsMore).toBeGreaterThan(0)
  })

  test('is left when it takes much longer', () => {
    const answer = planned({ ...input, groups: [{ refs: ['U2', 'U3'], exposure: exposureOn('U2', {}, 60) }] })
    expect(passesOf(answer)).toHaveLength(4)
  })

  test('that no heat was solved for is named', () => {
    const answer = planned({ ...input, nozzles: [{ name: 'wide', shape: 'square', sizeMm: 30 }] })
    expect(answer.notes.some((note) => note.includes('One nozzle would cover U2 with U3'))).toBe(true)
  })
})
