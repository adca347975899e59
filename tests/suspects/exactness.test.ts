import { fc, test } from '@fast-check/vitest'
import { describe, expect } from 'vitest'
import type { Signature } from '../../src/report/index.ts'
import {
  comebackCost,
  createJudge,
  defaultAssumptions,
  type JudgeInput,
  type LaneState,
  liftCosts,
  pricesOf,
  liftableParts,
  type SuspectsResult,
} from '../../src/suspects/index.ts'
import { type Brute, bruteForce, toleranceFor } from './brute-force.ts'
import { type Disc, rail, roundHypotheses, smallBoard, spillMark } from './small-board.ts'

const point = fc.record({ x: fc.integer({ min: 20, max: 80 }), y: fc.integer({ min: 20, max: 80 }) })
const disc: fc.Arbitrary<Disc> = fc.record({
  at: point,
  radiusMm: fc.constantFrom(6, 12, 20),
  weight: fc.integer({ min: 1, max: 9 }),
})
const laneState: fc.Arbitrary<LaneState> = fc.constantFrom('fail', 'fail', 'pass', 'untested')
const kindOfSignature = fc.constantFrom<Signature['kind']>(
  'clean',
  'line',
  'byte',
  'channel',
  'package',
  'cells',
  'sparse',
)

const signature = (kind: Signature['kind']): Signature => ({
  kind,
  where: '',
  numbers: [],
  stuck: undefined,
  sentence: `Looks like ${kind}.`,
})

const PLACES = [
  { ref: 'U2', at: { x: 76, y: 54 } },
  { ref: 'U3', at: { x: 74, y: 70 } },
]

/** A board of at most a dozen point causes, with findings and spills. */
const card = fc
  .record({
    lanesPerPart: fc.constantFrom(1, 2),
    core: fc.boolean(),
    corridors: fc.boolean(),
    rails: fc.boolean(),
    commands: fc.boolean(),
    states: fc.array(laneState, { minLength: 4, maxLength: 4 }),
    signatures: fc.array(kindOfSignature, { minLength: 2, maxLength: 2 }),
    railState: fc.constantFrom('low', 'open', 'fine', 'short', undefined),
    stageState: fc.constantFrom('low', 'open', 'fine', undefined),
    spills: fc.array(fc.array(disc, { minLength: 1, maxLength: 3 }), { maxLength: 2 }),
    unreported: fc.option(fc.array(disc, { minLength: 1, maxLength: 3 }), { nil: undefined }),
    areas: fc.array(fc.record({ at: point, kind: fc.constantFrom('residue' as const, 'clean' as const) }), {
      maxLength: 2,
    }),
    reported: fc.constantFrom(1, 0.7),
  })
  .map((drawn) => {
    const few = drawn.lanesPerPart === 1
    const withRails = drawn.rails && few && !drawn.corridors
    const names = ['A0', 'A1'].slice(0, drawn.lanesPerPart)
    const model = smallBoard({
      memories: PLACES.map((place) => ({ ...place, lanes: names })),
      core: drawn.core,
      corridors: drawn.corridors && few,
      commandRegions: few || drawn.commands,
      rails: withRails ? [rail('VMEM', ['U2', 'U3'], ['S1'], [{ name: 'A', feeds: ['U3'] }])] : [],
      stages: withRails ? ['S1'] : [],
    })
    const areas = drawn.areas.map(({ at, kind }, i) => ({ kind, id: `a${i}`, side: 'top' as const, at, radiusMm: 2 }))
    const areaPoints = areas.map(({ at }) => at)
    const spills = drawn.spills.slice(0, drawn.unreported === undefined ? 2 : 1).map((discs, i) => ({
      mark: spillMark(`s${i}`, { x: 70 - 40 * i, y: 60 }),
      hypotheses: roundHypotheses(model, discs, areaPoints),
    }))
    const input: JudgeInput = {
      findings: {
        lanes: new Map(model.lanes.map((lane, i) => [lane.id, drawn.states[i] ?? 'untested'])),
        signatures: new Map(PLACES.map(({ ref }, i) => [ref, signature(drawn.signatures[i] ?? 'clean')])),
        spills: spills.map(({ mark }) => mark),
        areas,
        slips: [],
        rails: new Map(
          withRails && drawn.railState !== undefined
            ? [['VMEM', drawn.railState === 'short' ? 'low' : drawn.railState]]
            : [],
        ),
        shorted: new Set(withRails && drawn.railState === 'short' ? ['VMEM'] : []),
        stages: new Map(withRails && drawn.stageState !== undefined ? [['S1', drawn.stageState]] : []),
      },
      assumptions: { patch: { radiiMm: [9], stepMm: 20 }, prior: { spill: drawn.reported } },
      spills,
      unreported: drawn.unreported === undefined ? [] : [roundHypotheses(model, drawn.unreported, areaPoints)],
    }
    return { model, input }
  })

