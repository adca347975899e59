/** What to do next, in whole sentences: a check and what either outcome changes, a lift, a repair beside the parts, handing it back. */
import { describe, expect, test } from 'vitest'
import { percent } from '../../src/base/index.ts'
import {
  type AtTheBench,
  type ChecksInput,
  createJudge,
  type Findings,
  plainProposal,
  type RankedCheck,
  type ToldOutcome,
} from '../../src/suspects/index.ts'
import { eastAndWest, failingIn, findingsOf } from './small-board.ts'

const boardWith = (core: boolean) => eastAndWest({ core, corridors: core, commandRegions: core })
const model = boardWith(true)
const judge = createJudge(model)
const UNTOUCHED: AtTheBench = { washed: false, takenUp: false, untested: false, lifted: [], offNow: [] }

const findings = (failing: readonly string[], more: Partial<Findings> = {}): Findings =>
  findingsOf(failingIn(model, failing), more)
const asked = (failing: readonly string[], more: Partial<ChecksInput> = {}): ChecksInput => ({
  findings: findings(failing),
  spills: [],
  places: [],
  told: 8,
  ...more,
})

describe('what either outcome of a check would change', () => {
  const ranked = [asked(['U2.A0']), asked(['U2', 'U3'])].map((input) => ({
    today: judge.judge(input).lift,
    told: judge
      .rankChecks(input)
      .checks.flatMap(({ ifFound, ifNot }) => [ifFound, ifNot].flatMap((each) => each ?? [])),
  }))
  const all = ranked.flatMap(({ told }) => told)
  const named = (verb: string, refs: readonly string[], rest: string): string[] =>
    refs.length === 0 ? [] : [`${verb} ${refs.join(' and ')} ${rest}`]
  const sentenceOf = ({ parts, lift }: ToldOutcome, today: readonly string[]): string => {
    const list = [
      ...named(
        'lift',
        lift.filter((ref) => !today.includes(ref)),
        'too',
      ),
      ...named(
        'drop',
        today.filter((ref) => !lift.includes(ref)),
        'from the list',
      ),
    ].join(' and ')
    const moves = parts.map(({ ref, before, after }) => `${ref} from ${percent(before)} to ${percent(after)}`)
    if (list === '' && moves.length === 0) return 'Hardly anything changes.'
    const many = moves.length > 1 ? `${moves.slice(0, -1).join(', ')} and ${moves.at(-1)}` : moves.join()
    const words = `${list === '' ? 'the list stays' : list}${many === '' ? '' : `: ${many}`}.`
    return words.charAt(0).toUpperCase() + words.slice(1)
  }
  test('is told as the list and the chances that move most', () => {
    expect(all.length).toBeGreaterThan(16)
    for (const { today, told } of ranked)
      for (const outcome of told) expect(outcome.sentence).toBe(sentenceOf(outcome, today))
  })
  test('in each of its forms on these two cards', () => {
    const forms = all.map(({ sentence }) => sentence.replace(/:.*$/, '').replace(/[US]\d/g, 'a part'))
    expect(new Set(forms)).toEqual(
      new Set([
        'Drop a part from the list',
        'The list stays',
        'Hardly anything changes.',
        'Lift a part too and drop a part from the list',
        'Lift a part too',
      ]),
    )
  })
  test('three parts at most, each by a hundredth or more, the furthest first', () => {
    for (const { parts } of all) {
      const moves = parts.map(({ before, after }) => Math.abs(after - before))
      expect(moves.length).toBeLessThanOrEqual(3)
      expect(moves).toEqual(moves.toSorted((a, b) => b - a))
      for (const move of moves) expect(move).toBeGreaterThanOrEqual(0.01)
    }
  })
})

describe('a check is proposed', () => {
  const input = asked(['U2', 'U3'])
  const { checks, now } = judge.rankChecks(input)
  // an hour costs 60: a minute costs 1; what pays saves half as much again as its minutes
  const paying = checks.filter(({ saves = 0, minutes }) => saves > 1.5 * minutes)
  test('where it saves most a minute of all that pay, with what it takes and saves', () => {
    const [best] = paying.toSorted((a, b) => (b.saves ?? 0) / b.minutes - (a.saves ?? 0) / a.minutes)
    if (best === undefined) throw new Error('one pays')
    expect(judge.propose(input)).toEqual({
      action: { kind: 'check', check: best.check, at: best.at },
      expectedCost: expect.closeTo(now.cost - (best.saves ?? 0) + best.minutes, 9),
      because: `It takes ${best.minutes} min and is expected to save about ${Math.round(best.saves ?? 0)}.`,
    })
  })
})

describe('without a check that pays', () => {
  test('a part is lifted', () => {
    const input = asked(['U2.A0'])
    expect(judge.propose(input)).toEqual({
      action: { kind: 'lift', refs: ['U1'] },
      expectedCost: judge.rankChecks(input).now.cost,
      because: 'No check saves more than it costs; a run after it tells whether that was all.',
    })
  })
  test('a card is handed back where a comeback costs nothing in itself', () => {
    const money = { minutesPerComeback: 0, comebackGoodwill: 0 }
    const { action, because } = judge.propose({ ...asked(['U2.A0']), prices: { money } })
    expect([action, because]).toEqual([{ kind: 'hand-back' }, 'No lift pays by what is known.'])
  })
})

