/**
 * How right the sums of the spill room are: 200 seeded spills over the shipped boards against sampling by single marches,
 * and a line of places a quarter of a millimetre apart on each board. And what a mark costs that is dragged by a
 * millimetre at a time over ground where nothing was worked out ahead.
 */
import { readFileSync } from 'node:fs'
import { seededRandom } from '../../src/base/index.ts'
import { type BoardModel, readBoard } from '../../src/board/index.ts'
import { createReachEngine } from '../../src/spill/index.ts'
import { spillAt, substanceOf, unwrap } from '../support/board-fixture.ts'
import { alongLine, deviationsOf, samplingError, seededSpill, unsteadinessOf } from '../support/spill-sampling.ts'

const BOARDS = ['hitch-12', 'splice-6', 'bowline-8', 'cleat-10', 'sheet-bend-16'] as const
const SPILLS = 200
const SAMPLES = 1000
const LINE_SAMPLES = 8000
const STEP_MM = 0.25

export async function benchSpill(): Promise<object> {
  return { single: againstSingleMarches(), line: alongLines(), drag: { flat: drag(undefined), mounted: drag(270) } }
}

function againstSingleMarches(): object {
  const random = seededRandom(200)
  const boards = BOARDS.map(boardNamed).map((model) => ({ model, engine: createReachEngine(model) }))
  let [count, squares, expected, beyond, worst] = [0, 0, 0, 0, 0]
  let worstBeyondError = 0
  for (let i = 0; i < SPILLS; i++) {
    const board = boards[i % boards.length]
    if (board === undefined) continue
    const mark = seededSpill(board.model, random)
    for (const { summed, sampled } of deviationsOf(board.model, board.engine, mark, SAMPLES, random)) {
      const off = Math.abs(summed - sampled)
      const error = samplingError(sampled, SAMPLES)
      count++
      squares += off * off
      expected += error * error
      worst = Math.max(worst, off)
      worstBeyondError = Math.max(worstBeyondError, off - 3 * error)
      if (off > 0.03 + 3 * error) beyond++
    }
  }
  return {
    spills: SPILLS,
    samplesEach: SAMPLES,
    probabilities: count,
    rootMeanSquare: round(Math.sqrt(squares / count)),
    ofWhichSampling: round(Math.sqrt(expected / count)),
    worst: round(worst),
    worstBeyondThreeErrors: round(worstBeyondError),
    off3PercentBeyondThreeErrors: beyond,
  }
}

function alongLines(): object[] {
  const random = seededRandom(31)
  return BOARDS.map((name) => {
    const model = boardNamed(name)
    const mark = { ...seededSpill(model, random), sdMm: 4 }
    const line = alongLine(mark, model, STEP_MM, 17, LINE_SAMPLES)
    const { worstPerMm, worst, steepestPerMm } = unsteadinessOf(line, STEP_MM)
    return { board: name, worstPerMm: round(worstPerMm), worst: round(worst), steepestPerMm: round(steepestPerMm) }
  })
}

function drag(downDeg: number | undefined): object {
  const engine = createReachEngine(boardNamed('hitch-12'))
  const coolant = substanceOf('coolant-pg')
  const ms: number[] = []
  for (let step = 0; step < 60; step++) {
    const mark = spillAt(120 + step, 96, {
      sdMm: 4,
      substance: coolant.id,
      amount: { volumeMl: 0.6 },
      ...(downDeg === undefined ? {} : { downDeg }),
    })
    const start = performance.now()
    unwrap(engine.reach(mark, [], coolant))
    unwrap(engine.hypotheses(mark, [], coolant, []))
    ms.push(performance.now() - start)
  }
  const [first = 0, ...rest] = ms
  const sorted = rest.toSorted((a, b) => a - b)
  return {
    board: 'hitch-12',
    of: 'reach and hypotheses, a millimetre a step, nothing prepared',
    firstMs: round(first),
    medianMs: round(sorted[Math.floor(sorted.length / 2)] ?? 0),
    p95Ms: round(sorted[Math.floor(sorted.length * 0.95)] ?? 0),
  }
}

const boardNamed = (name: string): BoardModel =>
  unwrap(readBoard(readFileSync(new URL(`../../boards/${name}.json`, import.meta.url), 'utf8')))

const round = (value: number): number => Number(value.toPrecision(2))
