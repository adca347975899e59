/** What lies on the table and why, line by line; prices are those of the price book. */
import { describe, expect, test } from 'vitest'
import { type PlanInput, replan } from '../../src/plan/index.ts'
import { stackedBoard } from '../support/stacked-board.ts'
import { unwrap } from '../support/board-fixture.ts'
import { exposureOn, exposuresOf, type PlainPart, plainBoard, planned } from './plan-fixture.ts'

function liftAll(parts: readonly PlainPart[], more: Partial<PlanInput> = {}): PlanInput {
  const lift = parts.map(({ ref }) => ref)
  const exposures = exposuresOf(Object.fromEntries(lift.map((ref) => [ref, {}])))
  return { model: plainBoard(parts), lift, exposures, successProbability: 1, ...more }
}
const said = ({ materials }: { readonly materials: ReturnType<typeof planned>['best']['materials'] }): string[] =>
  materials.map(({ what, amount, why, cost }) => `${what} | ${amount} | ${why} | ${Number(cost.toFixed(6))}`)
const tableOf = (input: PlanInput): string[] => said(planned(input).best)
const lineOf = (input: PlanInput, start: string): string[] => tableOf(input).filter((line) => line.startsWith(start))

const MEMORY: PlainPart = { ref: 'U2', x: 50, heatCount: 0, package: '180-ball' }
const STAGE: PlainPart = { ref: 'Q1', x: 150, heatCount: 0, kind: 'power-stage' }

