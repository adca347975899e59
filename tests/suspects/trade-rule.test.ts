/**
 * The rule of the trade (common practice, no source): one bad package is a bad package, but two packages that fail at
 * the same time without a common cause are so rare that the memory is probably not the fault.
 */
import { describe, expect, it } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import type { Signature } from '../../src/report/index.ts'
import { createReachEngine, type SpillMark, substances } from '../../src/spill/index.ts'
import { type CauseKind, createJudge, type JudgeInput, type SuspectsResult } from '../../src/suspects/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { CORE_AT, discsAround, ringOfTwelve, roundHypotheses, spillMark } from './small-board.ts'

interface Bench {
  readonly model: BoardModel
  readonly spill: JudgeInput['spills'][number]
  readonly unreported: JudgeInput['unreported']
  readonly neighbours: readonly [string, string]
  readonly opposite: readonly [string, string]
}

/** The ring made by hand, with round puddles between the core and two neighbours on its east side. */
function handMadeRing(): Bench {
  const model = ringOfTwelve()
  const at = { x: CORE_AT.x + 26, y: CORE_AT.y + 8 }
  const everywhere = Array.from({ length: 400 }, (_, i) => ({ x: 2.5 + 5 * (i % 20), y: 2.5 + 5 * Math.floor(i / 20) }))
  const anywhere = everywhere.flatMap((place) => [5, 10, 16].map((radiusMm) => ({ at: place, radiusMm, weight: 1 })))
  return {
    model,
    spill: { mark: spillMark('s', at), hypotheses: roundHypotheses(model, discsAround(at, 3, [6, 10, 15]), []) },
    unreported: [roundHypotheses(model, anywhere, [])],
    neighbours: ['U14', 'U15'],
    opposite: ['U15', 'U21'],
  }
}

/** A shipped board with the reach engine's own hypotheses: coolant from a fitting east of the core. */
function shippedRing(): Bench {
  const model = shippedBoard('hitch-12')
  const engine = createReachEngine(model, { cellMm: 1 })
  const mark: SpillMark = {
    kind: 'spill',
    id: 's',
    side: 'top',
    at: { x: 158, y: 74 },
    sdMm: 4,
    substance: 'coolant-eg',
    amount: { volumeMl: 0.6 },
    amountSdLog: 0.4,
    pressed: 'unknown',
    pushMm: 0,
    reachesOtherSide: false,
  }
  const substance = substances.find(({ id }) => id === mark.substance)
  const hypotheses = substance === undefined ? undefined : engine.hypotheses(mark, [], substance, [])
  if (hypotheses === undefined || !hypotheses.ok) throw new Error('the spill of this test could not be computed')
  return {
    model,
    spill: { mark, hypotheses: hypotheses.value },
    unreported: [engine.unreportedHypotheses({ side: 'top', areas: [], dams: [] })],
    neighbours: ['U14', 'U15'],
    opposite: ['U15', 'U21'],
  }
}

const SIGNATURE_OF_CELLS: Signature = {
  kind: 'cells',
  where: 'U14',
  numbers: [],
  stuck: undefined,
  sentence: 'Errors stay within two rows.',
}

function judged(bench: Bench, failing: readonly string[], withSpill: boolean, cells: boolean): SuspectsResult {
  const { model } = bench
  const spills = withSpill ? [bench.spill] : []
  return createJudge(model).judge({
    findings: {
      lanes: new Map(model.lanes.map(({ id, part }) => [id, failing.includes(part) ? 'fail' : 'pass'])),
      signatures: new Map(cells ? failing.map((ref) => [ref, SIGNATURE_OF_CELLS]) : []),
      spills: spills.map(({ mark }) => mark),
      areas: [],
      slips: [],
      rails: new Map(),
    },
    spills,
    unreported: bench.unreported,
  })
}

/** Probability of all listed stories that hold a cause of these kinds. */
const having = (result: SuspectsResult, kinds: readonly CauseKind[]): number =>
  result.stories.reduce(
    (sum, { causes, probability }) => (causes.some(({ kind }) => kinds.includes(kind)) ? sum + probability : sum),
    0,
  )

/** Probability of "all of these dies and nothing else"; where it is too rare to be listed, the least that is listed. */
function deadDies(result: SuspectsResult): number {
  const story = result.stories.find(({ causes }) => causes.length > 1 && causes.every(({ kind }) => kind === 'die'))
  return story?.probability ?? 0.002
}

