/** The rules of the bench on both sides of each limit, and what the plan says of them: common practice, no source, where none is named. */
import { describe, expect, test } from 'vitest'
import {
  type BenchTick,
  changesBetween,
  groupCandidates,
  type Nozzle,
  type PassLog,
  passLogSchema,
  type PlanAnswer,
  type PlanInput,
  type PlanStep,
  type StepAction,
  replan,
  stepActions,
  stepTitle,
} from '../../src/plan/index.ts'
import { substanceOf, unwrap } from '../support/board-fixture.ts'
import { exposureOn, exposuresOf, heatAt, type PlainPart, passesOf, plainBoard, planned } from './plan-fixture.ts'

/** Bodies of 10 × 10 mm, so that two whose middles stand 14 mm apart leave a gap of 4 mm. */
function pairApart(mm: number, more: Partial<PlainPart> = {}): PlanInput {
  const model = plainBoard([
    { ref: 'U2', x: 50, heatCount: 0 },
    { ref: 'U3', x: 50 + mm, heatCount: 0, ...more },
  ])
  return { model, lift: ['U2', 'U3'], exposures: exposuresOf({ U2: {}, U3: {} }), successProbability: 1 }
}
const alone = (model: PlanInput['model'], target: string, more: Partial<PlanInput> = {}): PlanInput => ({
  model,
  lift: [target],
  exposures: exposuresOf({ [target]: {} }),
  successProbability: 1,
  ...more,
})

describe('solvent creeps under what stands within 4 mm', () => {
  const isBackBeforeTheNextComesOff = (input: PlanInput): boolean => {
    const { alternative, best } = planned(input)
    const rhythms = [best, ...(alternative === undefined ? [] : [alternative.plan])].map(({ steps }) =>
      steps.flatMap(({ action }) => (action === 'lift' || action === 'refit' ? [action] : [])).join(' '),
    )
    return rhythms.includes('lift refit lift refit')
  }

  test('at 3.9 mm both come off before either goes back', () => {
    expect(isBackBeforeTheNextComesOff(pairApart(13.9))).toBe(false)
  })
  test('at 4 mm each may go back at once', () => {
    expect(isBackBeforeTheNextComesOff(pairApart(14))).toBe(true)
  })
  test('on the other side of the board nothing creeps', () => {
    expect(isBackBeforeTheNextComesOff(pairApart(13.9, { side: 'bottom' }))).toBe(true)
  })
  test('and across a corner the gap is the straight one: 3 and 3 mm are 4.24 mm', () => {
    const model = plainBoard([
      { ref: 'U2', x: 50, y: 40, heatCount: 0 },
      { ref: 'U3', x: 63, y: 53, heatCount: 0 },
    ])
    expect(isBackBeforeTheNextComesOff({ ...pairApart(20), model })).toBe(true)
  })
})