const keyOf = (story: SuspectsResult['stories'][number]): string =>
  story.causes
    .map(({ kind, at }) => `${kind} ${at}`)
    .toSorted()
    .join(' + ')

const RUNS = { numRuns: 15, seed: 20_260_401 }

describe('exact inference against every set of causes times every place', () => {
  test.prop([card], RUNS)('parts need lifting with the same probability, to 1e-9', ({ model, input }) => {
    const result = createJudge(model).judge(input)
    const brute = bruteForce(model, input)
    for (const { ref, probability } of result.parts) {
      expect(Math.abs(probability - (brute.lift.get(ref) ?? 0))).toBeLessThan(toleranceFor(model))
    }
    expect(result.leftOut).toEqual([])
  })

  test.prop([card], RUNS)(
    'stories have the same probability, and none of the likelier ones is missing',
    ({ model, input }) => {
      const result = createJudge(model).judge(input)
      const { stories } = bruteForce(model, input)
      for (const story of result.stories) {
        expect(Math.abs(story.probability - (stories.get(keyOf(story)) ?? 0))).toBeLessThan(toleranceFor(model))
      }
      const listed = new Set(result.stories.map(keyOf))
      const least = result.stories.length < 12 ? 0.002 : (result.stories.at(-1)?.probability ?? 1)
      for (const [key, probability] of stories) {
        if (probability > least + toleranceFor(model)) expect(listed).toContain(key)
      }
      const sum = result.stories.reduce((total, { probability }) => total + probability, 0)
      expect(Math.abs(sum + result.remainder - 1)).toBeLessThan(1e-9)
    },
  )

  test.prop([card], RUNS)('no other list of parts costs less', ({ model, input }) => {
    const result = createJudge(model).judge(input)
    const brute = bruteForce(model, input)
    const parts = liftableParts(model)
    let cheapest = Infinity
    for (let set = 0; set < 1 << parts.length; set++) {
      const cost = expectedCost(
        model,
        brute,
        parts.filter((_, i) => (set >> i) & 1),
      )
      cheapest = Math.min(cheapest, cost)
    }
    expect(Math.abs(expectedCost(model, brute, result.lift) - cheapest)).toBeLessThan(500 * toleranceFor(model))
    expect(Math.abs(result.expectedCost.ofTheList - cheapest)).toBeLessThan(500 * toleranceFor(model))
    expect(Math.abs(result.expectedCost.ofLiftingNone - expectedCost(model, brute, []))).toBeLessThan(
      500 * toleranceFor(model),
    )
  })
})

function expectedCost(model: Parameters<typeof liftableParts>[0], brute: Brute, lift: readonly string[]): number {
  const parts = liftableParts(model)
  const costs = liftCosts(model, parts, pricesOf(defaultAssumptions))
  const left = parts.filter((ref) => !lift.includes(ref))
  let cost = comebackCost(pricesOf(defaultAssumptions)) * (1 - brute.noneNeeds(left))
  for (const [i, ref] of parts.entries()) {
    cost += (costs[i] ?? 0) * (lift.includes(ref) ? 1 : (brute.lift.get(ref) ?? 0))
  }
  return cost
}
