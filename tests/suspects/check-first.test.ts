/** A check stands before the work only where it saves more than what counts as costing the same: 3 % of the plan. Common practice, no source. */
import { expect, test } from 'vitest'
import { createJudge, type JudgeInput } from '../../src/suspects/index.ts'
import { smallBoard } from './small-board.ts'

const model = smallBoard({
  memories: [
    { ref: 'U2', at: { x: 76, y: 54 }, lanes: ['A0', 'A1'] },
    { ref: 'U3', at: { x: 24, y: 54 }, lanes: ['A0', 'A1'] },
  ],
  core: true,
  corridors: false,
  commandRegions: false,
  rails: [],
  stages: [],
})
const asked: JudgeInput = {
  findings: {
    lanes: new Map(model.lanes.map(({ id, part }) => [id, part === 'U2' ? 'fail' : 'pass'])),
    signatures: new Map(),
    spills: [],
    areas: [],
    slips: [],
    rails: new Map(),
  },
  spills: [],
  bench: { washed: false, takenUp: false, untested: false, lifted: [], offNow: [] },
}
const judge = createJudge(model)
const ranked = judge.rankChecks({ ...asked, unreported: [], places: [], told: 8 })
const alone = judge.proposeRemedies(asked)

test.each([
  ['2 %', 0.02, false],
  ['5 %', 0.05, true],
])('a check of no minutes that is expected to save %s of the plan', (_, share, isFirst) => {
  const [first] = ranked.checks
  if (first === undefined) throw new Error('no check is open')
  const check = { ...first, minutes: 0, saves: alone.expectedCost * share }
  const { steps, expectedCost } = judge.proposeRemedies(asked, { ...ranked, checks: [check] })
  expect(steps[0]?.action === 'check').toBe(isFirst)
  expect(expectedCost).toBeCloseTo(alone.expectedCost * (isFirst ? 1 - share : 1), 6)
})