describe('one nozzle over several parts', () => {
  const inARow = (count: number) =>
    plainBoard(Array.from({ length: count }, (_, i) => ({ ref: `U${i + 2}`, x: 50 + 12 * i, heatCount: 0 })))
  const square = (sizeMm: number): Nozzle => ({ name: `square ${sizeMm}`, shape: 'square', sizeMm })
  const round = (sizeMm: number): Nozzle => ({ name: `round ${sizeMm}`, shape: 'round', sizeMm })
  const refsOf = (count: number, ...nozzles: readonly Nozzle[]) => {
    const model = inARow(count)
    const lift = model.parts.map(({ ref }) => ref)
    return groupCandidates(model, lift, nozzles).map(({ refs }) => refs.join(' '))
  }

  // two bodies reach over 22 × 10 mm; with the rim of 2 mm all around 26 mm square, √(22² + 10²) + 4 = 28.17 mm round
  test.each([
    [square(26), 1],
    [square(25.9), 0],
    [round(28.2), 1],
    [round(28.1), 0],
  ] as const)('%o covers two side by side: %i', (nozzle, count) => {
    expect(refsOf(2, nozzle)).toHaveLength(count)
  })

  test('the smallest that covers them is named, with its middle between them', () => {
    const model = inARow(2)
    const [pair] = groupCandidates(model, ['U3', 'U2'], [square(40), square(26), square(20)])
    expect(pair).toEqual({ refs: ['U2', 'U3'], nozzle: square(26), at: { x: 56, y: 50 } })
  })

  test('four fit at most, pairs come first', () => {
    const all = refsOf(5, square(200))
    expect(all.map((refs) => refs.split(' ').length)).toEqual([
      ...Array.from({ length: 10 }, () => 2),
      ...Array.from({ length: 10 }, () => 3),
      ...Array.from({ length: 5 }, () => 4),
    ])
  })

  test('200 of them at most', () => {
    expect(refsOf(20, square(300))).toHaveLength(200)
  })

  test('parts of both sides are none', () => {
    const model = plainBoard([
      { ref: 'U2', x: 50 },
      { ref: 'U3', x: 62, side: 'bottom' },
    ])
    expect(groupCandidates(model, ['U2', 'U3'], [square(200)])).toEqual([])
  })

  test('that did not work out is told, and one that was solved is not asked for again', () => {
    const input = { ...pairApart(12), nozzles: [square(30)] }
    const said = (more: Partial<PlanInput>) => planned({ ...input, ...more }).notes.join(' ')
    expect(said({ groupsThatFail: [['U3', 'U2']] })).toMatch(/U2 with U3, but no setting of this equipment/)
    expect(said({ groupsThatFail: [['U3', 'U2']] })).not.toMatch(/no heat was solved/)
    expect(said({ groups: [{ refs: ['U3', 'U2'], exposure: exposureOn('U2', {}, 60) }] })).not.toMatch(/One nozzle/)
    expect(said({ nozzles: [square(25)] })).not.toMatch(/One nozzle/)
  })
})

describe('the bake for floor life', () => {
  /** A neighbour over its floor life, whose body gets so hot while U2 is lifted. */
  const bakes = (bodyC: number, more: Partial<PlanInput> = {}): boolean => {
    const model = plainBoard([
      { ref: 'U2', x: 50, heatCount: 0 },
      { ref: 'U3', x: 250, heatCount: 0, moistureLevel: '3' },
    ])
    const exposure = { ...exposureOn('U2', {}), neighbours: [heatAt('U3', 100, bodyC)] }
    return planned(
      alone(model, 'U2', {
        exposures: new Map([['U2', exposure]]),
        floorLife: new Map([['U3', 'over by more or unknown']]),
        ...more,
      }),
    ).best.steps.some(({ action }) => action === 'bake')
  }
  test('is for bodies that pass 200 °C (J-STD-033, by a maker’s rework sheet)', () => {
    expect(bakes(200)).toBe(false)
    expect(bakes(200.1)).toBe(true)
  })
  test('reckons with the refit as well', () => {
    const exposure = { ...exposureOn('U2', {}), neighbours: [heatAt('U3', 100)] }
    const { setting, minutes } = exposure
    const refit = { setting, minutes, neighbours: [heatAt('U3', 150, 205)], short: undefined }
    expect(bakes(100, { exposures: new Map([['U2', { ...exposure, refit }]]) })).toBe(true)
  })
  test('is none for a part that stays off, or that was within it', () => {
    expect(bakes(230, { floorLife: new Map([['U3', 'within']]) })).toBe(false)
  })

  const hoursOf = (part: PlainPart, floorLife: 'over by at most 72 h' | 'over by more or unknown', ovenC: 90 | 125) =>
    planned(
      alone(plainBoard([{ heatCount: 0, ...part }]), part.ref, {
        floorLife: new Map([[part.ref, floorLife]]),
        settings: { heat: { ovenC } },
      }),
    ).best.steps.find(({ action }) => action === 'bake')?.hours

  // J-STD-033, bake tables of the user side (as in tests/heat/standards.test.ts): level 4, up to 4.5 mm 48 h, up to 1.4 mm 11 h at
  // 125 °C; a ball array over 17 × 17 mm 96 h (from memory).
  test.each<[PlainPart, number]>([
    [{ ref: 'U1', x: 60, package: 'core-29', kind: 'core' }, 96],
    [{ ref: 'U1', x: 60, package: 'core-29', body: { widthMm: 17, lengthMm: 40, heightMm: 2.8 }, kind: 'core' }, 48],
    [{ ref: 'U1', x: 60, body: { widthMm: 29, lengthMm: 29, heightMm: 1 }, moistureLevel: '4', kind: 'core' }, 11],
  ])('at 125 °C, over by more: %o takes %i h', (part, hours) => {
    expect(hoursOf(part, 'over by more or unknown', 125)).toBe(hours)
  })
  test('none of level 1, which needs none', () => {
    expect(hoursOf({ ref: 'U2', x: 60, moistureLevel: '1' }, 'over by more or unknown', 125)).toBeUndefined()
  })
  test('the longest of all that is due, and 10 minutes beside the oven', () => {
    // level 3, up to 1.4 mm: 9 h at 125 °C over by more; level 4: 7 h over by less (same table)
    const model = plainBoard([
      { ref: 'U2', x: 50, heatCount: 0, moistureLevel: '3' },
      { ref: 'U3', x: 250, heatCount: 0, moistureLevel: '4' },
    ])
    const { best } = planned({
      ...pairApart(100),
      model,
      floorLife: new Map([
        ['U2', 'over by more or unknown'],
        ['U3', 'over by at most 72 h'],
      ]),
      settings: { heat: { ovenC: 125 } },
    })
    const bake = best.steps.find(({ action }) => action === 'bake')
    expect(bake).toMatchObject({ hours: 9, minutes: 10, refs: ['U2', 'U3'] })
    expect(bake?.why).toMatch(/At 125 °C for 9 h.* U2 and U3 are over floor life .* beyond 200 °C/)
  })
})

