/**
 * What happens while a hand drags a spill over the 12-package board at 1 mm: reach, hypotheses, stories and lift list, for
 * 200 seeded points in the ring where the memory stands. The reach alone is compared with a straightforward one.
 */
import { readFileSync } from 'node:fs'
import { performance } from 'node:perf_hooks'
import { seededRandom } from '../../src/base/index.ts'
import { type BoardModel, readBoard } from '../../src/board/index.ts'
import {
  behaviourOf,
  buildTerrain,
  createReachEngine,
  march,
  pointSeeds,
  type ReachEngine,
  type SpillMark,
  type Substance,
  spillMarkSchema,
  substances,
} from '../../src/spill/index.ts'
import { createJudge, type Findings, type Judge } from '../../src/suspects/index.ts'

const POINTS = 200
const WARM_UP = 40
const SEED = 2025
const MOUNTED_DOWN_DEG = 270
/** Marches of the straightforward way are timed on so many regions, and their time scaled up. */
const PLAIN_REGIONS = 20

export async function benchChain(): Promise<object> {
  const model = shippedBoard('hitch-12')
  const substance = substances.find(({ id }) => id === 'coolant-eg')
  if (substance === undefined) throw new Error('no coolant')
  const marks = spillsInTheRing(model, WARM_UP + POINTS)
  const [first] = marks
  if (first === undefined) throw new Error('no point of the ring is on the board')
  const flat = dragReach(model, marks, substance)
  const mounted = dragReach(
    model,
    marks.map((mark) => ({ ...mark, downDeg: MOUNTED_DOWN_DEG })),
    substance,
  )
  const twoFail = new Set(model.memories.slice(3, 5).map(({ ref }) => ref))
  const chain = chainOver(model, marks, substance, twoFail)
  const allFail = chainOver(model, marks, substance, new Set(model.memories.map(({ ref }) => ref)))
  const plainMs = plainReachMs(model, first, substance)
  return {
    board: model.name,
    cellMm: 1,
    points: POINTS,
    reach: {
      ...flat,
      plainMs: round(plainMs),
      plainWay: 'one march from every region for the one mark, nothing kept',
      ratio: round(plainMs / flat.medianMs),
    },
    reachMounted: mounted,
    suspects: {
      medianMs: round(quantile(chain.judgeMs, 0.5)),
      p95Ms: round(quantile(chain.judgeMs, 0.95)),
      firstMs: round(chain.firstMs),
      of: 'exact posteriors, stories, lift list and reasons; two neighbouring packages fail',
    },
    suspectsWhereAllFail: {
      medianMs: round(quantile(allFail.judgeMs, 0.5)),
      p95Ms: round(quantile(allFail.judgeMs, 0.95)),
      firstMs: round(allFail.firstMs),
      of: 'the same where every lane of every package fails',
      aim: { medianMs: 50 },
    },
    chain: { medianMs: round(quantile(chain.wholeMs, 0.5)), p95Ms: round(quantile(chain.wholeMs, 0.95)) },
    aim: { medianMs: 16, p95Ms: 33, of: 'reach, suspects and lift list together' },
  }
}

/** Time of reach and hypotheses per point, after preparation. */
function dragReach(
  model: BoardModel,
  marks: readonly SpillMark[],
  substance: Substance,
): { prepareMs: number; medianMs: number; p95Ms: number } {
  const engine = createReachEngine(model, { cellMm: 1 })
  const [first] = marks
  const prepareMs = first === undefined ? 0 : timeMs(() => engine.prepare(first, [], substance))
  const reachMs = marks.map((mark) => timeMs(() => reachOnce(engine, mark, substance))).slice(WARM_UP)
  return { prepareMs: round(prepareMs), medianMs: round(quantile(reachMs, 0.5)), p95Ms: round(quantile(reachMs, 0.95)) }
}

