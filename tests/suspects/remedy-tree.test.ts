/**
 * Decision trees over what may be wrong: rolled back by hand (the method: Raiffa, Decision Analysis, 1968, chapter 2), held to
 * every policy on small cards, and to draws of the same chances.
 */
import { fc, test as prop } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import { bestTree, successOf, treeFrom, type TreePart, type TreeProblem } from '../../src/suspects/index.ts'
import { seededRandom } from '../../src/base/index.ts'
import { cheapestByHistories } from './all-policies.ts'
import { smallTree, SURE } from './small-tree.ts'

const { work: free, part, either } = smallTree(1)

describe('two stories, two steps, by hand', () => {
  test('what is seen under U1 saves lifting U2: 100 + 0.6 · (40 + 10) + 0.4 · (50 + 40 + 35 + 10) = 184', () => {
    const tree = bestTree(either)
    expect(tree.action).toEqual({ kind: 'lift', part: 0 })
    expect(tree.cost).toBeCloseTo(184, 9)
    expect(tree.works).toBeCloseTo(1, 9)
    const [something, nothing] = tree.outcomes
    expect(something).toMatchObject({ seen: 'something', node: { action: { kind: 'refit', replaced: 0 } } })
    expect(nothing).toMatchObject({ seen: 'nothing', node: { action: { kind: 'lift', part: 1 } } })
  })

  test('a look that tells nothing leaves U2 first: 50 + 35 + 10 + 0.6 · (100 + 40 + 10) = 185', () => {
    const blind = { ...either, cures: { ...SURE, seesBeneath: 0.5, falseAlarm: 0.5 } }
    const tree = bestTree(blind)
    expect(tree.action).toEqual({ kind: 'lift', part: 1 })
    expect(tree.cost).toBeCloseTo(185, 9)
  })

  test('U2 first with a look that tells is a way too, and costs 185 as before', () => {
    expect(treeFrom(either, [{ kind: 'lift', part: 1 }])?.cost).toBeCloseTo(185, 9)
  })

  test('a card that is worth less than the first lift goes back as it is', () => {
    const cheap = { ...either, giveUpCold: 90, giveUpHot: 90 }
    expect(bestTree(cheap)).toMatchObject({ action: { kind: 'return' }, cost: 90, works: 0 })
  })

  test('a wash that cures half of what lies under U1 comes first; what still fails after it tells the two apart', () => {
    const washed = { ...either, wash: free(20), cures: { ...SURE, washBeneath: 0.5 } }
    const tree = bestTree(washed)
    expect(tree.action).toEqual({ kind: 'wash' })
    // passes with 0.3; both fail with 0.3: what lies under U1; U2 alone with 0.4: its die
    expect(tree.cost).toBeCloseTo(20 + 10 + 0.3 * (100 + 40 + 10) + 0.4 * (50 + 35 + 10), 9)
  })

  test('losing a core ends the repair: of 100 lifts 10 cost what the card is worth', () => {
    const [core, memory] = either.parts
    if (core === undefined || memory === undefined) throw new Error('two parts')
    const risky = { ...either, parts: [{ ...core, lossChance: 0.1, lossEnds: true }, memory] }
    const first = treeFrom(risky, [{ kind: 'lift', part: 0 }])
    expect(first?.cost).toBeCloseTo(100 + 0.9 * 84 + 0.1 * 1000, 9)
    expect(first?.works).toBeCloseTo(0.9, 9)
  })
})

const chance = fc.double({ min: 0, max: 1, noNaN: true })
const price = fc.integer({ min: 0, max: 200 })
const small: fc.Arbitrary<TreeProblem> = fc
  .record({
    weights: fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 3, maxLength: 3 }),
    sets: fc.array(fc.integer({ min: 1, max: 63 }), { minLength: 3, maxLength: 3 }),
    prices: fc.array(price, { minLength: 9, maxLength: 9 }),
    cures: fc.record({
      washBeneath: chance,
      washOpen: chance,
      reballJoints: chance,
      reballBeneath: chance,
      replaceBeneath: chance,
      replaceDie: chance,
      repairBeside: chance,
      seesBeneath: chance,
      falseAlarm: chance,
      overlooks: fc.double({ min: 0, max: 0.3, noNaN: true }),
    }),
    refitDefect: fc.double({ min: 0, max: 0.2, noNaN: true }),
    lossChance: fc.double({ min: 0, max: 0.2, noNaN: true }),
  })
  .map(({ weights, sets, prices, cures, refitDefect, lossChance }) => {
    const whole = weights.reduce((sum, weight) => sum + weight, 0)
    const at = (index: number): number => prices[index] ?? 0
    const risks = { refitDefect, lossChance }
    return {
      ...either,
      faults: [
        { kind: 'unknown', at: '', touches: 3 },
        { kind: 'beneath', at: 'U1', touches: 3 },
        { kind: 'die', at: 'U2', touches: 2 },
        { kind: 'joints', at: 'U1', touches: 1 },
        { kind: 'beside', at: 'rail VMEM', touches: 3 },
        { kind: 'open', at: '', touches: 3 },
      ],
      open: 32,
      sets: Int32Array.from(new Set(sets)),
      weights: Float64Array.from([...new Set(sets)], (set) =>
        sets.reduce((sum, each, index) => sum + (each === set ? (weights[index] ?? 0) / whole : 0), 0),
      ),
      parts: [
        part('U1', at(0), at(1), at(2), { ...risks, beneath: 2, joints: 8, lossEnds: true }),
        part('U2', at(3), at(4), at(5), { ...risks, die: 4, lossMoney: at(6) }),
      ],
      places: [{ name: 'rail VMEM', fault: 16 }],
      wash: free(at(7)),
      prepare: free(at(8)),
      cures,
      giveUpCold: 400,
      giveUpHot: 450,
      depth: 3,
      liftsBeyond: false,
    } satisfies TreeProblem
  })