describe('a plan tells of neighbours', () => {
  const beside = (part: Partial<PlainPart>, jointC: number): string => {
    const model = plainBoard([
      { ref: 'U2', x: 50, heatCount: 0 },
      { ref: 'U3', x: 250, heatCount: 0, ...part },
    ])
    const exposures = new Map([['U2', { ...exposureOn('U2', {}), neighbours: [heatAt('U3', jointC)] }]])
    return planned(alone(model, 'U2', { exposures })).notes.join(' ')
  }
  // Two melts at 0.012 of a part of price p come to 0.024 · p. Lifting it too: two times 5 or 4 min of handling and the cheaper
  // of making it ready (12 min, 0.5 of paste: 12.5) and a new one (4 min and p): 2 · 4 + 12.5 = 20.5 for any price above 8.5.
  // 0.024 · p > 20.5 from p = 854.2 on.
  test.each([
    [854, false],
    [855, true],
  ] as const)('that are worth %d and melt twice: consider lifting them too: %s', (price, isTold) => {
    expect(/U3 is not on the list, but .* harm worth 20\.5/.test(beside({ price }, 220))).toBe(isTold)
  })
  test('that hang on the other side and melt, not of chips that their joints hold', () => {
    expect(beside({ side: 'bottom' }, 220)).toMatch(/U3 hangs on the other side and may melt/)
    expect(beside({ side: 'bottom' }, 216)).not.toMatch(/hangs/)
    expect(beside({ side: 'top' }, 220)).not.toMatch(/hangs/)
    expect(beside({ side: 'bottom', kind: 'capacitor' }, 220)).not.toMatch(/hangs/)
  })
  test('eight by name, the rest by number', () => {
    const refs = Array.from({ length: 10 }, (_, i) => `U${i + 3}`)
    const model = plainBoard([
      { ref: 'U2', x: 20, heatCount: 0 },
      ...refs.map((ref, i) => ({ ref, x: 50 + 12 * i, side: 'bottom' as const, heatCount: 0 })),
    ])
    const exposures = new Map([['U2', { ...exposureOn('U2', {}), neighbours: refs.map((ref) => heatAt(ref, 220)) }]])
    expect(planned(alone(model, 'U2', { exposures })).notes.join(' ')).toContain(
      'U3, U4, U5, U6, U7, U8, U9, U10 and 2 more hang on the other side',
    )
  })
})

test('of a plan without anything odd it tells one thing: that the risk is a guess', () => {
  const nozzles: Nozzle[] = [{ name: 'small', shape: 'square', sizeMm: 15 }]
  expect(planned({ ...pairApart(40), nozzles }).notes).toEqual([
    'The risk to neighbours is a stated guess: it ranks the orders and is no forecast for one card.',
  ])
})

