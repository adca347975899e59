/** A rail that reads short is a fact: it is found before anything is run, lifted or looked at elsewhere. */
import { describe, expect, test } from 'vitest'
import {
  type AtTheBench,
  createJudge,
  type Findings,
  type JudgeInput,
  proposedWords,
} from '../../src/suspects/index.ts'
import { failingIn, findingsOf, rail, smallBoard } from './small-board.ts'

const model = smallBoard({
  memories: [
    { ref: 'U2', at: { x: 76, y: 54 }, lanes: ['A0', 'A1'] },
    { ref: 'U3', at: { x: 74, y: 76 }, lanes: ['A0', 'A1'] },
    { ref: 'U4', at: { x: 24, y: 54 }, lanes: ['A0', 'A1'] },
  ],
  core: true,
  corridors: false,
  commandRegions: false,
  rails: [rail('VMEM', ['U2', 'U3'], ['S1', 'S2'], []), rail('VPP', ['U4'], ['S3'], [])],
  stages: ['S1', 'S2', 'S3'],
})

const BENCH: AtTheBench = { washed: false, takenUp: false, untested: false, lifted: [], offNow: [] }

function input(failing: readonly string[], more: Partial<Findings> = {}, bench: Partial<AtTheBench> = {}): JudgeInput {
  return { findings: findingsOf(failingIn(model, failing), more), spills: [], bench: { ...BENCH, ...bench } }
}

const SHORT = { rails: new Map([['VMEM', 'low' as const]]), shorted: new Set(['VMEM']) }

const ofTheRail = (asked: JudgeInput): number =>
  createJudge(model)
    .judge(asked)
    .stories.filter(({ causes }) =>
      causes.some(({ at, kind }) => at.includes('VMEM') || (kind === 'power-stage' && at !== 'S3')),
    )
    .reduce((sum, { probability }) => sum + probability, 0)

describe('a rail that reads short', () => {
  test('says more than one that reads low, and that more than none', () => {
    const [none, low, short] = [{}, { rails: SHORT.rails }, SHORT].map((more) => ofTheRail(input(['U2'], more)))
    expect(low).toBeGreaterThan(none ?? 1)
    expect(short).toBeGreaterThan(low ?? 1)
    // what shorts it is the rail or its stages, whatever else may have failed one package
    expect(short).toBeGreaterThan(0.9)
  })
  test.each([
    ['where its packages fail', ['U2', 'U3']],
    ['where another one fails', ['U4']],
  ])('is found first %s, and no check comes before it', (_, failing) => {
    const judge = createJudge(model)
    const asked = input(failing, SHORT, { shorted: ['VMEM'] })
    const ranked = judge.rankChecks({ ...asked, places: [] })
    // whatever a check is said to save
    const checks = ranked.checks.map((check) => ({ ...check, saves: 500 }))
    expect(checks.length).toBeGreaterThan(0)
    const proposal = judge.proposeRemedies(asked, { ...ranked, checks })
    const [first] = proposal.steps
    expect(first).toMatchObject({ action: 'find-short', refs: ['rail VMEM'] })
    // common practice, no source: little voltage, limited current, and no power before it reads right
    expect(first?.next).toContain('0.3 V and at most 1 A')
    expect(first?.next).toContain('No power before it reads right again')
    expect(proposal.steps.some(({ action }) => action === 'check')).toBe(false)
  })
  test.each([
    ['nothing fails in a run from before', input([], SHORT, { shorted: ['VMEM', 'VPP'] })],
    ['work was done and not tested', input(['U2'], SHORT, { shorted: ['VMEM', 'VPP'], untested: true })],
  ])('is found before the next run where %s: 30 min a rail', (_, asked) => {
    const { steps, minutes } = createJudge(model).proposeRemedies(asked)
    expect(steps.map(({ action }) => action)).toEqual(['find-short', 'run-again'])
    expect(steps[0]?.refs).toEqual(['rail VMEM', 'rail VPP'])
    // the price book's 30 min for each
    expect(minutes).toBe(60)
  })
  test('counts no more once it reads right again', () => {
    const { steps } = createJudge(model).proposeRemedies(input(['U2', 'U3'], SHORT))
    expect(steps.map(({ action }) => action)).not.toContain('find-short')
  })
})

describe('what no part has is named in the words of the bench', () => {
  test.each([
    ['rail VMEM', 'Find the fault on rail VMEM and repair it'],
    ['the track of U15.A0', 'Find the fault on the track of U15.A0 and repair it'],
    ['east of U1', 'Find the fault on what the slip east of U1 hit and repair it'],
  ])('%s', (place, words) => {
    expect(proposedWords({ action: 'repair-around', refs: [place] })).toBe(words)
  })
})
