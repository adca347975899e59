import { fc, test } from '@fast-check/vitest'
import { describe, expect, it } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import type { AreaMark } from '../../src/spill/index.ts'
import {
  type CheckAnswer,
  type CheckInstance,
  checkCatalogue,
  checkInstances,
  createJudge,
  defaultAssumptions,
  type Findings,
  informationOf,
  type JudgeInput,
  type LaneState,
  lookPlaces,
} from '../../src/suspects/index.ts'
import { type Brute, bruteForce, toleranceFor } from './brute-force.ts'
import { type Disc, rail, roundHypotheses, smallBoard, spillMark } from './small-board.ts'

const DISCS: readonly Disc[] = [
  { at: { x: 66, y: 58 }, radiusMm: 12, weight: 3 },
  { at: { x: 60, y: 40 }, radiusMm: 20, weight: 1 },
]

/** Two packages of one lane each: at most four parts can come off, so that the ranking is about all of them. */
function boardOf(rails: boolean): BoardModel {
  return smallBoard({
    memories: [
      { ref: 'U2', at: { x: 76, y: 54 }, lanes: ['A0'] },
      { ref: 'U3', at: { x: 74, y: 72 }, lanes: ['A0'] },
    ],
    core: true,
    corridors: !rails,
    commandRegions: true,
    rails: rails ? [rail('VMEM', ['U2', 'U3'], ['S1'], [{ name: 'A', feeds: ['U3'] }])] : [],
    stages: rails ? ['S1'] : [],
  })
}

const ASSUMPTIONS = { patch: { radiiMm: [9], stepMm: 20 }, prior: { spill: 0.7 } }

interface Drawn {
  readonly rails: boolean
  readonly states: readonly LaneState[]
  readonly spills: number
  readonly unreported: boolean
  readonly done: readonly { readonly pick: number; readonly found: boolean }[]
}

interface Card {
  readonly model: BoardModel
  readonly input: JudgeInput
}

/** A card with these marks and checks; the puddles know the places of all marks and of the further ones. */
function cardOf(
  drawn: Drawn,
  areas: readonly AreaMark[],
  checks: readonly CheckAnswer[],
  further: Findings['areas'],
): Card {
  const model = boardOf(drawn.rails)
  const seen = [...areas, ...further].map(({ at }) => at)
  const spills = Array.from({ length: drawn.spills }, (_, i) => ({
    mark: spillMark(`s${i}`, { x: 66, y: 58 }),
    hypotheses: roundHypotheses(model, DISCS, seen),
  }))
  const findings: Findings = {
    lanes: new Map(model.lanes.map(({ id }, i) => [id, drawn.states[i] ?? 'untested'])),
    signatures: new Map(),
    spills: spills.map(({ mark }) => mark),
    areas,
    slips: [],
    rails: new Map(),
    checks,
  }
  // Rails and an unreported spill together are more worlds than brute force can go through.
  const unreported = drawn.unreported && !drawn.rails ? [roundHypotheses(model, DISCS.slice(1), seen)] : []
  return { model, input: { findings, assumptions: ASSUMPTIONS, spills, unreported } }
}

const drawnCard: fc.Arbitrary<Drawn> = fc.record({
  rails: fc.boolean(),
  states: fc.array(fc.constantFrom<LaneState>('fail', 'fail', 'pass', 'untested'), { minLength: 2, maxLength: 2 }),
  spills: fc.constantFrom(0, 1),
  unreported: fc.boolean(),
  done: fc.array(fc.record({ pick: fc.nat(1000), found: fc.boolean() }), { maxLength: 2 }),
})

/** Some of the board's checks as done before. */
function withDone(drawn: Drawn): Card {
  const bare = cardOf(drawn, [], [], [])
  const own = checkInstances(bare.model, bare.input.findings, []).instances.filter(
    ({ check }) => check.evidence === 'check',
  )
  const checks = drawn.done.flatMap(({ pick, found }): CheckAnswer[] => {
    const instance = own[pick % Math.max(1, own.length)]
    return instance === undefined ? [] : [{ check: instance.check.id, at: instance.at, found }]
  })
  return cardOf(drawn, [], checks, [])
}

function ranked(drawn: Drawn, { model, input }: Card) {
  const places = lookPlaces(model, input.findings)
  const further = cardOf(
    drawn,
    input.findings.areas,
    input.findings.checks ?? [],
    places.map(({ mark }) => mark),
  )
  const { instances } = checkInstances(model, input.findings, places)
  const { rails, stages = new Map() } = input.findings
  const findings = { ...further.input.findings, rails, stages }
  return { ...createJudge(model).rankChecks({ ...further.input, findings, places, told: 400 }), instances, places }
}

