/** Two faults on one card: once the one was put right, what still fails points to the other, however often the wrong part is refitted. */
import { describe, expect, it } from 'vitest'
import { createJudge, type LaneState, type Round } from '../../src/suspects/index.ts'
import { shippedBoard } from '../support/read-board.ts'

const REFITS = 3

describe.each([
  ['splice-6', 'S9', ['U11', 'U12', 'U13', 'U15', 'U16']],
  ['hitch-12', 'S10', ['U11', 'U12', 'U13', 'U14', 'U15', 'U16', 'U17']],
  ['bowline-8', 'S9', ['U11', 'U12', 'U13', 'U14']],
])('on %s packages failed, all but U11 pass since %s is new', (name, stage, failed) => {
  const model = shippedBoard(name)
  const judge = createJudge(model)
  const lanes = (refs: readonly string[]) =>
    new Map(model.lanes.map(({ id, part }): [string, LaneState] => [id, refs.includes(part) ? 'fail' : 'pass']))
  const core = model.core?.ref ?? ''

  /** Chances of U11 and of the core once U11 was refitted so many times as a new part and fails as before. */
  function after(refits: number): { readonly own: number; readonly core: number } {
    const still = lanes(['U11'])
    const rounds: Round[] = [
      { lifted: [stage], lanes: still },
      ...Array.from({ length: refits }, () => ({ lifted: ['U11'], lanes: still })),
    ]
    const findings = { lanes: lanes(failed), rounds, signatures: new Map(), spills: [], areas: [], slips: [] }
    const { parts } = judge.judge({ findings: { ...findings, rails: new Map() }, spills: [] })
    const of = (ref: string): number => parts.find((part) => part.ref === ref)?.probability ?? 0
    return { own: of('U11'), core: of(core) }
  }

  const chances = Array.from({ length: REFITS + 1 }, (_, refits) => after(refits))

  it('U11 is the likelier before it was refitted, the core from then on', () => {
    expect(chances[0]?.own).toBeGreaterThan(chances[0]?.core ?? 1)
    for (const { own, core: ofCore } of chances.slice(1)) expect(ofCore).toBeGreaterThan(own)
  })

  it('each refit that changes nothing clears U11 a little more', () => {
    for (const [at, { own }] of chances.slice(1).entries()) expect(own).toBeLessThan((chances[at]?.own ?? 0) + 1e-3)
  })
})
