/** What several runs of the memory test say together, what supplies do to the lanes of one package, and what follows. */
import { describe, expect, it } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import { type AssumptionOverrides, createJudge, type Findings, type LaneState } from '../../src/suspects/index.ts'
import { rail, smallBoard } from './small-board.ts'

const nothingElse = { signatures: new Map(), spills: [], areas: [], slips: [], rails: new Map() }

/** The first run, then one after each round; lanes that are not named pass. */
function found(model: BoardModel, runs: readonly (readonly string[])[], lifted: readonly string[] = []): Findings {
  const [first = [], ...later] = runs.map(
    (failing) =>
      new Map(model.lanes.map(({ id }): [string, LaneState] => [id, failing.includes(id) ? 'fail' : 'pass'])),
  )
  const rounds = later.map((lanes, at) => ({ lifted: at === 0 ? [...lifted] : [], lanes }))
  return { ...nothingElse, lanes: new Map(first), rounds }
}

const probabilityOf = (model: BoardModel, findings: Findings, ref: string, assumptions?: AssumptionOverrides): number =>
  createJudge(model)
    .judge({ findings, spills: [], assumptions })
    .parts.find((part) => part.ref === ref)?.probability ?? 0

describe('one lane over two runs with nothing done between them', () => {
  const model = smallBoard({
    memories: [{ ref: 'U11', at: { x: 20, y: 50 }, lanes: ['A0'] }],
    core: false,
    corridors: false,
    commandRegions: false,
    rails: [],
    stages: [],
  })
  const [die, joints, leak] = [0.0075, 0.002, 0.0005]
  const [byDie, byJoints] = [0.6, 0.9]

  /** Worked by hand: the four sets of causes, each with its chance and what is seen then. */
  const needsLifting = (seen: (qs: readonly number[]) => number): number => {
    const none = (1 - die) * (1 - joints) * seen([])
    const some =
      die * (1 - joints) * seen([byDie]) +
      (1 - die) * joints * seen([byJoints]) +
      die * joints * seen([byDie, byJoints])
    return some / (none + some)
  }
  const product = (of: readonly number[]): number => of.reduce((all, each) => all * each, 1)

  it('that fails, then passes: each cause did nothing or was missed by the second run, with 2 %', () => {
    const passes = (q: number): number => 1 - q + q * 0.02
    const byHand = needsLifting((qs) => product(qs.map(passes)) - (1 - leak) * product(qs.map((q) => 1 - q)))
    expect(probabilityOf(model, found(model, [['U11.A0'], []]), 'U11')).toBeCloseTo(byHand, 9)
  })

  it('that fails twice: an accident of one run is five times as rare in both', () => {
    const byHand = needsLifting((qs) => 1 - (1 - leak / 5) * product(qs.map((q) => 1 - q)))
    expect(probabilityOf(model, found(model, [['U11.A0'], ['U11.A0']]), 'U11')).toBeCloseTo(byHand, 9)
  })
})

const packages = ['U11', 'U12', 'U13', 'U14'].map((ref, i) => ({
  ref,
  at: { x: 50 + 35 * Math.cos((i * Math.PI) / 2), y: 50 + 35 * Math.sin((i * Math.PI) / 2) },
  lanes: ['A0', 'A1', 'B0', 'B1'],
}))
const fedAt = (feeds: readonly string[], stages: readonly string[]): BoardModel =>
  smallBoard({
    memories: packages,
    core: true,
    corridors: false,
    commandRegions: false,
    rails: [rail('VCORE', feeds, stages, [])],
    stages,
  })
/** Lanes A0 and A1 of each package as one channel, B0 and B1 as another. */
function withTwoChannels(model: BoardModel): BoardModel {
  const lanes = model.lanes.map((lane) => ({ ...lane, channel: `${lane.part}.${lane.name.slice(0, 1)}` }))
  const ids = [...new Set(lanes.map(({ channel }) => channel))]
  const channels = ids.map((id) => {
    const own = lanes.filter(({ channel }) => channel === id)
    return { id, lanes: own.map((lane) => lane.id), parts: own.slice(0, 1).map(({ part }) => part), bitCount: 16 }
  })
  return { ...model, lanes, laneById: new Map(lanes.map((lane) => [lane.id, lane])), channels }
}
const lanesOf = (...refs: readonly string[]): string[] =>
  refs.flatMap((ref) => ['A0', 'A1', 'B0', 'B1'].map((lane) => `${ref}.${lane}`))

