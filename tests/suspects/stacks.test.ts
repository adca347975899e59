/** A stack on the core comes off with the core alone: what is told, listed and proposed when it fails. */
import { describe, expect, test } from 'vitest'
import { loadBoard } from '../../src/board/index.ts'
import { defaultEquipment, findSetting } from '../../src/heat/index.ts'
import { planRework } from '../../src/plan/index.ts'
import { createReachEngine, type SpillMark, substances } from '../../src/spill/index.ts'
import {
  createJudge,
  defaultAssumptions,
  type Findings,
  type LaneState,
  liftableParts,
  type SuspectsResult,
} from '../../src/suspects/index.ts'
import { stackedBoard } from '../support/stacked-board.ts'

const model = stackedBoard()

const findings = (fails: (lane: (typeof model.lanes)[number]) => boolean): Findings => ({
  lanes: new Map(model.lanes.map((lane): [string, LaneState] => [lane.id, fails(lane) ? 'fail' : 'pass'])),
  signatures: new Map(),
  spills: [],
  areas: [],
  slips: [],
  rails: new Map(),
})
const judged = (seen: Findings): SuspectsResult => createJudge(model).judge({ findings: seen, spills: [] })
const told = ({ stories }: SuspectsResult, kind: string, at: string): number =>
  stories
    .filter(({ causes }) => causes.length === 1 && causes[0]?.kind === kind && causes[0]?.at === at)
    .reduce((sum, { probability }) => sum + probability, 0)

describe('when every lane of one channel fails', () => {
  const result = judged(findings(({ channel }) => channel === 'CH3'))

  test('a bad channel stands to a bad controller as Bayes’ rule has it', () => {
    // Worked by hand. Both touch the four lanes of CH3 alone, all of which fail, so what passes speaks for neither:
    // P(die of CH3, 4 fail) = share · q⁴ with q = 0.6, P(its controller, 4 fail) = share · 0.75⁴ (leak 0.0005 aside), and
    // odds of being there at all go with the prior over its absence. Controllers: each of 16 channels alone or with the next.
    const { prior, core, fails } = defaultAssumptions
    const ofChannel = (prior.die * core['stack-channel']) / 8
    const ofController = (prior.core * core.controller) / 32
    const stackThere = prior.die + prior.joints * core['stack-joints'] + prior['command-joints'] * core['stack-joints']
    const oddsOfDie = (ofChannel * fails.die ** 4) / (1 - stackThere)
    const oddsOfController = (ofController * fails.core ** 4) / (1 - prior.core)
    const wanted = oddsOfDie / oddsOfController
    const found =
      told(result, 'die', 'channel CH3 in U11') / told(result, 'core', 'the controller of channel CH3 in U1')
    expect(found / wanted).toBeGreaterThan(0.99)
    expect(found / wanted).toBeLessThan(1.01)
  })

  test('the stack is no part to lift; the core is, with what is on it, or nothing', () => {
    expect(liftableParts(model)).not.toContain('U11')
    expect(result.parts.map(({ ref }) => ref)).not.toContain('U11')
    expect(result.lift.every((ref) => ref === 'U1')).toBe(true)
    expect(result.parts[0]?.ref).toBe('U1')
    expect(result.parts[0]?.probability).toBeGreaterThan(0.9)
    expect(result.parts[0]?.why).toContain('U11 fails; it stands on U1 and comes off with it alone.')
  })

  test('what is proposed is a new core or to hand the card back, never the stack', () => {
    const proposal = createJudge(model).proposeRemedies({
      findings: findings(({ channel }) => channel === 'CH3'),
      spills: [],
    })
    const text = JSON.stringify(proposal)
    expect(text).not.toContain('"U11"')
    expect(text).toMatch(/U1\b|return/)
  })
})

test('where a core with stacks is replaced, the sentence says what goes with it', () => {
  const cheap = { money: { priceCore: 1, comebackGoodwill: 1e6 } }
  const seen = findings(({ part }) => part === 'U11')
  const [core] = createJudge(model).judge({ findings: seen, spills: [], prices: cheap }).parts
  expect(core?.remedy.action).toBe('replace')
  expect(core?.remedy.because).toContain('Replace it with the stacks on it: it or one of U11 and U12 is bad')
})

test('a core that was replaced takes the fault of its stack along', () => {
  const before = findings(({ part }) => part === 'U11')
  const passes = new Map(model.lanes.map((lane): [string, LaneState] => [lane.id, 'pass']))
  const round = { lifted: ['U1'], replaced: ['U1'], lanes: passes }
  const after = createJudge(model).judge({ findings: { ...before, rounds: [round] }, spills: [] })
  expect(after.parts.find(({ ref }) => ref === 'U1')?.probability).toBeLessThan(0.05)
})

test('a spill under the core does not get to its stacks', () => {
  const engine = createReachEngine(model, { cellMm: 1 })
  const at = model.partByRef.get('U11')?.placement.at ?? { x: 0, y: 0 }
  const mark: SpillMark = {
    kind: 'spill',
    id: 's',
    side: 'top',
    at: { x: at.x + 12, y: at.y },
    sdMm: 2,
    substance: 'coolant-eg',
    amount: { volumeMl: 1 },
    amountSdLog: 0.3,
    pressed: 'unknown',
    pushMm: 0,
    reachesOtherSide: false,
  }
  const substance = substances.find(({ id }) => id === mark.substance)
  const hypotheses = substance === undefined ? undefined : engine.hypotheses(mark, [], substance, [])
  if (hypotheses === undefined || !hypotheses.ok) throw new Error('the spill could not be computed')
  expect(hypotheses.value.groups.length).toBeGreaterThan(0)
  const reached = new Set(hypotheses.value.groups.flatMap(({ regions }) => [...regions]))
  expect([...reached].map((index) => model.regions[index]?.part)).toEqual([])
})

test('a stack is no target of heat or plan: the core is', () => {
  const wish = { ref: 'U11', equipment: defaultEquipment }
  expect(findSetting(model, wish)).toMatchObject({
    ok: false,
    faults: [{ found: 'U11, which stands on U1', todo: 'Only U1 with all that is on it comes off.' }],
  })
  const plan = planRework({ model, lift: ['U11'], exposures: new Map(), successProbability: 0.5 })
  expect(plan).toMatchObject({ ok: false, faults: [{ todo: 'Lift U1 instead; U11 comes off with it.' }] })
})

test('a stack on a body of its own is lifted like any package', () => {
  const { description } = model
  const alone = loadBoard({
    ...description,
    parts: description.parts.map((part) =>
      part.ref === 'U11' ? { ...part, carriedBy: undefined, at: { x: 20, y: 30 } } : part,
    ),
  })
  if (!alone.ok) throw new Error(JSON.stringify(alone.faults))
  expect(liftableParts(alone.value)).toContain('U11')
  const seen = findings(({ channel }) => channel === 'CH3')
  const cells = {
    kind: 'cells',
    where: 'U11',
    numbers: [],
    stuck: undefined,
    sentence: 'Errors stay within two rows.',
  } as const
  const result = createJudge(alone.value).judge({
    findings: { ...seen, signatures: new Map([['U11', cells]]) },
    spills: [],
  })
  expect(result.parts[0]?.ref).toBe('U11')
  expect(result.lift).toEqual(['U11'])
})
