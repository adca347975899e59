/** That a part must come off is told apart from what a wash in place may still do for it. */
import { describe, expect, test } from 'vitest'
import { type AtTheBench, createJudge, type JudgeInput } from '../../src/suspects/index.ts'
import { roundHypotheses, smallBoard, spillMark } from './small-board.ts'

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

const BENCH: AtTheBench = { washed: false, takenUp: false, untested: false, lifted: [], offNow: [] }

function suspicion(bench: Partial<AtTheBench>, harm?: JudgeInput['spills'][number]['harm']) {
  const mark = spillMark('s1', { x: 76, y: 54 })
  const hypotheses = roundHypotheses(model, [{ at: mark.at, radiusMm: 12, weight: 1 }], [])
  const { parts } = createJudge(model).judge({
    findings: {
      lanes: new Map(model.lanes.map(({ id, part }) => [id, part === 'U2' ? 'fail' : 'pass'])),
      signatures: new Map(),
      spills: [mark],
      areas: [],
      slips: [],
      rails: new Map(),
    },
    spills: [{ mark, hypotheses, harm }],
    bench: { ...BENCH, ...bench },
  })
  const found = parts.find(({ ref }) => ref === 'U2')
  if (found === undefined) throw new Error('U2 is no suspect')
  return found
}

describe('a package that a spill reached', () => {
  test('must come off for all that a wash does not cure: 35 % of what lies under it (remedies/figures.json)', () => {
    const { probability, comesOff, wrong, why } = suspicion({})
    expect(wrong.beneath).toBeGreaterThan(0.1)
    expect(comesOff).toBeCloseTo(probability - 0.35 * wrong.beneath, 9)
    expect(why.at(-1)).toMatch(/must come off with a chance of .+ \(a wash may do: .+\)/)
  })
  test.each([
    ['once it was washed', { washed: true }, 'liquid'],
    ['once something was lifted', { lifted: ['U2'] }, 'liquid'],
    ['for metal, which is taken up by hand', {}, 'metal'],
  ] as const)('must come off whatever a wash would do %s', (_, bench, harm) => {
    const { probability, comesOff, why } = suspicion(bench, harm)
    expect(comesOff).toBe(probability)
    expect(why.join(' ')).not.toContain('a wash in place does')
  })
})
