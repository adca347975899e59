/** What is offered on a card by hand, what each action tells and costs, and why some are refused. */
import { describe, expect, it } from 'vitest'
import { type PracticeAction, pricesOf, type SimulatedCard } from '../../src/rehearsal/index.ts'
import { damage, lanes, model, reading } from './hand-card.ts'
import { practise, REPAIRED, viewOf } from './practice-support.ts'

const { liftCost } = pricesOf(model)
const slips = [{ kind: 'slip', id: 's1', side: 'top', at: { x: 1, y: 1 }, radiusMm: 1 }] as const
const report = {
  kind: 'table',
  layout: 'table by hand',
  rows: [...lanes('U2.A0')].map(([lane, state]) => ({ lane, errors: state === 'fail' ? 3 : 0 })),
} as const
const RUN: PracticeAction = { kind: 'run' }
const lift = (ref: string): PracticeAction => ({ kind: 'lift', ref })
const check = (id: string, at: string): PracticeAction => ({ kind: 'check', check: id, at })
const mend = (name: string): PracticeAction => ({ kind: 'put-right', name })

describe('what is offered', () => {
  it('to put right: each rail, each marked slip, and the tracks of lanes that fail', async () => {
    const { offers } = await viewOf({ seen: { report, slips } })
    const caution = 'Supply unplugged, capacitors discharged. Hot tool and flux fume: extraction and eye protection.'
    const offered = (name: string, words: string, refs: string[], own: string[]) => ({
      group: 'put-right',
      what: 'put-right',
      action: mend(name),
      at: name,
      words,
      caution,
      refs,
      lanes: own,
      minutes: 10,
      money: 10,
      refused: undefined,
    })
    expect(offers.filter(({ what }) => what === 'put-right')).toEqual([
      offered('rail VMEM', 'Go into rail VMEM and its small parts, and mend it.', ['S1'], []),
      offered('slip s1', 'Mend what the slipped tool hit.', [], []),
      offered('U2.A0', 'Mend the track and the series parts of lane U2.A0.', ['U2'], ['U2.A0']),
    ])
  })

  it('to run and to lift, with words, caution and price', async () => {
    const { offers } = await viewOf({})
    expect(offers.filter(({ what }) => what === 'run')).toEqual([
      {
        group: 'run',
        what: 'run',
        action: RUN,
        at: '',
        words: 'Run the memory test on the card as it is now.',
        caution: 'The card is powered and loaded for long: cooler on, somebody beside it. Smell or smoke: off.',
        refs: [],
        lanes: [],
        minutes: 15,
        money: 15,
        refused: undefined,
      },
    ])
    const lifts = offers.filter(({ what }) => what === 'lift')
    expect(lifts.map(({ at }) => at)).toEqual(['U1', 'U2', 'U3', 'S1'])
    expect(lifts[1]).toEqual({
      group: 'lift',
      what: 'lift',
      action: lift('U2'),
      at: 'U2',
      words: 'Take U2 off, look under it, put right what is wrong there, and refit it.',
      caution:
        'Hot air and molten solder burn, flux fume harms the lungs, old joints may hold lead: extraction, eye protection, somebody qualified.',
      refs: ['U2'],
      lanes: [],
      // off 12 + 5; site 6 + 1.5 · 1.68, balls 12 + 3.6, on 12 + 5, look over 15
      minutes: expect.closeTo(17 + 8.52 + 15.6 + 17 + 15, 9),
      money: liftCost('U2'),
      refused: undefined,
    })
  })

  it('to check: readings to measure, looks to look, the rest to try', async () => {
    const { offers } = await viewOf({ seen: { report } })
    const groups = new Map(offers.map(({ what, group }) => [what, group]))
    expect(Object.fromEntries(groups)).toMatchObject({
      'rail-cold': 'measure',
      'edge-look': 'look',
      'under-look': 'look',
      'x-ray': 'look',
      press: 'try',
      'warm-cool': 'try',
    })
    const press = offers.find(({ what, at }) => what === 'press' && at === 'U2')
    expect(press).toMatchObject({
      words: 'Pressed gently while it is tested, does U2 change its errors?',
      minutes: 12,
      money: 12,
    })
  })
})

