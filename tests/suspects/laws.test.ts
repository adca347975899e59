import { fc, test } from '@fast-check/vitest'
import { describe, expect, it } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import {
  assumptionsSchema,
  createJudge,
  defaultAssumptions,
  type LaneState,
  shippedAssumptions,
  type SuspectsResult,
  withAssumptions,
} from '../../src/suspects/index.ts'
import {
  CORE_AT,
  discsAround,
  findingsOf,
  rail,
  ringOfTwelve,
  roundHypotheses,
  smallBoard,
  spillMark,
} from './small-board.ts'

const NAMES = ['A0', 'A1']
const PLACES = [
  { ref: 'U2', at: { x: 76, y: 54 } },
  { ref: 'U3', at: { x: 74, y: 76 } },
  { ref: 'U4', at: { x: 24, y: 46 } },
]

const board = (refs: readonly string[], order: readonly number[]): BoardModel =>
  smallBoard({
    memories: order.flatMap((i) => {
      const place = PLACES[i]
      return place === undefined ? [] : [{ ...place, ref: refs[i] ?? '', lanes: NAMES }]
    }),
    core: true,
    corridors: true,
    commandRegions: true,
    rails: [rail('VMEM', refs, ['S1'], [])],
    stages: ['S1'],
  })

const states = fc.array(fc.constantFrom<LaneState>('fail', 'pass', 'untested'), { minLength: 6, maxLength: 6 })

const probabilityOf = (result: SuspectsResult, ref: string): number =>
  result.parts.find((part) => part.ref === ref)?.probability ?? Number.NaN