prop.prop([small], { numRuns: 60 })('costs what the cheapest of all policies costs', (problem) => {
  expect(bestTree(problem).cost).toBeCloseTo(cheapestByHistories(problem), 5)
})

prop.prop([small], { numRuns: 60 })('a look that costs nothing never makes it dearer', (problem) => {
  const blind = { ...problem, cures: { ...problem.cures, seesBeneath: 0.5, falseAlarm: 0.5 } }
  expect(bestTree(problem).cost).toBeLessThanOrEqual(bestTree(blind).cost + 1e-6)
})

prop.prop([small, fc.boolean(), fc.subarray(['U1', 'U2']), fc.boolean()], { numRuns: 12 })(
  'success agrees with 60,000 draws within one in a hundred',
  (problem, washed, refs, isNew) => {
    const work = { washed, reballed: isNew ? [] : refs, replaced: isNew ? refs : [] }
    const random = seededRandom(7)
    const is = (p: number): boolean => random.next() < p
    const { cures } = problem
    let works = 0
    for (let draw = 0; draw < 60_000; draw++) {
      let set = drawn(problem, random.next())
      const cure = (bit: number, p: number): void => {
        if ((set & bit) !== 0 && is(p)) set &= ~bit
      }
      if (washed) cure(2, cures.washBeneath)
      // washed first, and once more with the flux after the refits
      if (washed) cure(32, cures.washOpen)
      if (refs.length > 0) cure(32, cures.washOpen)
      let lost = false
      for (const { ref, die, joints, beneath, lossChance, lossEnds, refitDefect } of problem.parts) {
        if (!refs.includes(ref)) continue
        lost ||= lossEnds && is(lossChance)
        if (isNew && die > 0) cure(die, cures.replaceDie)
        if (joints > 0) cure(joints, cures.reballJoints)
        if (beneath > 0) cure(beneath, isNew ? cures.replaceBeneath : cures.reballBeneath)
        if (joints > 0 && is(refitDefect)) set |= joints
      }
      if (!lost && set === 0) works++
    }
    expect(Math.abs(successOf(problem, work) - works / 60_000)).toBeLessThan(0.01)
  },
)

function drawn({ sets, weights }: TreeProblem, at: number): number {
  let left = at
  for (const [index, weight] of weights.entries()) {
    left -= weight
    if (left <= 0) return sets[index] ?? 0
  }
  return sets.at(-1) ?? 0
}

describe('what lies in the open', () => {
  /** On tracks of U1 and U2, for certain; a refit washes off what lies at its own ends, a wash all of it. */
  const onTracks: TreeProblem = {
    ...either,
    faults: [
      { kind: 'unknown', at: '', touches: 3 },
      { kind: 'open', at: '', touches: 3 },
    ],
    sets: Int32Array.from([2]),
    weights: Float64Array.from([1]),
    open: 2,
    cures: { ...SURE, washOpen: 1 },
  }
  const passesAfterRefit = (parts: readonly TreePart[]): number => {
    const problem = { ...onTracks, parts: [...parts], begun: { off: (1 << parts.length) - 1, hot: true } }
    const { outcomes = [] } = treeFrom(problem, [{ kind: 'refit', replaced: 0 }]) ?? {}
    return outcomes.find(({ seen }) => seen === 'passes')?.probability ?? 0
  }
  const u1 = part('U1', 100, 40, 240, { touches: 1 })
  const u2 = part('U2', 50, 20, 35, { touches: 2 })
  const core = part('U9', 100, 40, 240, { touches: 3 })

  test('is washed off with a refit as far as its tracks end at the part', () => {
    expect(passesAfterRefit([u1])).toBeCloseTo(0.5)
    expect(passesAfterRefit([u1, u2])).toBeCloseTo(1)
    expect(passesAfterRefit([core])).toBeCloseTo(1)
  })
})

test('metal is taken up before the first heat, and its minutes count with the first lift', () => {
  const metal: TreeProblem = { ...either, byHand: true, wash: free(30) }
  const begunHot = { begun: { off: 0, hot: true } }
  const costOf = (problem: TreeProblem): number => treeFrom(problem, [{ kind: 'lift', part: 0 }])?.cost ?? Number.NaN
  expect(costOf(metal)).toBeCloseTo(costOf({ ...metal, byHand: false, wash: undefined }) + 30)
  expect(costOf({ ...metal, ...begunHot })).toBeCloseTo(costOf({ ...metal, ...begunHot, wash: undefined }))
})
