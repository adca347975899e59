import { describe, expect, test } from 'vitest'
import { sayFault } from '../../src/base/index.ts'
import { evidenceFrom, type PlanInput, passLogSchema, type Replanned, replan } from '../../src/plan/index.ts'
import { exposureOn, exposuresOf, passesOf, plainBoard, planned } from './plan-fixture.ts'

const input: PlanInput = {
  model: plainBoard([
    { ref: 'U2', x: 30, heatCount: 1, package: '180-ball' },
    { ref: 'U3', x: 60, heatCount: 1, package: '180-ball', bonding: 'edge' },
    { ref: 'U4', x: 90, heatCount: 1 },
  ]),
  lift: ['U2', 'U3'],
  exposures: exposuresOf({ U2: { U3: 150, U4: 230 }, U3: { U2: 230, U4: 150 } }),
  successProbability: 0.8,
}

function after(log: unknown, from: PlanInput = input): Replanned {
  const answer = replan(from, log)
  if (!answer.ok) throw new Error(answer.faults.map(sayFault).join('\n'))
  return answer.value
}

const done = (action: 'lift' | 'refit', ref: string) => ({ action, refs: [ref], outcome: 'done' })

describe('the live plan', () => {
  test('an empty log changes nothing', () => {
    const { answer, changes } = after([])
    expect(answer).toEqual(planned(input))
    expect(changes).toEqual([])
  })

  test('a pass done as planned leaves the rest of the plan and the final heat counts as they were', () => {
    const { answer, changes } = after([done('lift', 'U2')])
    expect(passesOf(answer)).toEqual(passesOf(planned(input)).slice(1))
    expect(changes).toEqual([])
  })

  test('passes logged one by one come to the counts that the plan foretold', () => {
    const first = planned(input).best
    const log = first.steps.flatMap(({ action, refs }) =>
      action === 'lift' || action === 'refit' ? [{ action, refs, outcome: 'done' }] : [],
    )
    const { answer, input: now } = after(log)
    expect(passesOf(answer)).toEqual([])
    for (const { ref, after: count } of first.heatCounts) expect(now.heatCounts?.get(ref)).toBe(count)
  })

  test('a failed lift counts as a melt, unless the joint stayed cold', () => {
    const failed = { action: 'lift', refs: ['U2'], outcome: 'failed' }
    expect(after([failed]).input.heatCounts?.get('U2')).toBe(2)
    expect(after([{ ...failed, peakC: 170 }]).input.heatCounts?.get('U2')).toBeUndefined()
  })

  test('failing at the limit has the part replaced, and says so', () => {
    const failed = { action: 'lift', refs: ['U2'], outcome: 'failed' }
    const { answer, changes } = after([failed, failed])
    expect(answer.best.steps.find(({ action }) => action === 'replace')?.refs).toEqual(['U2'])
    expect(changes).toContain('U2 must now be replaced: at the heat limit.')
  })

  test('a skipped part leaves the list', () => {
    const { answer, changes } = after([{ action: 'lift', refs: ['U2'], outcome: 'skipped' }])
    expect(passesOf(answer)).toEqual(['lift U3', 'refit U3'])
    expect(changes[0]).toBe('No longer in the plan: lift U2, refit U2.')
  })

  test('parts that were planned together and done one by one are done, not missed', () => {
    const together = { ...input, groups: [{ refs: ['U2', 'U3'], exposure: exposureOn('U2', {}, 6) }] }
    expect(passesOf(planned(together))).toEqual(['lift U2 U3', 'refit U2 U3'])
    const { changes } = after([done('lift', 'U2'), done('lift', 'U3')], together)
    expect(changes.filter((change) => change.startsWith('No longer'))).toEqual([])
  })

  test('what was measured stands for what was modelled', () => {
    const modelled = after([done('lift', 'U2')]).input.heatCounts
    const measured = after([{ ...done('lift', 'U2'), measured: [{ ref: 'U4', peakC: 160 }] }]).input.heatCounts
    expect([modelled?.get('U4'), measured?.get('U4')]).toEqual([2, undefined])
  })

  test('something wet is dried before the next heat, and only once', () => {
    const wet = { ...done('lift', 'U2'), found: [{ ref: 'U2', what: ['wet'] }] }
    const first = after([wet])
    expect(first.answer.best.steps[0]).toMatchObject({ action: 'dry', refs: ['U2'], hours: 8 })
    expect(first.changes).toContain('Dry U2 for 8 h before the next heat.')
    expect(after([wet, done('lift', 'U3')]).answer.best.steps.some(({ action }) => action === 'dry')).toBe(false)
  })

  test('a torn pad takes 30 minutes and lowers the chance to 85 % of itself, where no pass and no glue spoils anything: 80 % becomes 68 %', () => {
    const exposure = { meltRisk: 0, nearRisk: 0, overLimitRisk: 0 }
    const harmless = { ...input, settings: { exposure, rules: { tearsEdge: 0 } } }
    const torn = { ...done('lift', 'U2'), found: [{ ref: 'U2', what: ['torn-pad'] }] }
    const { answer, changes } = after([torn], harmless)
    expect(answer.best.minutes - after([done('lift', 'U2')], harmless).answer.best.minutes).toBeCloseTo(30, 9)
    expect(changes).toContain('The chance of success goes from 80 % to 68 %.')
  })

  test('pads that were noted ball by ball take 30 minutes and 0.85 each, and none that may stay', () => {
    const torn = [{ ...done('lift', 'U2'), found: [{ ref: 'U2', what: ['torn-pad'] }] }]
    const noted = (count: number) => after(torn, { ...input, tornBalls: new Map([['U2', count]]) }).answer
    expect(noted(2).best.minutes - noted(0).best.minutes).toBeCloseTo(60, 9)
    expect(noted(2).worth.curesProbability / noted(0).worth.curesProbability).toBeCloseTo(0.85 ** 2, 9)
    expect(noted(1).best.minutes).toBeCloseTo(after(torn, input).answer.best.minutes, 9)
  })

  test.each([
    [[done('refit', 'U2')], '$.log[0].refs: found U2, which is still on, expected a part that is off.'],
    [[done('lift', 'U2'), done('lift', 'U2')], '$.log[1].refs: found U2, which is off already'],
    [[done('lift', 'U4')], '$.log[0].refs: found U4, expected a part that is on the lift list'],
    [[{ action: 'lift', refs: ['U2'], outcome: 'maybe' }], '$.log[0].outcome: found "maybe"'],
  ])('a log that cannot be is refused: %#', (log, start) => {
    const answer = replan(input, log)
    const said = answer.ok ? '' : answer.faults.map(sayFault).join('\n')
    expect(said.startsWith(start)).toBe(true)
  })
})