test('what is no part is put right first where it alone is likely, with its chance', () => {
  const bare = boardWith(false)
  const without = createJudge({
    ...bare,
    parts: bare.memories,
    rails: bare.rails.map((each) => ({ ...each, stages: [] })),
  })
  const input = { findings: findings(['U2', 'U3']), spills: [], places: [] }
  const { others, now } = without.rankChecks(input)
  expect(others.map(({ name }) => name)).toEqual(['rail VMEM'])
  expect(without.propose(input)).toEqual({
    action: { kind: 'put-right', names: ['rail VMEM'] },
    expectedCost: now.cost,
    because: `Perhaps no part is bad: look at rail VMEM (${percent(others[0]?.probability ?? 0)}) first, put it right and run the test again.`,
  })
  // two places at 10 min each as a rule, and the run of 15 min, at 60 an hour
  expect(now.cost).toBeGreaterThan(35)
})

describe('what is plain without reckoning', () => {
  const round = (failing: readonly string[]) => ({ lifted: ['U2'], lanes: findings(failing).lanes })
  test.each<[string, Findings, string | undefined]>([
    ['a card that never failed is run again', findings([]), 'run-again'],
    ['one that passes after the work goes back', findings(['U2'], { rounds: [round([])] }), 'hand-back'],
    ['one that passed before as well', findings([], { rounds: [round([])] }), 'hand-back'],
    ['one that fails is reckoned', findings(['U2']), undefined],
    ['one that fails after the work too', findings([], { rounds: [round(['U2'])] }), undefined],
  ])('%s', (_, seen, kind) => {
    expect(plainProposal(seen)?.action.kind).toBe(kind)
  })
  test('in words, and as a plan of one step', () => {
    const again = 'No lane fails in this run: let the test run once more, longer, before the card goes back.'
    const back = 'Before it goes back: finish the inspection, read every rail, run it warm and from cold.'
    expect(plainProposal(findings([]))).toEqual({
      action: { kind: 'run-again' },
      expectedCost: undefined,
      because: again,
    })
    expect(judge.proposeRemedies({ findings: findings([]), spills: [] })).toEqual({
      steps: [{ action: 'run-again', refs: [], next: again }],
      expectedCost: 0,
      minutes: 0,
      works: undefined,
      others: [],
    })
    const passed = findings(['U2'], { rounds: [round([])] })
    expect(plainProposal(passed)).toEqual({ action: { kind: 'hand-back' }, expectedCost: 0, because: back })
    expect(judge.proposeRemedies({ findings: passed, spills: [] }).steps).toEqual([
      { action: 'hand-back', refs: [], next: back },
    ])
  })
  test('work that is not tested yet is tested first; what reads short is found before', () => {
    const bench = { ...UNTOUCHED, untested: true }
    expect(judge.proposeRemedies({ findings: findings(['U2']), spills: [], bench })).toMatchObject({
      steps: [
        { action: 'run-again', refs: [], next: 'The work is not tested yet: what comes next depends on this run.' },
      ],
      expectedCost: 0,
    })
    const short = judge.proposeRemedies({
      findings: findings(['U2']),
      spills: [],
      bench: { ...bench, shorted: ['VMEM'] },
    })
    // the price book's 30 min at 60 an hour
    expect(short).toMatchObject({ expectedCost: 30, minutes: 30, works: undefined, others: [] })
    expect(short.steps[1]).toEqual({ action: 'run-again', refs: [], next: 'What comes next depends on this run.' })
  })
})

describe('a plan that begins with a check', () => {
  const input = { findings: findings(['U2', 'U3']), spills: [], bench: UNTOUCHED }
  const ranked = judge.rankChecks({ ...input, places: [], told: 8 })
  const plan = judge.proposeRemedies(input)
  const outcome = (probability: number, sentence: string): ToldOutcome => ({
    probability,
    sentence,
    parts: [],
    lift: [],
  })
  const withCheck = (more: Partial<RankedCheck>) => {
    const [first] = ranked.checks
    if (first === undefined) throw new Error('a check is open')
    const { ifFound: _found, ifNot: _not, ...bare } = first
    const check = { ...bare, at: 'U2', question: 'Is it so?', minutes: 6, saves: 100, ...more }
    return judge.proposeRemedies(input, { ...ranked, checks: [check] })
  }
  test('says what follows from it, and what it adds', () => {
    const found = withCheck({ ifFound: outcome(0.25, 'Lift U2 too.'), ifNot: outcome(0.75, 'The list stays.') })
    expect(found.steps[0]).toEqual({
      action: 'check',
      refs: ['U2'],
      next: 'Is it so? If so (25 %): Lift U2 too. If not (75 %): The list stays.',
    })
    expect(found.steps.slice(1)).toEqual(plan.steps)
    // a minute costs 1: 6 spent, 100 saved
    expect(found.expectedCost).toBeCloseTo(plan.expectedCost - 94, 9)
    expect(found.minutes).toBeCloseTo(plan.minutes + 6, 9)
    expect(found.check).toEqual({ check: ranked.checks[0]?.check, at: 'U2' })
    expect(found.endings?.map(({ money, minutes }) => [money, minutes])).toEqual(
      plan.endings?.map(({ money, minutes }) => [expect.closeTo(money + 6, 9), expect.closeTo(minutes + 6, 9)]),
    )
    expect(found.others.map((other) => other.expectedCost)).toEqual(
      found.others.map((other) => other.expectedCost).toSorted((a, b) => a - b),
    )
    const without = found.others.find(({ name }) => name === 'Start without that check')
    expect(without).toMatchObject({ steps: plan.steps, expectedCost: plan.expectedCost, minutes: plan.minutes })
  })
  test('asks alone where it is not known what follows', () => {
    expect(withCheck({}).steps[0]?.next).toBe('Is it so?')
  })
  test('never costs less than the check itself', () => {
    expect(withCheck({ saves: 1e6 }).expectedCost).toBeCloseTo(6, 9)
  })
  test('is none where its minutes eat what it saves', () => {
    expect(withCheck({ saves: 9 })).toEqual(plan)
  })
})