describe('what is refused, and why', () => {
  it.each<[string, readonly PracticeAction[], PracticeAction, string | undefined]>([
    ['a check at a place that is none', [], check('press', 'U9'), 'On this card there is no such check at U9.'],
    ['a check that is none', [], check('none', 'U2'), 'On this card there is no such check at U2.'],
    [
      'a check that was just made',
      [check('press', 'U2')],
      check('press', 'U2'),
      'Nothing was worked on since: it would tell the same.',
    ],
    ['not the same check elsewhere', [check('press', 'U2')], check('press', 'U1'), undefined],
    ['not another check there', [check('press', 'U2')], check('warm-cool', 'U2'), undefined],
    ['not the same one after a lift', [check('press', 'U2'), lift('U3')], check('press', 'U2'), undefined],
    ['nor after something was put right', [check('press', 'U2'), mend('rail VMEM')], check('press', 'U2'), undefined],
    ['what is no part that is lifted', [], lift('C1'), 'C1 is no part that is lifted.'],
    ['a part that was off', [lift('U2')], lift('U2'), 'U2 was off and put right.'],
    ['a rail that is none', [], mend('rail VPP'), 'There is no rail VPP on this card.'],
    ['a slip that is none', [], mend('slip s2'), 'There is no slip s2 on this card.'],
    ['a rail that was gone into', [mend('rail VMEM')], mend('rail VMEM'), 'rail VMEM was gone into and put right.'],
    ['not the first run', [], RUN, undefined],
    ['a second run', [RUN], RUN, 'Nothing was worked on since the last run: it would come out the same.'],
    ['not a run after work', [RUN, lift('U2')], RUN, undefined],
    ['anything once it was handed back', [REPAIRED], { kind: 'ask' }, 'The card was handed back.'],
  ])('%s', async (_, before, action, why) => {
    const practice = await practise({ seen: { report } })
    const after = practice.view([...before, action])
    expect([after.log.length, after.passedOver]).toEqual(
      why === undefined ? [before.length + 1, 0] : [before.length, 1],
    )
    const offer = practice.view(before).offers.find((each) => JSON.stringify(each.action) === JSON.stringify(action))
    if (offer !== undefined) expect(offer.refused).toBe(why)
  })

  it('a look at an edge that somebody has marked, and a line that was measured, until something was worked on', async () => {
    const at = 'the south edge of U1'
    const areas = [{ kind: 'clean', id: 'look-U1-south', side: 'top', at: { x: 60, y: 24.7 }, radiusMm: 1.5 }] as const
    const practice = await practise({ seen: { report, areas, measurements: [reading('VMEM', 60)] } })
    const refused = (before: readonly PracticeAction[], what: string, place: string) =>
      practice.view(before).offers.find((each) => each.what === what && each.at === place)?.refused
    expect(refused([], 'edge-look', at)).toBe('Somebody has looked there; the map shows it.')
    expect(refused([lift('U3')], 'edge-look', at)).toBe('Somebody has looked there; the map shows it.')
    expect(refused([], 'edge-look', 'the east edge of U1')).toBeUndefined()
    expect(refused([], 'rail-cold', 'VMEM')).toBe('It was measured before.')
    expect(refused([lift('U3')], 'rail-cold', 'VMEM')).toBeUndefined()
  })

  it('power on a rail that reads short, until something was worked on', async () => {
    const practice = await practise({ seen: { report, measurements: [reading('VMEM', 0.2)] } })
    const powered = (before: readonly PracticeAction[]) =>
      practice
        .view(before)
        .offers.flatMap(({ what, at, refused }) =>
          what === 'run' || (what === 'press' && at === 'U2') ? [refused] : [],
        )
    const [press, run] = powered([])
    expect(press).toBe(run)
    expect(run).toMatch(
      /^Not safe to power: Rail VMEM.* Power on a shorted rail burns copper and can start a fire\. Put it right first\.$/,
    )
    expect(powered([lift('U3')])).toEqual([undefined, undefined])
    expect(powered([mend('rail VMEM')])).toEqual([undefined, undefined])
    expect(practice.view([]).offers.find(({ what }) => what === 'under-look')?.refused).toBeUndefined()
  })
})