test('what lay under parts becomes marks at their places', () => {
  const log = passLogSchema.parse([
    { ...done('lift', 'U2'), found: [{ ref: 'U2', what: ['wet', 'corroded', 'torn-pad'] }] },
    { ...done('lift', 'U3'), found: [{ ref: 'U3', what: ['clean'] }] },
  ])
  const marks = evidenceFrom(input.model, log)
  expect(marks.map(({ id, kind }) => [id, kind])).toEqual([
    ['under-U2-film', 'film'],
    ['under-U2-corrosion', 'corrosion'],
    ['under-U3-clean', 'clean'],
  ])
  expect(marks[0]?.at).toEqual({ x: 30, y: 50 })
  // A circle of the body's area, 12 × 14 mm = 168 mm² (body of the 180-ball outline).
  expect(Math.PI * (marks[0]?.radiusMm ?? 0) ** 2).toBeCloseTo(168, 9)
})

describe('materials', () => {
  const { best } = planned(input)
  test('balls by count and diameter of the package: two of 180 balls at 0.75 mm pitch', () => {
    expect(best.materials.find(({ what }) => what.startsWith('solder balls 0.45 mm, SAC305'))?.amount).toBe('360')
    expect(best.materials.some(({ what }) => what.startsWith('stencil, pitch 0.75 mm'))).toBe(true)
  })

  test('what bonds an edge-bonded part is parted first', () => {
    expect(best.materials.find(({ what }) => what.startsWith('bond softener'))?.why).toContain('U3')
    const lift = best.steps.find(({ action, refs }) => action === 'lift' && refs.includes('U3'))
    expect(lift?.cautions.some((sentence) => sentence.includes('tears pads'))).toBe(true)
  })

  test('every step says why and defers to local rules', () => {
    for (const { why, cautions } of best.steps) {
      expect(why).toMatch(/^(1\. )?[A-Z].*[.!]$/s)
      expect(cautions.at(-1)).toContain('local rules')
    }
  })
})