/** The whole chain, as while dragging: the findings stay (these packages fail completely), the spill moves. */
function chainOver(
  model: BoardModel,
  marks: readonly SpillMark[],
  substance: Substance,
  failing: ReadonlySet<string>,
): { judgeMs: number[]; wholeMs: number[]; firstMs: number } {
  const engine = createReachEngine(model, { cellMm: 1 })
  const [first] = marks
  if (first !== undefined) engine.prepare(first, [], substance)
  const judge = createJudge(model)
  const lanes: Findings['lanes'] = new Map(model.lanes.map(({ id, part }) => [id, failing.has(part) ? 'fail' : 'pass']))
  const unreported = [engine.unreportedHypotheses({ side: 'top', areas: [], dams: [] })]
  const judgeMs: number[] = []
  const wholeMs: number[] = []
  let firstMs = 0
  for (const [i, mark] of marks.entries()) {
    let ms = 0
    const whole = timeMs(() => {
      const reach = engine.reach(mark, [], substance)
      const hypotheses = engine.hypotheses(mark, [], substance, [])
      if (!reach.ok || !hypotheses.ok) throw new Error('the engine refused a spill of the bench')
      const spills = [{ mark, hypotheses: hypotheses.value }]
      ms = timeMs(() => judgeOnce(judge, { lanes, spills: [mark] }, spills, unreported))
    })
    if (i === 0) firstMs = ms
    if (i < WARM_UP) continue
    judgeMs.push(ms)
    wholeMs.push(whole)
  }
  return { judgeMs, wholeMs, firstMs }
}

function judgeOnce(
  judge: Judge,
  seen: Pick<Findings, 'lanes' | 'spills'>,
  spills: Parameters<Judge['judge']>[0]['spills'],
  unreported: Parameters<Judge['judge']>[0]['unreported'],
): void {
  const findings = { ...seen, signatures: new Map(), areas: [], slips: [], rails: new Map() }
  const { lift, stories } = judge.judge({ findings, spills, unreported })
  if (stories.length === 0) throw new Error('packages that fail need a story')
  // where everything fails a supply is behind it, and nothing may need to come off
  const passes = [...seen.lanes.values()].includes('pass')
  if (passes && lift.length === 0) throw new Error('two dead packages need a lift list')
}

function reachOnce(engine: ReachEngine, mark: SpillMark, substance: Substance): void {
  const reach = engine.reach(mark, [], substance)
  const hypotheses = engine.hypotheses(mark, [], substance, [])
  if (!reach.ok || !hypotheses.ok) throw new Error('the engine refused a spill of the bench')
}

function plainReachMs(model: BoardModel, mark: SpillMark, substance: Substance): number {
  const behaviour = behaviourOf(substance)
  if (!behaviour.ok) throw new Error('no behaviour')
  const { bodies, filmMm } = behaviour.value
  const terrain = buildTerrain(model, { sides: [mark.side], bodies, maskFilmMm: filmMm, dams: [], cellMm: 1 })
  const regions = model.regions.slice(0, PLAIN_REGIONS)
  const ms = timeMs(() => {
    for (const region of regions) march(terrain, pointSeeds(terrain, 0, region.centre))
  })
  return (ms / regions.length) * model.regions.length
}

function shippedBoard(name: string): BoardModel {
  const board = readBoard(readFileSync(new URL(`../../boards/${name}.json`, import.meta.url), 'utf8'))
  if (!board.ok) throw new Error(JSON.stringify(board.faults))
  return board.value
}

/** Spills of about one millilitre, spread evenly over the box around the memory parts. */
function spillsInTheRing(model: BoardModel, count: number): SpillMark[] {
  const random = seededRandom(SEED)
  const corners = model.memories.flatMap(({ outline }) => outline)
  const [minX, maxX] = [Math.min(...corners.map(({ x }) => x)), Math.max(...corners.map(({ x }) => x))]
  const [minY, maxY] = [Math.min(...corners.map(({ y }) => y)), Math.max(...corners.map(({ y }) => y))]
  return Array.from({ length: count }, (_, i) =>
    spillMarkSchema.parse({
      kind: 'spill',
      id: `bench-${i}`,
      side: 'top',
      at: { x: minX + (maxX - minX) * random.next(), y: minY + (maxY - minY) * random.next() },
      sdMm: 5,
      substance: 'coolant-eg',
      amount: { volumeMl: 1 },
    }),
  )
}

function timeMs(work: () => void): number {
  const start = performance.now()
  work()
  return performance.now() - start
}

const quantile = (values: readonly number[], share: number): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))] ?? 0

const round = (value: number): number => Number(value.toPrecision(3))