/** The card after the check came out, entered as anybody would enter it. */
function after(drawn: Drawn, { input }: Card, { check, at, look }: CheckInstance, found: boolean): Card {
  const { areas, checks = [] } = input.findings
  if (look !== undefined) {
    const mark: AreaMark = { ...look.mark, kind: found ? 'residue' : 'clean' }
    return cardOf(drawn, [...areas, mark], checks, [])
  }
  if (check.evidence === 'check') return cardOf(drawn, areas, [...checks, { check: check.id, at, found }], [])
  const card = cardOf(drawn, areas, checks, [])
  const measured = new Map([[at, found ? ('low' as const) : ('fine' as const)]])
  const more = check.evidence === 'stage' ? { stages: measured } : { rails: measured }
  return { ...card, input: { ...card.input, findings: { ...card.input.findings, ...more } } }
}

const RUNS = { numRuns: 12, seed: 20_260_402 }

describe('checks that were done', () => {
  test.prop([drawnCard], RUNS)('weigh as every set of causes times every place says, to 1e-9', (drawn) => {
    const { model, input } = withDone(drawn)
    const result = createJudge(model).judge(input)
    const brute = bruteForce(model, input)
    for (const { ref, probability } of result.parts) {
      expect(Math.abs(probability - (brute.lift.get(ref) ?? 0))).toBeLessThan(toleranceFor(model))
    }
    for (const { causes, probability } of result.stories) {
      const key = causes.map(({ kind, at }) => `${kind} ${at}`).toSorted()
      expect(Math.abs(probability - (brute.stories.get(key.join(' + ')) ?? 0))).toBeLessThan(toleranceFor(model))
    }
  })

  it('stand among the reasons, in the words of the catalogue', () => {
    const drawn: Drawn = { rails: true, states: ['fail', 'pass'], spills: 0, unreported: false, done: [] }
    const { model, input } = cardOf(drawn, [], [{ check: 'press', at: 'U2', found: true }], [])
    const part = createJudge(model)
      .judge(input)
      .parts.find(({ ref }) => ref === 'U2')
    expect(part?.why).toContain('Pressed gently, U2 changed its errors.')
  })

  it('count as they came out last', () => {
    const drawn: Drawn = { rails: true, states: ['fail', 'pass'], spills: 0, unreported: false, done: [] }
    const answer = (found: boolean): CheckAnswer => ({ check: 'press', at: 'U2', found })
    const twice = cardOf(drawn, [], [answer(true), answer(false)], [])
    const once = cardOf(drawn, [], [answer(false)], [])
    expect(createJudge(twice.model).judge(twice.input).parts).toEqual(createJudge(once.model).judge(once.input).parts)
  })

  it('say nothing where the board knows neither check nor place', () => {
    const drawn: Drawn = { rails: false, states: ['fail', 'pass'], spills: 1, unreported: false, done: [] }
    const strange = cardOf(
      drawn,
      [],
      [
        { check: 'no-such', at: 'U2', found: true },
        { check: 'press', at: 'U99', found: true },
      ],
      [],
    )
    const plain = cardOf(drawn, [], [], [])
    const [a, b] = [strange, plain].map((card) => createJudge(card.model).judge(card.input).parts)
    for (const [i, part] of (a ?? []).entries()) expect(part.probability).toBeCloseTo(b?.[i]?.probability ?? -1, 12)
  })
})