describe('laws of the reasoning', () => {
  const refs = ['U2', 'U3', 'U4']
  const model = board(refs, [0, 1, 2])
  const lanesWith = (drawn: readonly LaneState[]): Map<string, LaneState> =>
    new Map(model.lanes.map(({ id }, i) => [id, drawn[i] ?? 'untested']))

  const judge = createJudge(model)
  test.prop([states], { numRuns: 60, seed: 11 })(
    'probabilities lie in [0, 1]; stories and remainder sum to one',
    (drawn) => {
      const at = { x: 64, y: 58 }
      const hypotheses = roundHypotheses(model, discsAround(at, 4, [8, 16]), [])
      const spill = { mark: spillMark('s', at), hypotheses }
      const result = judge.judge({ findings: findingsOf(lanesWith(drawn)), spills: [spill] })
      for (const { probability } of [...result.parts, ...result.stories]) {
        expect(probability).toBeGreaterThanOrEqual(0)
        expect(probability).toBeLessThanOrEqual(1 + 1e-12)
      }
      const sum = result.stories.reduce((total, { probability }) => total + probability, result.remainder)
      expect(Math.abs(sum - 1)).toBeLessThan(1e-9)
      expect(result.spill?.density.reduce((total, value) => total + value, 0)).toBeCloseTo(1, 4)
    },
  )

  test.prop([states], { numRuns: 40, seed: 12 })(
    'the order of the parts and what they are called do not matter',
    (drawn) => {
      const renamed = ['U9', 'U7', 'U8']
      const other = board(renamed, [2, 0, 1])
      const there = new Map(
        model.lanes.map(
          (lane, i) => [`${renamed[refs.indexOf(lane.part)]}.${lane.name}`, drawn[i] ?? 'untested'] as const,
        ),
      )
      const first = createJudge(model).judge({ findings: findingsOf(lanesWith(drawn)), spills: [] })
      const second = createJudge(other).judge({ findings: findingsOf(there), spills: [] })
      for (const [i, ref] of refs.entries()) {
        expect(probabilityOf(second, renamed[i] ?? '')).toBeCloseTo(probabilityOf(first, ref), 8)
      }
      expect(second.stories.map(({ probability }) => probability.toFixed(6))).toEqual(
        first.stories.map(({ probability }) => probability.toFixed(6)),
      )
    },
  )

  const kept = createJudge(model)
  test.prop([states], { numRuns: 40, seed: 13 })('a judge that was asked before answers like a fresh one', (drawn) => {
    const inputAt = (x: number) => {
      const at = { x, y: 58 }
      const hypotheses = roundHypotheses(model, discsAround(at, 4, [8, 16]), [])
      return { findings: findingsOf(lanesWith(drawn)), spills: [{ mark: spillMark('s', at), hypotheses }] }
    }
    // What is kept wrongly from one place to the next is still kept at the third: one fresh judge tells it.
    for (const x of [60, 64]) kept.judge(inputAt(x))
    const again = kept.judge(inputAt(70))
    const fresh = createJudge(model).judge(inputAt(70))
    expect(again.lift).toEqual(fresh.lift)
    expect(again.stories.map(({ sentence }) => sentence).toSorted()).toEqual(
      fresh.stories.map(({ sentence }) => sentence).toSorted(),
    )
    for (const { ref, probability } of fresh.parts) expect(probabilityOf(again, ref)).toBeCloseTo(probability, 8)
  })

  test.prop([states], { numRuns: 40, seed: 14 })(
    'a die of which every tested lane passes is no likelier than its prior',
    (drawn) => {
      const dies = { prior: { joints: 0, 'command-joints': 0, corridor: 0, 'core-patch': 0 } }
      const result = createJudge(model).judge({ findings: findingsOf(lanesWith(drawn)), assumptions: dies, spills: [] })
      for (const { ref } of PLACES) {
        const own = model.lanes.flatMap((lane, i) => (lane.part === ref ? [drawn[i]] : []))
        if (!own.includes('fail'))
          expect(probabilityOf(result, ref)).toBeLessThanOrEqual(defaultAssumptions.prior.die + 1e-12)
      }
    },
  )

  it('residue inside of a doubtful spill raises it, a clean spot there lowers it', () => {
    const at = { x: 66, y: 56 }
    const lanes = lanesWith(['fail', 'fail', 'pass', 'pass', 'pass', 'pass'])
    const spillProbability = (kinds: readonly ('residue' | 'clean')[]): number => {
      const areas = kinds.map((kind, i) => ({ kind, id: `a${i}`, side: 'top' as const, at, radiusMm: 2 }))
      const points = areas.map((area) => area.at)
      const hypotheses = roundHypotheses(model, discsAround(at, 1, [8, 16]), points)
      const spills = [{ mark: spillMark('s', at), hypotheses }]
      const findings = findingsOf(lanes, { areas })
      return (
        createJudge(model).judge({ findings, assumptions: { prior: { spill: 0.3 } }, spills }).spill?.probability ?? 0
      )
    }
    const plain = spillProbability([])
    expect(spillProbability(['residue'])).toBeGreaterThan(plain)
    expect(spillProbability(['residue', 'residue'])).toBeGreaterThan(spillProbability(['residue']))
    expect(spillProbability(['clean'])).toBeLessThan(plain)
  })

  it('a rail that reads low makes the rail likelier, one that reads fine less so', () => {
    const lanes = lanesWith(['fail', 'fail', 'fail', 'fail', 'fail', 'fail'])
    const railStory = (state: 'low' | 'fine' | undefined): number => {
      const rails = new Map(state === undefined ? [] : [['VMEM', state] as const])
      const { stories } = createJudge(model).judge({ findings: findingsOf(lanes, { rails }), spills: [] })
      return stories.find(({ causes }) => causes.length === 1 && causes[0]?.kind === 'rail')?.probability ?? 0
    }
    expect(railStory('low')).toBeGreaterThan(railStory(undefined))
    expect(railStory('fine')).toBeLessThan(railStory(undefined))
  })

  it('a slip beside a power stage explains the packages that its rail feeds, and lifts the stage', () => {
    const lanes = lanesWith(['fail', 'fail', 'fail', 'fail', 'fail', 'pass'])
    const slips = [{ kind: 'slip' as const, id: 'k', side: 'top' as const, at: { x: 8, y: 95 }, radiusMm: 3 }]
    const result = createJudge(model).judge({ findings: findingsOf(lanes, { slips }), spills: [] })
    expect(result.stories.some(({ causes }) => causes.some(({ kind }) => kind === 'slip'))).toBe(true)
    const without = createJudge(model).judge({ findings: findingsOf(lanes), spills: [] })
    expect(probabilityOf(result, 'S1')).toBeGreaterThan(probabilityOf(without, 'S1'))
  })

  it('finds the spill where its residue and the failing packages are', () => {
    const at = { x: 66, y: 56 }
    const discs = [...discsAround(at, 2, [12]), ...discsAround({ x: 30, y: 46 }, 2, [12])]
    const spills = [{ mark: spillMark('s', { x: 50, y: 50 }), hypotheses: roundHypotheses(model, discs, []) }]
    const lanes = lanesWith(['fail', 'fail', 'pass', 'pass', 'pass', 'pass'])
    const { spill } = createJudge(model).judge({ findings: findingsOf(lanes), spills })
    expect(Math.hypot((spill?.at.x ?? 0) - at.x, (spill?.at.y ?? 0) - at.y)).toBeLessThan(6)
  })
})