describe('why a pass stands where it does', () => {
  const whys = (input: PlanInput, ofWhich: 'best' | 'alternative' = 'best'): Record<string, string> => {
    const answer = planned(input)
    const { steps } = ofWhich === 'best' ? answer.best : (answer.alternative?.plan ?? answer.best)
    return Object.fromEntries(steps.map((step) => [`${step.action} ${step.refs.join(' ')}`, step.why]))
  }
  const heated = (jointC: Readonly<Record<string, Readonly<Record<string, number>>>>, mm = 40): PlanInput => ({
    ...pairApart(mm),
    exposures: exposuresOf(jointC),
  })

  test('it spares one that is off, or what would be molten later', () => {
    const told = whys(heated({ U2: { U3: 230 }, U3: { U2: 100 } }))
    expect(told['lift U3']).toBe('Do U3 first: heating U2 would melt it.')
    expect(told['lift U2']).toBe('Now, while U3 is off: this pass would melt its joints.')
  })
  test('heat that does not melt is a reason too', () => {
    expect(whys(heated({ U2: { U3: 205 }, U3: {} }))['lift U2']).toBe(
      'Now, while U3 is off and takes no heat from this pass.',
    )
  })
  test('its site could not be cleaned before', () => {
    expect(whys(pairApart(12))['refit U2']).toBe('Only now: U3 had to be off before this site could be cleaned.')
  })
  test('it is the only one, or any place is as good', () => {
    const { model } = pairApart(40)
    expect(whys(alone(model, 'U2'))).toMatchObject({
      'lift U2': 'It is the only part on the list.',
      'refit U2': 'Its site is clean, and nothing else is off.',
    })
    expect(whys(pairApart(40))).toMatchObject({
      'lift U2': 'Any place among the lifts costs the same: heating it hardly disturbs the others.',
      'refit U3': 'Its site is clean, and no later place would spare it more heat.',
    })
  })
  test('the board is turned over as seldom as can be', () => {
    const model = plainBoard([
      { ref: 'U2', x: 50, heatCount: 0 },
      { ref: 'U3', x: 150, heatCount: 0 },
      { ref: 'U4', x: 250, heatCount: 0, side: 'bottom' },
    ])
    const exposures = new Map([
      ['U2', exposureOn('U2', {})],
      ['U3', exposureOn('U3', {})],
      ['U4', exposureOn('U4', {}, 5, 'bottom')],
    ])
    const whyOf = whys({ ...pairApart(40), model, exposures, lift: ['U2', 'U3', 'U4'] })
    const told = Object.entries(whyOf).flatMap(([pass, why]) => (/^(lift|refit) /.test(pass) ? [why] : []))
    expect(told).toContain('On this side still, so that the board is turned over as seldom as can be.')
    // once it was turned for the last time, that is no reason any more
    const turnedLast = told.findLastIndex((why) => why.startsWith('Turn the board over first.'))
    expect(turnedLast).toBeLessThan(told.length - 1)
    for (const why of told.slice(turnedLast)) expect(why).not.toMatch(/On this side still/)
  })
  test('one nozzle saves a heating', () => {
    const groups = [{ refs: ['U2', 'U3'], exposure: exposureOn('U2', {}, 6) }]
    expect(whys({ ...pairApart(40), groups })['lift U2 U3']).toBe('U2 and U3 share one nozzle, which saves a heating.')
  })
  test('another part first is the other way where no kind of order differs', () => {
    const [first = ''] = passesOf(planned(pairApart(12)))
    const { alternative } = planned(pairApart(12))
    expect(alternative?.differsIn).toBe(`another part first instead of ${first.replace('lift ', '')}`)
    expect(alternative?.costsMore).toBe(0)
  })
})