describe('the ranking against every set of causes times every place', () => {
  /** P(set of parts, outcome): both outcomes entered as evidence; `clean` leaves as much undecided as the model says. */
  function bruteBits(now: Brute, drawn: Drawn, card: Card, instance: CheckInstance): number {
    const brute = (found: boolean) => {
      const { model, input } = after(drawn, card, instance, found)
      return bruteForce(model, input, false)
    }
    const found = brute(true)
    const not = brute(false)
    const cleanShare = instance.look === undefined ? 1 : 1 - defaultAssumptions.evidence.residueElsewhere
    const joint = [...now.needs].flatMap(([key, weight]) => {
      const yes = found.needs.get(key) ?? 0
      const no = cleanShare * (not.needs.get(key) ?? 0)
      const open = weight - yes - no
      return [yes, no, open > now.evidence * 1e-13 ? open : 0]
    })
    return informationOf(Float64Array.from(joint), 3).information
  }

  test.prop([drawnCard, fc.array(fc.nat(1000), { minLength: 3, maxLength: 3 })], { numRuns: 6, seed: 77 })(
    'gives the same bits, to 1e-9',
    (drawn, picks) => {
      const card = withDone(drawn)
      const { checks, instances, about } = ranked(drawn, card)
      expect(about.length).toBeLessThanOrEqual(4)
      const now = bruteForce(card.model, card.input, false)
      for (const pick of picks) {
        const instance = instances[pick % instances.length]
        if (instance === undefined) continue
        const bits = checks.find(({ check, at }) => check === instance.check.id && at === instance.at)?.bits ?? 0
        expect(Math.abs(bits - bruteBits(now, drawn, card, instance))).toBeLessThan(10 * toleranceFor(card.model))
      }
    },
  )

  test.prop([drawnCard, fc.nat(1000), fc.boolean()], { numRuns: 20, seed: 78 })(
    'foretells what the judge says once the outcome is entered, and what to lift then',
    (drawn, pick, found) => {
      const card = withDone(drawn)
      const { checks, instances } = ranked(drawn, card)
      const check = checks[pick % Math.max(1, checks.length)]
      const instance = instances.find((each) => each.check.id === check?.check && each.at === check.at)
      if (check === undefined || instance === undefined) return
      const told = found ? check.ifFound : check.ifNot
      const { model, input } = after(drawn, card, instance, found)
      const result = createJudge(model).judge(input)
      for (const { ref, after: foretold } of told?.parts ?? []) {
        expect(result.parts.find((part) => part.ref === ref)?.probability).toBeCloseTo(foretold, drawn.rails ? 3 : 8)
      }
      expect([...(told?.lift ?? [])].toSorted()).toEqual([...result.lift].toSorted())
    },
  )
})

describe('laws of the ranking', () => {
  test.prop([drawnCard], { numRuns: 15, seed: 79 })(
    'no check tells a negative amount, nor more than the decision holds; the best comes first',
    (drawn) => {
      const { checks, decisionBits } = ranked(drawn, withDone(drawn))
      for (const { bits, finds, saves, minutes, bitsPerMinute } of checks) {
        expect(bits).toBeGreaterThan(0)
        expect(bits).toBeLessThanOrEqual(decisionBits + 1e-9)
        expect(finds).toBeGreaterThanOrEqual(0)
        expect(finds).toBeLessThanOrEqual(1)
        expect(saves).toBeGreaterThanOrEqual(0)
        expect(bitsPerMinute).toBeCloseTo(bits / minutes, 12)
      }
      const order = checks.map(({ saves = 0, minutes }) => saves / minutes)
      expect(order).toEqual(order.toSorted((a, b) => b - a))
    },
  )

  test.prop([drawnCard, fc.nat(1000), fc.boolean()], { numRuns: 12, seed: 80 })(
    'what was done is not asked again',
    (drawn, pick, found) => {
      const card = withDone(drawn)
      const { checks, instances } = ranked(drawn, card)
      const first = checks[pick % Math.max(1, checks.length)]
      const instance = instances.find(({ check, at }) => check.id === first?.check && at === first.at)
      if (first === undefined || instance === undefined) return
      const then = ranked(drawn, after(drawn, card, instance, found))
      expect(then.checks.some(({ check, at }) => check === first.check && at === first.at)).toBe(false)
    },
  )

  it('a check that touches nothing tells nothing and is not listed', () => {
    const drawn: Drawn = { rails: true, states: ['fail', 'fail'], spills: 0, unreported: false, done: [] }
    const { checks, instances } = ranked(drawn, cardOf(drawn, [], [], []))
    // No spill is thought of, so that nothing could have been left behind on the board.
    expect(instances.some(({ check }) => check.id === 'edge-look')).toBe(true)
    expect(checks.some(({ check }) => check === 'edge-look' || check === 'dye-light')).toBe(false)
  })
})

describe('the catalogue', () => {
  it.each(checkCatalogue.map((entry) => [entry.id, entry] as const))(
    '%s asks, tells both outcomes and says why',
    (_, entry) => {
      expect(entry.question).toMatch(/\?$/)
      for (const words of [entry.question, entry.found, entry.notFound]) expect(words).toContain('{at}')
      expect(entry.source).toBe('common practice, no source')
    },
  )

  it('warns wherever the card is powered or something can be looked into', () => {
    const powered = checkCatalogue.filter(({ question }) => /tested|load|supply|clock/.test(question))
    expect(powered.length).toBeGreaterThan(4)
    for (const { caution } of powered) expect(caution).toBeDefined()
  })
})