describe('on the table lies', () => {
  // 180 balls at 4 a thousand: 0.72; two passes at 0.8; braid 0.7 and solvent 0.5 a site
  test('for memory that is put on new balls', () => {
    expect(tableOf(liftAll([MEMORY]))).toEqual([
      'solder balls 0.45 mm, SAC305 (taken for granted; the board file gives none) | 180 | For U2, by the ball grid of the package. | 0.72',
      'stencil, pitch 0.75 mm, for 0.45 mm balls | 1 | To set the balls of U2; it is used again, so no cost is counted. | 0',
      'gel flux | 2 passes | Every lift and refit needs flux under the part. | 1.6',
      'desoldering braid | for 1 site | Old solder comes off the pads before the refit. | 0.7',
      'solvent and lint-free cloth | for 1 site | Flux and residue come off the site and from under the rim. | 0.5',
    ])
  })
  test('one line for what takes the same balls, another for another alloy', () => {
    const bismuth = { ...MEMORY, ref: 'U4', x: 150, jointAlloy: 'Bi58Sn42' }
    const balls = lineOf(liftAll([MEMORY, { ...MEMORY, ref: 'U3', x: 100 }, bismuth]), 'solder balls')
    expect(balls).toEqual([
      'solder balls 0.45 mm, SAC305 (taken for granted; the board file gives none) | 360 | For U2 and U3, by the ball grid of the package. | 1.44',
      'solder balls 0.45 mm, Bi58Sn42 | 180 | For U4, by the ball grid of the package. | 0.72',
    ])
  })
  test('paste for what has no ball grid', () => {
    expect(lineOf(liftAll([STAGE]), 'solder paste')).toEqual([
      'solder paste, SAC305 (taken for granted; the board file gives none) | for 1 part | For Q1, which has no known ball grid. | 0.5',
    ])
    const both = liftAll([
      { ...STAGE, jointAlloy: 'SAC305' },
      { ...STAGE, ref: 'Q2', x: 250, jointAlloy: 'SAC305' },
    ])
    expect(lineOf(both, 'solder paste')).toEqual([
      'solder paste, SAC305 | for 2 parts | For Q1 and Q2, which have no known ball grid. | 1',
    ])
  })
  test.each<[string, PlainPart, Partial<PlanInput>, string]>([
    [
      'memory that may be bad',
      MEMORY,
      { replace: new Set(['U2']) },
      'new part for U2: 180-ball, with balls | 1 | U2 may be bad itself; SAC305 (taken for granted; the board file gives none) joints. | 15',
    ],
    [
      'memory of no known package that is worn',
      { ref: 'U2', x: 50, heatCount: 3, jointAlloy: 'SAC305' },
      {},
      'new part for U2: memory | 1 | U2 is at its heat limit and is not used again; SAC305 joints. | 15',
    ],
    [
      'a power stage',
      { ...STAGE, jointAlloy: 'SAC305' },
      { replace: new Set(['Q1']) },
      'new part for Q1: power stage | 1 | Q1 may be bad itself; SAC305 joints. | 4',
    ],
  ])('in place of %s a new one', (_, part, more, line) => {
    expect(lineOf(liftAll([part], more), 'new part')).toEqual([line])
  })
  test('in place of a core a new one with its stacks', () => {
    const line = lineOf(
      {
        model: stackedBoard(),
        lift: ['U1'],
        exposures: exposuresOf({ U1: {} }),
        successProbability: 1,
        replace: new Set(['U1']),
      },
      'new part',
    )
    expect(line).toEqual([
      expect.stringMatching(
        /^new part for U1: .+, with balls and with U11 and U12 on it \| 1 \| U1 or a stack on it may be bad; .+ joints\. \| \d+$/,
      ),
    ])
  })
  test('a cover at each pass that stands beside it, each named once, by number', () => {
    const shields = ['U10', 'U4'].map((ref) => ({ ref, kind: 'tape' as const }))
    const exposure = exposureOn('U2', {})
    const input = liftAll([MEMORY, { ...MEMORY, ref: 'U4', x: 100 }, { ...MEMORY, ref: 'U10', x: 150 }])
    const covered = { ...exposure, setting: { ...exposure.setting, shields } }
    // two covers at two passes, 0.3 each
    expect(lineOf({ ...input, lift: ['U2'], exposures: new Map([['U2', covered]]) }, 'heat-proof')).toEqual([
      'heat-proof tape or clip-on heat sinks | 4 covers | For U4 and U10, at each pass nearby. | 1.2',
    ])
  })
  test('what parts glue, for each part that is glued and still on', () => {
    const glued = liftAll([
      { ...MEMORY, bonding: 'edge' },
      { ...MEMORY, ref: 'U3', x: 100, bonding: 'underfill' },
      { ...MEMORY, ref: 'U4', x: 150 },
    ])
    expect(lineOf(glued, 'bond softener')).toEqual([
      'bond softener and thin blades | for 2 parts | U2 and U3 are glued to the board. | 4',
    ])
    const { best } = unwrap(replan(glued, [{ action: 'lift', refs: ['U2'], outcome: 'done' }])).answer
    expect(said(best).filter((line) => line.startsWith('bond softener'))).toEqual([
      'bond softener and thin blades | for 1 part | U3 is glued to the board. | 2',
    ])
  })
})

describe('nothing is laid out for what is over', () => {
  test('all refitted: nothing at all', () => {
    const log = (['lift', 'refit'] as const).map((action) => ({ action, refs: ['U2'], outcome: 'done' }))
    expect(said(unwrap(replan(liftAll([MEMORY]), log)).answer.best)).toEqual([])
  })
  test('one of two refitted: balls, braid and solvent for the other alone', () => {
    const log = (['lift', 'refit'] as const).map((action) => ({ action, refs: ['U2'], outcome: 'done' }))
    const { best } = unwrap(replan(liftAll([MEMORY, { ...MEMORY, ref: 'U3', x: 150 }]), log)).answer
    expect(said(best).map((line) => line.split(' | ').slice(0, 2).join(': '))).toEqual([
      'solder balls 0.45 mm, SAC305 (taken for granted; the board file gives none): 180',
      'stencil, pitch 0.75 mm, for 0.45 mm balls: 1',
      'gel flux: 2 passes',
      'desoldering braid: for 1 site',
      'solvent and lint-free cloth: for 1 site',
    ])
  })
})