describe('the other way differs as it says', () => {
  /** `LLRR` for two lifts and two refits. */
  const rhythm = ({ steps }: Pick<PlanAnswer['best'], 'steps'>): string =>
    steps.flatMap(({ action }) => (action === 'lift' ? ['L'] : action === 'refit' ? ['R'] : [])).join('')
  const isOffFirst = (passes: string): boolean => /^L*R*$/.test(passes)
  const isAtOnce = (passes: string): boolean => !passes.includes('LL')
  const inARow = (mm: number, jointC: Readonly<Record<string, Readonly<Record<string, number>>>>): PlanInput => ({
    ...pairApart(mm),
    model: plainBoard(['U2', 'U3', 'U4'].map((ref, i) => ({ ref, x: 50 + mm * i, heatCount: 0 }))),
    lift: Object.keys(jointC),
    exposures: exposuresOf(jointC),
  })
  const hot = { U2: { U3: 220, U4: 200 }, U3: { U2: 220, U4: 220 }, U4: { U3: 220, U2: 200 } }
  const cold = { U2: {}, U3: {}, U4: {} }

  test.each<[string, PlanInput]>([
    ['two that nothing disturbs', pairApart(40)],
    ['two that melt each other', { ...pairApart(40), exposures: exposuresOf({ U2: { U3: 220 }, U3: { U2: 220 } }) }],
    ['two too near for solvent', pairApart(12)],
    ['three that nothing disturbs', inARow(40, cold)],
    ['three that melt each other', inARow(40, hot)],
    ['three of which one melts its neighbours', inARow(40, { ...cold, U3: { U2: 230, U4: 230 } })],
    ['three of which one is melted', inARow(40, { U2: { U3: 230 }, U3: {}, U4: { U3: 230 } })],
  ])('%s', (_, input) => {
    const { best, alternative } = planned(input)
    const [now, other] = [rhythm(best), alternative === undefined ? '' : rhythm(alternative.plan)]
    const said = alternative?.differsIn ?? ''
    const isOpen = input.model.parts[1]?.placement.at.x !== 62
    // each rhythm that the best order has not is another way, and only where there is none another part is first
    if (said.startsWith('everything off first')) expect([isOffFirst(now), isOffFirst(other)]).toEqual([false, true])
    else if (said.startsWith('each part refitted')) expect([isAtOnce(now), isAtOnce(other)]).toEqual([false, true])
    else expect([said.slice(0, 18), isOffFirst(now), isOpen]).toEqual(['another part first', true, false])
  })
})

describe('what has changed is told', () => {
  const input: PlanInput = { ...pairApart(40), settings: { exposure: { meltRisk: 0 } } }
  const after = (log: readonly object[]): readonly string[] => unwrap(replan(input, log)).changes
  const lifted = { action: 'lift', refs: ['U2'], outcome: 'done' }

  test('melts at the end, and when they pass the limit of three', () => {
    const failed = { ...lifted, outcome: 'failed' }
    expect(after([failed])).toEqual(['U2 ends with 4 melts, not 3 as planned, beyond its limit of 3.'])
  })
  test('a part that is used again after all', () => {
    const bad = { ...input, replace: new Set(['U2']) }
    const entries: PassLog = passLogSchema.parse([lifted])
    expect(changesBetween(planned(bad), planned(input), entries)).toContain('U2 can now be used again.')
    expect(changesBetween(planned(input), planned(bad))).toContain('U2 must now be replaced: at the heat limit.')
  })
  test('another order, with what is next', () => {
    const other = { ...input, exposures: exposuresOf({ U2: { U3: 230 }, U3: {} }) }
    const [first] = passesOf(planned(other))
    const said = changesBetween(
      planned({ ...input, exposures: exposuresOf({ U3: { U2: 230 }, U2: {} }) }),
      planned(other),
    )
    expect(said).toContain(`The order of what is left changed; next is: ${first}.`)
  })
  test('passes that are new', () => {
    expect(changesBetween(planned(alone(input.model, 'U2')), planned(input))).toContain(
      'New in the plan: lift U3, refit U3.',
    )
  })
  test('a bake that is due, and one that no longer is', () => {
    const model = plainBoard([{ ref: 'U2', x: 50, heatCount: 0, moistureLevel: '3' }])
    const dry = alone(model, 'U2')
    // J-STD-033: level 3, thin, over by more than 72 h: 33 h at 90 °C
    const moist = { ...dry, floorLife: new Map([['U2', 'over by more or unknown' as const]]) }
    expect(changesBetween(planned(dry), planned(moist))).toEqual(['Bake 33 h before the next heat instead of 0 h.'])
    expect(changesBetween(planned(moist), planned(dry))).toEqual(['Nothing is to be baked any more.'])
  })
  test('whether going on pays', () => {
    const worth = (valueIfRepaired: number) => planned({ ...input, settings: { money: { valueIfRepaired } } })
    expect(changesBetween(worth(2000), worth(10))).toEqual(['Going on no longer pays.'])
    expect(changesBetween(worth(10), worth(2000))).toEqual(['Going on now pays.'])
  })
})