describe('a card on which nearly everything fails', () => {
  const model = ringOfTwelve()
  const at = { x: CORE_AT.x + 26, y: CORE_AT.y + 8 }
  const spills = [{ mark: spillMark('s', at), hypotheses: roundHypotheses(model, discsAround(at, 3, [6, 10, 15]), []) }]
  const judged = (failing: readonly string[], withSpill: boolean) =>
    createJudge(model).judge({
      findings: findingsOf(new Map(model.lanes.map(({ id, part }) => [id, failing.includes(part) ? 'fail' : 'pass']))),
      spills: withSpill ? spills : [],
    })

  it('is judged all the same, and what is left out is said', () => {
    const result = judged(
      model.memories.map(({ ref }) => ref),
      true,
    )
    expect(result.leftOut.length).toBeGreaterThan(0)
    const sum = result.stories.reduce((total, { probability }) => total + probability, result.remainder)
    expect(Math.abs(sum - 1)).toBeLessThan(1e-9)
  })

  it('blames what all share when all twelve packages fail', () => {
    const result = judged(
      model.memories.map(({ ref }) => ref),
      false,
    )
    const kinds = new Set(result.stories[0]?.causes.map(({ kind }) => kind))
    expect([...kinds].some((kind) => ['rail', 'power-stage', 'core', 'core-patch'].includes(kind))).toBe(true)
    expect(result.lift.filter((ref) => ref.startsWith('U') && ref !== 'U1')).toEqual([])
  })
})

describe('assumptions', () => {
  it('ship with a reason and a source for every figure', () => {
    for (const section of Object.values(shippedAssumptions)) {
      for (const entry of Object.values(section)) {
        expect(entry.reason.length).toBeGreaterThan(5)
        expect(entry.source).toMatch(/source|ring/)
      }
    }
  })

  it('say for each cause how all looks of a failing part share out', () => {
    for (const looks of Object.values(defaultAssumptions.signature)) {
      expect(Object.values(looks).reduce((sum, value) => sum + value, 0)).toBeCloseTo(1, 12)
    }
  })

  it('take over only the figures that a case names, and refuse names that they do not know', () => {
    const changed = withAssumptions({ prior: { die: 0.1 } })
    expect(changed.prior.die).toBe(0.1)
    expect(changed.prior.core).toBe(defaultAssumptions.prior.core)
    expect(assumptionsSchema.safeParse({ prior: { dye: 0.1 } }).success).toBe(false)
    expect(assumptionsSchema.safeParse({ prior: { die: 1.1 } }).success).toBe(false)
  })

  it('a likelier die makes its package likelier to need lifting', () => {
    const model = board(['U2', 'U3', 'U4'], [0, 1, 2])
    const lanes = new Map(model.lanes.map(({ id }, i) => [id, i < 2 ? ('fail' as const) : ('pass' as const)]))
    const of = (die: number): number =>
      probabilityOf(
        createJudge(model).judge({ findings: findingsOf(lanes), assumptions: { prior: { die } }, spills: [] }),
        'U2',
      )
    expect(of(0.1)).toBeGreaterThan(of(0.01))
  })
})