describe('a supply that is off', () => {
  it('of the core alone starves the lanes of a package together; some of each speak for the core', () => {
    const rare = { prior: { die: 1e-7, joints: 1e-7, 'command-joints': 1e-7, 'core-patch': 1e-7 } }
    const model = fedAt(['U1'], ['S1'])
    const opposite = lanesOf('U11', 'U13')
    const scattered = packages.flatMap(({ ref }) => [`${ref}.A0`, `${ref}.B0`])
    expect(probabilityOf(model, found(model, [opposite]), 'U1', rare)).toBeLessThan(0.1)
    expect(probabilityOf(model, found(model, [scattered]), 'U1', rare)).toBeGreaterThan(0.9)
  })

  it('of the core alone starves the lanes of a channel together, each channel by a margin of its own', () => {
    const rare = { prior: { die: 1e-7, joints: 1e-7, 'command-joints': 1e-7, 'core-patch': 1e-7 } }
    const model = withTwoChannels(fedAt(['U1'], ['S1']))
    const channels = ['U11.A0', 'U11.A1', 'U12.B0', 'U12.B1', 'U13.A0', 'U13.A1', 'U14.B0', 'U14.B1']
    const halves = packages.flatMap(({ ref }) => [`${ref}.A0`, `${ref}.B0`])
    expect(probabilityOf(model, found(model, [channels]), 'U1', rare)).toBeLessThan(0.1)
    expect(probabilityOf(model, found(model, [halves]), 'U1', rare)).toBeGreaterThan(0.9)
  })

  it('by one of twelve stages is as likely as by one of two: the others carry on', () => {
    const anyOf = (count: number): number => {
      const stages = Array.from({ length: count }, (_, i) => `S${i + 1}`)
      const model = fedAt(
        packages.map(({ ref }) => ref),
        stages,
      )
      const { parts } = createJudge(model).judge({ findings: found(model, [lanesOf('U11', 'U12', 'U13')]), spills: [] })
      return parts.reduce((sum, { ref, probability }) => (stages.includes(ref) ? sum + probability : sum), 0)
    }
    expect(anyOf(12)).toBeCloseTo(anyOf(2), 2)
  })
})

describe('what is proposed', () => {
  it('while the same lane fails on after its package came off: not to hand it back, and not the package again', () => {
    const model = fedAt(['U1'], ['S1'])
    const findings = found(model, [['U11.A0'], ['U11.A0']], ['U11'])
    const { action } = createJudge(model).propose({ findings, spills: [], places: [] })
    expect(action.kind).not.toBe('hand-back')
    if (action.kind === 'lift') expect(action.refs).not.toContain('U11')
  })
})

describe('a map that guessed which channel of a package is which', () => {
  const model = smallBoard({
    memories: packages,
    core: true,
    corridors: false,
    commandRegions: false,
    rails: [],
    stages: [],
  })
  /** U11 with a channel for each half. */
  const halves = (orderGuessed: string[]): BoardModel => ({
    ...model,
    lanes: model.lanes.map((lane) => (lane.part === 'U11' ? { ...lane, channel: lane.name.slice(0, 1) } : lane)),
    addressMap: {
      addressBits: 1,
      channel: { digits: [{ kind: 'field', low: 0, high: 0, from: 'address' }], order: ['A', 'B'], orderGuessed },
      row: [],
    },
  })
  const leftOut = (board: BoardModel, failing: readonly string[]): readonly string[] =>
    createJudge(board).judge({ findings: found(board, [failing]), spills: [] }).leftOut

  it('is said where one of them fails and the other passes', () => {
    expect(leftOut(halves(['U11']), ['U11.A0']).join()).toContain('the channels of U11 may be the other way round')
  })

  it('is not where all fail, another package fails, or nothing was guessed', () => {
    expect(leftOut(halves(['U11']), lanesOf('U11'))).toEqual([])
    expect(leftOut(halves(['U11']), ['U12.A0'])).toEqual([])
    expect(leftOut(halves([]), ['U11.A0'])).toEqual([])
  })
})