describe('a log counts melts', () => {
  const input: PlanInput = pairApart(40)
  const countsAfter = (log: readonly object[], from: PlanInput = input) => unwrap(replan(from, log)).input.heatCounts
  const lifted = { action: 'lift', refs: ['U2'], outcome: 'done' }

  test('of a part that went back: lift, balls and refit; of a new one its refit alone', () => {
    const refitted = { action: 'refit', refs: ['U2'], outcome: 'done' }
    expect(countsAfter([lifted, refitted])?.get('U2')).toBe(3)
    expect(countsAfter([lifted, { ...refitted, replaced: true }])?.get('U2')).toBe(1)
  })
  // on the safe side: whatever passed what neighbours should stay below, 195 °C of SAC305, counts as molten
  test.each([
    [194.9, undefined],
    [195, 1],
  ])('a neighbour that was measured at %d °C: %s', (peakC, melts) => {
    expect(countsAfter([{ ...lifted, measured: [{ ref: 'U3', peakC }] }])?.get('U3')).toBe(melts)
  })
  test.each([
    [194.9, undefined],
    [195, 1],
  ])('a lift that failed with the joint at %d °C: %s', (peakC, melts) => {
    expect(countsAfter([{ ...lifted, outcome: 'failed', peakC }])?.get('U2')).toBe(melts)
  })
  test('and the lift itself is none that a part has to spare: at two before it, it is used again', () => {
    const worn = { ...input, heatCounts: new Map([['U2', 2]]) }
    const { steps } = unwrap(replan(worn, [lifted])).answer.best
    expect(steps.some(({ action }) => action === 'replace')).toBe(false)
  })
})

describe('what is done is not counted again', () => {
  const input: PlanInput = pairApart(40)
  const log = ['U2', 'U3'].map((ref) => ({ action: 'lift', refs: [ref], outcome: 'done' }))
  const clean: BenchTick = { action: 'clean', refs: ['U2'], outcome: 'done', minutes: 8, afterPasses: 2 }
  const amountOf = (what: string, ticks: BenchTick[] = []): string | undefined =>
    unwrap(replan(input, log, ticks)).answer.best.materials.find((each) => each.what.startsWith(what))?.amount

  test('a site that was cleaned takes no braid and no solvent', () => {
    expect([amountOf('desoldering braid'), amountOf('solvent')]).toEqual(['for 2 sites', 'for 2 sites'])
    expect([amountOf('desoldering braid', [clean]), amountOf('solvent', [clean])]).toEqual(['for 1 site', 'for 1 site'])
  })
  test('passes that are over take no flux', () => {
    expect(amountOf('gel flux')).toBe('2 passes')
  })
  test('a chance that moves by less than is said is no news', () => {
    const torn = { ...input, successProbability: 0.8, settings: { rules: { tornPadFactor: 0.999 } } }
    const found = [{ ref: 'U2', what: ['torn-pad'] }]
    const { changes } = unwrap(replan(torn, [{ ...log[0], found }]))
    expect(changes.filter((each) => each.includes('chance of success'))).toEqual([])
  })
})

describe('each step has its name', () => {
  const NAMES: Readonly<Record<StepAction, readonly [one: string, two: string]>> = {
    'take-up': ['Take up by hand what lies on the card', 'Take up by hand what lies on the card'],
    wash: ['Wash the card', 'Wash the card'],
    dry: ['Dry the card', 'Dry the card'],
    test: ['Test the card again', 'Test the card again'],
    bake: ['Bake the card', 'Bake the card'],
    prepare: ['Prepare the card', 'Prepare the card'],
    unglue: ['Break the glue of U2', 'Break the glue of U2 and U3'],
    lift: ['Lift U2', 'Lift U2 and U3'],
    clean: ['Clean under U2', 'Clean under U2 and U3'],
    reball: ['Reball U2', 'Reball U2 and U3'],
    replace: ['Make ready a new U2', 'Make ready new parts for U2 and U3'],
    refit: ['Refit U2', 'Refit U2 and U3'],
    inspect: ['Inspect U2', 'Inspect U2 and U3'],
  }
  test.each(stepActions)('%s', (action) => {
    expect([stepTitle({ action, refs: ['U2'] }), stepTitle({ action, refs: ['U2', 'U3'] })]).toEqual(NAMES[action])
  })
  test('without parts its name stands alone', () => {
    expect(stepTitle({ action: 'inspect', refs: [] })).toBe('Inspect')
  })
})