describe('what an action tells', () => {
  const wet = ['U2/A0', 'U2/CK']
  const change: Partial<SimulatedCard> = {
    outcomeOf: (id) => id !== 'warm-cool',
    lift: (refs) => refs.map((ref) => ({ ref, atFault: false, wet: ref === 'U2' ? wet : [], kinds: [] })),
    measure: ({ kind, name }) => [reading(name, 60, kind === 'rail' ? 'rail' : 'stage')],
    retest: (off, mended) =>
      lanes(...(off.length > 0 || mended !== undefined ? ['U3.B1'] : ['U2.A0', 'U3.A0', 'U3.B1'])),
  }
  const logOf = async (...actions: PracticeAction[]) => (await viewOf({ seen: { report, slips }, change }, actions)).log
  const told = async (...actions: PracticeAction[]) => (await logOf(...actions)).at(-1)?.outcome

  it.each<[PracticeAction, readonly string[]]>([
    [check('press', 'U2'), ['Pressed gently, U2 changed its errors.']],
    [check('edge-look', 'the south edge of U1'), ['Residue was seen at the south edge of U1.']],
    [check('rail-cold', 'VMEM'), ['Rail VMEM: 60 Ω, in range.']],
    [
      lift('U2'),
      [
        'Something had got under U2: at A0 and CK.',
        'U2 was cleaned and reballed, or replaced where that was needed, and went on again.',
      ],
    ],
    [
      lift('U1'),
      [
        'Nothing lay between U1 and the board.',
        'U1 was cleaned and reballed, or replaced where that was needed, and went on again.',
      ],
    ],
    [lift('S1'), ['S1 was replaced.']],
    [mend('slip s1'), ['Gone into and put right as far as it could be seen. A run of the test will tell.']],
    [RUN, ['3 of 8 lanes fail, at U2 and U3.', 'No package passes whole.']],
    [{ kind: 'ask' }, []],
    [REPAIRED, []],
  ])('%o', async (action, outcome) => {
    expect(await told(action)).toEqual(outcome)
  })

  it('a run after work tells of what is left', async () => {
    expect(await told(lift('U2'), RUN)).toEqual(['1 of 8 lanes fail, at U3.', '1 package passes whole.'])
    expect(await told(mend('U2.A0'), RUN)).toEqual(['1 of 8 lanes fail, at U3.', '1 package passes whole.'])
    const passing = await viewOf({ change: { retest: () => lanes() } }, [RUN])
    expect(passing.log[0]?.outcome).toEqual(['Every lane passes.'])
  })

  it('adds minutes and money of all that was done, and marks what was seen', async () => {
    const look = check('edge-look', 'the south edge of U1')
    const view = await viewOf({ seen: { report }, change }, [
      look,
      check('press', 'U2'),
      lift('U2'),
      mend('rail VMEM'),
      RUN,
    ])
    // 1 + 2, 8 + 4, the lift, 10, 15
    expect(view.minutes).toBeCloseTo(3 + 12 + 73.12 + 10 + 15, 9)
    expect(view.money).toBeCloseTo(3 + 12 + liftCost('U2') + 10 + 15, 9)
    expect(view.marks.map(({ kind, id }) => `${kind} ${id}`)).toEqual([
      'residue look-U1-south',
      'film under-U2/A0',
      'film under-U2/CK',
    ])
    expect(view).toMatchObject({ lifted: ['U2'], untested: false, passedOver: 0, handedBack: undefined })
  })
})

describe('what the card is asked', () => {
  it('hangs on what came off and which rails were gone into, once something was worked on', async () => {
    const asked: unknown[] = []
    const change: Partial<SimulatedCard> = {
      outcomeOf: (...args) => {
        asked.push(args)
        return false
      },
      retest: (...args) => {
        asked.push(args)
        return lanes()
      },
      measure: (...args) => {
        asked.push(args)
        return []
      },
    }
    const press = check('press', 'U2')
    await viewOf({ seen: { report, slips }, change, damages: [damage({})] }, [
      press,
      RUN,
      check('rail-cold', 'VMEM'),
      mend('rail VMEM'),
      mend('slip s1'),
      lift('U3'),
      press,
      RUN,
    ])
    expect(asked).toEqual([
      ['press', 'U2', [], undefined],
      [[], undefined],
      [{ kind: 'rail', name: 'VMEM' }, [], undefined],
      ['press', 'U2', ['U3'], ['rail VMEM']],
      [['U3'], ['rail VMEM']],
    ])
  })
})