const lifted = (result: SuspectsResult, ref: string): number =>
  result.parts.find((part) => part.ref === ref)?.probability ?? Number.NaN

describe.each([
  ['a ring of twelve made by hand', handMadeRing()],
  ['the shipped board hitch-12', shippedRing()],
])('the rule of the trade on %s', (_, bench) => {
  it('puts a reported spill between two dead neighbours and the core far above two dead dies', () => {
    const result = judged(bench, bench.neighbours, true, false)
    expect(having(result, ['spill'])).toBeGreaterThan(20 * deadDies(result))
    expect(having(result, ['spill'])).toBeGreaterThan(0.8)
    expect(result.stories[0]?.causes.map(({ kind }) => kind)).toEqual(['spill'])
  })

  it('then lifts the core and those two, and nothing else', () => {
    const result = judged(bench, bench.neighbours, true, false)
    expect([...result.lift].toSorted()).toEqual(['U1', ...bench.neighbours].toSorted())
    for (const ref of ['U1', ...bench.neighbours]) expect(lifted(result, ref)).toBeGreaterThan(0.6)
  })

  it('still puts the core side or a rail above two dead dies when nobody reported a spill', () => {
    const result = judged(bench, bench.neighbours, false, false)
    const shared = having(result, ['core-patch', 'core', 'rail', 'rail-branch', 'power-stage'])
    expect(shared).toBeGreaterThan(deadDies(result))
    expect(result.stories[0]?.causes.every(({ kind }) => kind === 'die')).toBe(false)
  })

  it('finds no place that two packages on opposite sides share: each by itself, or what feeds both', () => {
    const result = judged(bench, bench.opposite, false, false)
    const single = result.stories.filter(({ causes }) => causes.length === 1)
    const supplies: readonly CauseKind[] = ['rail', 'rail-branch', 'power-stage']
    const share = (of: typeof single): number => of.reduce((sum, { probability }) => sum + probability, 0)
    const isSupply = ({ causes }: (typeof single)[number]): boolean =>
      causes.every(({ kind }) => supplies.includes(kind))
    expect(share(single.filter((story) => !isSupply(story)))).toBeLessThan(0.1)
    expect(share(single)).toBeLessThan(0.6)
    expect(lifted(result, 'U1')).toBeLessThan(0.25)
    for (const ref of result.lift) expect(bench.opposite).toContain(ref)
  })

  it('blames the die of one package whose errors stay in a few cells, and leaves the core alone', () => {
    const result = judged(bench, ['U14'], false, true)
    const die = result.stories[0]
    expect(die?.causes).toEqual([{ kind: 'die', at: 'U14', refs: ['U14'] }])
    expect(die?.probability).toBeGreaterThan(0.8)
    expect(result.lift).toEqual(['U14'])
    expect(lifted(result, 'U1')).toBeLessThan(0.03)
  })

  it('blames what all share when all twelve fail, and says what it left out', () => {
    const all = bench.model.memories.map(({ ref }) => ref)
    const result = judged(bench, all, false, false)
    expect(having(result, ['rail', 'power-stage', 'core'])).toBeGreaterThan(0.5)
    expect(result.lift.filter((ref) => all.includes(ref))).toEqual([])
    expect(result.leftOut.length).toBeGreaterThan(0)
    expect(result.stories.reduce((sum, { probability }) => sum + probability, result.remainder)).toBeCloseTo(1, 9)
  })

  it('says why in words that cite the lanes, the spill and the cost', () => {
    const result = judged(bench, bench.neighbours, true, false)
    const part = result.parts.find(({ ref }) => ref === 'U15')
    const why = part?.why.join(' ') ?? ''
    expect(part?.whyReached).toEqual(part?.why.filter((words) => /from its flow only|the spill reached it/.test(words)))
    expect(why).toContain('All 4 tested lanes fail')
    expect(why).toMatch(/Chance that the spill reported .* mm .* of it reached it: \d+ % from its flow only/)
    expect(why).toMatch(/lifting costs about \d+, leaving it about \d+/)
    expect(result.parts.find(({ ref }) => ref === 'U1')?.why.join(' ')).toContain('nobody can see')
  })
})
