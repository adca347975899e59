/** Every way in which a plan of remedies can end: by hand, and held to what the tree itself says it costs, takes and cures. */
import { fc, test as prop } from '@fast-check/vitest'
import { expect, test } from 'vitest'
import { bestTree, endingsOf, treeFrom, type TreeProblem, type WorkEnding } from '../../src/suspects/index.ts'
import { smallTree } from './small-tree.ts'

const { work: free, part, either: plain } = smallTree(2)
/** Something lies under U1 (0.6), or U2 is bad itself (0.4); making ready costs, and giving up hot costs less than it does cold. */
const either: TreeProblem = { ...plain, prepare: free(5), giveUpHot: 900 }

const rounded = (endings: readonly WorkEnding[]) =>
  endings.map(({ probability, money, minutes, works, newParts }) => ({
    probability: Math.round(probability * 1e9) / 1e9,
    money,
    minutes,
    works: Math.round(works * 1e9) / 1e9,
    newParts,
  }))

test('two endings, by hand: 5 + 100 + 40 + 10, or 5 + 100 + 50 + 40 + 35 + 10 with a new part', () => {
  expect(rounded(endingsOf(either, bestTree(either)))).toEqual([
    { probability: 0.6, money: 155, minutes: 310, works: 1, newParts: false },
    { probability: 0.4, money: 240, minutes: 480, works: 1, newParts: true },
  ])
})

test('a lift that may end the repair is an ending of its own: 1 in 10 stops after 5 + 100', () => {
  const [core, memory] = either.parts
  if (core === undefined || memory === undefined) throw new Error('two parts')
  const risky = { ...either, parts: [{ ...core, lossChance: 0.1, lossEnds: true }, memory] }
  const tree = treeFrom(risky, [{ kind: 'lift', part: 0 }])
  if (tree === undefined) throw new Error('U1 can be lifted')
  expect(rounded(endingsOf(risky, tree))).toEqual([
    { probability: 0.54, money: 155, minutes: 310, works: 1, newParts: false },
    { probability: 0.36, money: 240, minutes: 480, works: 1, newParts: true },
    { probability: 0.1, money: 105, minutes: 210, works: 0, newParts: false },
  ])
})

test('a card that goes back as it is ends at once, at no cost', () => {
  const cheap = { ...either, giveUpCold: 90, giveUpHot: 90 }
  expect(endingsOf(cheap, bestTree(cheap))).toEqual([
    { probability: 1, money: 0, minutes: 0, works: 0, newParts: false, afterwards: 90 },
  ])
})

const chance = fc.double({ min: 0, max: 1, noNaN: true })
const anyProblem: fc.Arbitrary<TreeProblem> = fc
  .record({
    shares: fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 4, maxLength: 4 }),
    sets: fc.uniqueArray(fc.integer({ min: 1, max: 63 }), { minLength: 4, maxLength: 4 }),
    prices: fc.array(fc.integer({ min: 0, max: 200 }), { minLength: 9, maxLength: 9 }),
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
    risk: fc.double({ min: 0, max: 0.2, noNaN: true }),
    depth: fc.integer({ min: 0, max: 3 }),
    byHand: fc.boolean(),
    liftsBeyond: fc.boolean(),
    begun: fc.constantFrom({ off: 0, hot: false }, { off: 0, hot: true }, { off: 1, hot: true }),
  })
  .map(({ shares, sets, prices, risk, ...rest }) => {
    const whole = shares.reduce((sum, share) => sum + share, 0)
    const at = (index: number): number => prices[index] ?? 0
    const risks = { refitDefect: risk, lossChance: risk }
    return {
      ...either,
      ...rest,
      faults: [
        { kind: 'unknown', at: '', touches: 3 },
        { kind: 'beneath', at: 'U1', touches: 3 },
        { kind: 'die', at: 'U2', touches: 2 },
        { kind: 'joints', at: 'U1', touches: 1 },
        { kind: 'beside', at: 'rail VMEM', touches: 3 },
        { kind: 'open', at: '', touches: 3 },
      ],
      open: 32,
      sets: Int32Array.from(sets),
      weights: Float64Array.from(shares, (share) => share / whole),
      parts: [
        part('U1', at(0), at(1), at(2), { ...risks, beneath: 2, joints: 8, lossEnds: true }),
        part('U2', at(3), at(4), at(5), { ...risks, die: 4, lossMoney: at(6) }),
      ],
      places: [{ name: 'rail VMEM', fault: 16 }],
      wash: free(at(7)),
      prepare: free(at(8)),
    } satisfies TreeProblem
  })

const meanOf = (endings: readonly WorkEnding[], value: (ending: WorkEnding) => number): number =>
  endings.reduce((sum, each) => sum + each.probability * value(each), 0)

// The tree's own figures are held to every policy in remedy-tree.test.ts: what the leaves add up to must be the same.
prop.prop([anyProblem], { numRuns: 150 })(
  'all endings together are the tree: chances, cost, minutes, success',
  (problem) => {
    const tree = bestTree(problem)
    const endings = endingsOf(problem, tree)
    expect(meanOf(endings, () => 1)).toBeCloseTo(1, 4)
    expect(meanOf(endings, ({ money, afterwards }) => money + afterwards)).toBeCloseTo(tree.cost, 1)
    expect(meanOf(endings, ({ minutes }) => minutes)).toBeCloseTo(tree.minutes, 1)
    expect(meanOf(endings, ({ works }) => works)).toBeCloseTo(tree.works, 4)
  },
)