describe('cautions stand at the step where it can hurt', () => {
  const wet = [substanceOf('coolant-eg')]
  const metal = [substanceOf('gallium-indium')]
  const model = plainBoard([
    { ref: 'U2', x: 50, heatCount: 3, bonding: 'edge', package: '180-ball' },
    { ref: 'U3', x: 150, heatCount: 0, jointAlloy: 'Sn63Pb37', moistureLevel: '3' },
  ])
  const all = {
    ...pairApart(100),
    model,
    substances: [...wet, ...metal],
    cleanFirst: [...wet, ...metal],
    floorLife: new Map([['U3', 'over by more or unknown' as const]]),
  }
  const dried = planned({ ...all, substances: wet, cleanFirst: wet }).best.steps
  const steps: readonly PlanStep[] = [...planned(all).best.steps, ...dried.filter(({ action }) => action === 'test')]
  const at = (action: StepAction, ref = ''): string =>
    steps
      .filter((step) => step.action === action && (ref === '' || step.refs.includes(ref)))
      .flatMap(({ cautions }) => cautions)
      .join('\n')

  test.each<[StepAction, RegExp]>([
    ['take-up', /Unplug the card/],
    ['take-up', /catches fire/],
    ['take-up', /Static kills/],
    ['wash', /Unplug the card/],
    ['wash', /catches fire/],
    ['wash', /Static kills/],
    ['wash', /poisonous when swallowed/],
    ['dry', /closed oven can explode/],
    ['dry', /not for food/],
    ['test', /before it is dry and every rail was measured cold/],
    ['test', /supply with its limit set low/],
    ['bake', /not for food/],
    ['prepare', /Static kills/],
    ['prepare', /Unplug the card/],
    ['unglue', /burn skin/],
    ['unglue', /gloves/],
    ['unglue', /cut away from your hand/],
    ['lift', /burn skin/],
    ['lift', /extract them at the source/],
    ['clean', /burn skin/],
    ['clean', /catches fire/],
    ['clean', /poisonous when swallowed/],
    ['reball', /burn skin/],
    ['reball', /extract them at the source/],
    ['replace', /Static kills/],
    ['refit', /burn skin/],
    ['refit', /extract them at the source/],
    ['inspect', /Unplug the card/],
    ['inspect', /catches fire/],
    ['inspect', /Measure cold before power/],
    ['inspect', /supply with its limit set low/],
  ])('%s: %s', (action, words) => {
    expect(at(action)).toMatch(words)
  })

  test.each(['lift', 'refit'] as const)(
    '%s on tin-lead says that the joints hold lead, elsewhere that they may',
    (action) => {
      expect(at(action, 'U3')).toMatch(/These joints hold lead/)
      expect(at(action, 'U2')).toMatch(/may hold lead/)
      expect(at(action, 'U2')).not.toMatch(/These joints hold lead/)
    },
  )
  test('a bonded part is not pulled, and what stands wet is not heated', () => {
    expect(at('lift', 'U2')).toMatch(/a bonded part that is pulled tears pads/)
    expect(at('lift', 'U3')).not.toMatch(/bonded part/)
    const found = { action: 'lift', refs: ['U3'], outcome: 'done', found: [{ ref: 'U3', what: ['wet'] }] }
    const [first] = unwrap(replan({ ...all, floorLife: new Map() }, [found])).answer.best.steps
    expect(first?.action).toBe('dry')
    expect(first?.cautions.join(' ')).toMatch(/boils and bursts joints/)
  })
  test('each once, and at last the local rules', () => {
    for (const { cautions } of steps) {
      expect(new Set(cautions).size).toBe(cautions.length)
      expect(cautions.at(-1)).toMatch(/local rules.*qualified/)
    }
  })
})
