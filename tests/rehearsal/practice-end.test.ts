/** The end of a game on a card by hand: what the work came to, beside others, and what each piece of evidence was worth. */
import { describe, expect, it } from 'vitest'
import { type Asker, type Damage, type PracticeAction, practiceOn, pricesOf } from '../../src/rehearsal/index.ts'
import { nothingJudged, type Story } from '../../src/suspects/index.ts'
import { damage, handCard, lanes, model } from './hand-card.ts'
import { endOf, practise, quietAsker, REPAIRED } from './practice-support.ts'

const { liftCost, comeback } = pricesOf(model)
const RUN: PracticeAction = { kind: 'run' }
const lift = (ref: string): PracticeAction => ({ kind: 'lift', ref })
const mend = (name: string): PracticeAction => ({ kind: 'put-right', name })
const press: PracticeAction = { kind: 'check', check: 'press', at: 'U2' }
const GIVEN_UP: PracticeAction = { kind: 'hand-back', as: 'not-worth-it' }
const die = damage({})
const rail = damage({ kind: 'rail', at: 'rail VMEM', ref: undefined })
const track = damage({ kind: 'corridor', at: 'U2.A0', ref: undefined })
const report = {
  kind: 'table',
  layout: 'table by hand',
  rows: [...lanes('U2.A0')].map(([lane, state]) => ({ lane, errors: state === 'fail' ? 3 : 0 })),
} as const
const seen = { report }

describe('what the work came to', () => {
  const NOTHING = {
    checks: 0,
    runs: 0,
    puttingRight: 0,
    neededLifts: 0,
    needlessLifts: 0,
    comeback: 0,
    laterLifts: 0,
    forgone: 0,
  }
  const [u2, u3] = [liftCost('U2'), liftCost('U3')]

  it.each<[string, readonly Damage[], readonly PracticeAction[], Partial<typeof NOTHING>]>([
    ['nothing where nothing was wrong', [], [REPAIRED], {}],
    ['the lift that was needed', [die], [lift('U2'), RUN, REPAIRED], { runs: 15, neededLifts: u2 }],
    [
      'a lift for nothing, and the needed one later',
      [die],
      [lift('U3'), REPAIRED],
      { needlessLifts: u3, comeback, laterLifts: u2 },
    ],
    ['a check and two runs', [], [press, RUN, lift('U2'), RUN, REPAIRED], { checks: 12, runs: 30, needlessLifts: u2 }],
    ['a comeback for a rail that was left', [rail], [REPAIRED], { comeback }],
    ['the time in the rail', [rail], [mend('rail VMEM'), REPAIRED], { puttingRight: 10 }],
    ['a comeback for a rail that no lift mends', [rail], [lift('U3'), REPAIRED], { needlessLifts: u3, comeback }],
    ['nothing for a track that was seen in passing', [track], [lift('U3'), REPAIRED], { needlessLifts: u3 }],
    ['a comeback for one that nobody saw', [track], [REPAIRED], { comeback }],
    ['nothing for what shows nowhere', [{ ...track, lanes: [] }], [REPAIRED], {}],
    // 800 working, 150 as it is
    ['what the repair would have brought', [die], [GIVEN_UP], { forgone: 650 - u2 }],
    ['the same of a rail', [rail], [press, GIVEN_UP], { checks: 12, forgone: 650 }],
    ['nothing forgone where nothing was wrong', [], [GIVEN_UP], {}],
  ])('is %s', async (_, damages, actions, split) => {
    const { you } = await endOf({ damages, seen }, actions)
    const whole = { ...NOTHING, ...split }
    expect(you.split).toEqual(
      Object.fromEntries(Object.entries(whole).map(([name, value]) => [name, expect.closeTo(value, 9)])),
    )
    // one run of 15 is left out, as everybody proves a card
    const total = Object.values(whole).reduce((sum, each) => sum + each, 0)
    expect(you.cost).toBeCloseTo(total - Math.min(15, whole.runs), 9)
    expect(you.givenUp).toBe(actions.at(-1) === GIVEN_UP)
  })

  it('names what was lifted for nothing and what was missed, and how often Liftmap was asked', async () => {
    const ask: PracticeAction = { kind: 'ask' }
    const { you, needs } = await endOf({ damages: [die, damage({ at: 'U1', ref: 'U1' })], seen }, [
      ask,
      lift('U3'),
      ask,
      lift('U2'),
      press,
      REPAIRED,
    ])
    expect(you).toMatchObject({ lifted: ['U3', 'U2'], needless: ['U3'], missed: ['U1'], asked: 2, givenUp: false })
    expect(you.minutes).toBeCloseTo(2 * 73.12 + 12, 9)
    expect(needs).toEqual(['U2', 'U1'])
  })

  it('is told of no card that was not handed back, nor at a difficulty that is none', async () => {
    const open = (await practise({ seen })).result([press])
    expect(open).toEqual({
      ok: false,
      faults: [
        {
          path: 'actions',
          found: 'a card that was not handed back',
          expected: 'a card that was handed back',
          todo: 'Hand it back first.',
        },
      ],
    })
  })
})

describe('others on the same card', () => {
  const asker: Asker = {
    ...quietAsker,
    ask: () => ({ ...nothingJudged, lift: ['U3'] }),
    propose: ({ rounds }) => (rounds.length === 0 ? { kind: 'lift', refs: ['U2'] } : { kind: 'hand-back' }),
  }
  const [u1, u2, u3] = [liftCost('U1'), liftCost('U2'), liftCost('U3')]

  it('lift what is proposed, what was listed first, what the report names, and what was needed', async () => {
    const { rivals, liftmapDid } = await endOf({ damages: [die], seen }, [REPAIRED], asker)
    expect(rivals.map(({ id, lifted, cost }) => [id, lifted, Number(cost.toFixed(6))])).toEqual(
      [
        ['steps', ['U2'], u2],
        ['first-list', ['U3'], u3 + comeback + u2],
        ['named', ['U2'], u2],
        ['named-and-core', ['U2'], u2],
        ['ring', ['U2', 'U1'], u2 + u1],
        ['all-knowing', ['U2'], u2],
      ].map(([id, lifted, cost]) => [id, lifted, Number(Number(cost).toFixed(6))]),
    )
    expect(liftmapDid).toEqual(['Lift U2, and run the test.'])
    expect(rivals[0]?.split).toMatchObject({ runs: 15, neededLifts: u2 })
  })

  it('who knows goes into each place that no lift mends, and once into it', async () => {
    const hidden = damage({ kind: 'rail-branch', at: 'branch east of rail VMEM', ref: undefined })
    const rivalsOf = async (...damages: Damage[]) => (await endOf({ damages, seen }, [REPAIRED])).rivals
    const knowing = async (...damages: Damage[]) => (await rivalsOf(...damages)).find(({ id }) => id === 'all-knowing')
    expect(await knowing(rail, rail)).toMatchObject({ cost: 10, lifted: [] })
    expect(await knowing(hidden)).toMatchObject({ cost: 10, split: { puttingRight: 10, comeback: 0 } })
    expect(await knowing(track)).toMatchObject({ cost: 10 })
    expect((await knowing(track, die))?.cost).toBeCloseTo(u2, 9)
    // whoever lifts nothing has mended nothing: the track is left on a list without parts
    const [, first] = await rivalsOf(track)
    expect(first).toMatchObject({ id: 'first-list', cost: comeback, lifted: [] })
  })

  it('pays in steps for checks, for going into places, and for each run but the last', async () => {
    const names = ['rail VMEM', 'U2.A0']
    const inSteps: Asker = {
      ...quietAsker,
      propose: ({ checks, rounds }) => {
        if (checks.length === 0) return { kind: 'check', check: 'press', at: 'U2' }
        if (rounds.length === 0) return { kind: 'put-right', names }
        return rounds.length === 1 ? { kind: 'run-again' } : { kind: 'hand-back' }
      },
    }
    const { rivals, liftmapDid, evidence } = await endOf({ damages: [rail], seen }, [REPAIRED], inSteps)
    expect(rivals[0]?.split).toMatchObject({ checks: 12, runs: 30, puttingRight: 20, comeback: 0 })
    expect(rivals[0]?.cost).toBe(12 + 20 + 15)
    expect(liftmapDid).toEqual([
      'Check: Pressed gently while it is tested, does U2 change its errors?',
      'Put right rail VMEM and U2.A0, and run the test.',
      'Run the memory test.',
    ])
    expect(evidence.map(({ by, words, minutes, money }) => [by, words, minutes, money])).toEqual([
      ['liftmap', 'Pressing gently on U2 changed nothing.', 12, 12],
      ['liftmap', 'The run after rail VMEM and U2.A0 were put right', 15, 15],
      ['liftmap', 'A run of the memory test', 15, 15],
    ])
  })
})

describe('evidence in the end', () => {
  /** Lifts U2 once a check found something; leaving it then costs 200, lifting it 80. */
  const asker: Asker = {
    ...quietAsker,
    ask: ({ checks }) => ({ ...nothingJudged, lift: checks.some(({ found }) => found) ? ['U2'] : [] }),
    costsOf: (_, lists) => lists.map((list) => (list.length === 0 ? 200 : 80)),
    propose: ({ checks, rounds }) => {
      if (checks.length === 0) return { kind: 'check', check: 'press', at: 'U2' }
      return rounds.length === 0 ? { kind: 'lift', refs: ['U2'] } : { kind: 'hand-back' }
    },
  }
  const change = {
    outcomeOf: () => true,
    lift: (refs: readonly string[]) => refs.map((ref) => ({ ref, atFault: true, wet: ['U2/A0'], kinds: [] })),
  }

  it('is yours first, then what Liftmap bought and you did not', async () => {
    const { evidence } = await endOf({ damages: [die], seen, change }, [press, lift('U2'), RUN, REPAIRED], asker)
    expect(evidence).toEqual([
      {
        by: 'you',
        words: 'Pressed gently, U2 changed its errors.',
        minutes: 12,
        money: 12,
        worth: 120,
        before: [],
        since: ['U2'],
      },
      // a look under a part that is off costs nothing beside the lift
      { by: 'you', words: 'What lay under U2', minutes: 0, money: 0, worth: 0, before: ['U2'], since: ['U2'] },
      {
        by: 'you',
        words: 'A run: Every lane passes.',
        minutes: 15,
        money: 15,
        worth: 0,
        before: ['U2'],
        since: ['U2'],
      },
      {
        by: 'liftmap',
        words: 'What lay under U2, with the run after it',
        minutes: 15,
        money: 15,
        worth: 0,
        before: ['U2'],
        since: ['U2'],
      },
    ])
  })

  it('is what Liftmap checked too, where you did not, and nothing of a part under which nothing is marked', async () => {
    const { evidence } = await endOf({ damages: [die], seen, change }, [lift('S1'), REPAIRED], asker)
    expect(evidence.map(({ by, words, worth }) => [by, words, worth])).toEqual([
      ['liftmap', 'Pressed gently, U2 changed its errors.', 120],
      ['liftmap', 'What lay under U2, with the run after it', 0],
    ])
  })

  it('is weighed step by step, and says so', async () => {
    const heard: [number, string][] = []
    const card = handCard({ damages: [die], seen, change })
    const practice = await practiceOn(card, { board: 'small', seed: 1, difficulty: 'plain' }, () => asker)
    if (!practice.ok) throw new Error('unreadable')
    practice.value.result([press, REPAIRED], (share, words) => heard.push([Number(share.toFixed(6)), words]))
    expect(heard).toEqual([
      [0.05, 'Liftmap judges the card as it came'],
      [0.15, 'Liftmap works on the same card: step 1'],
      [0.2, 'Liftmap works on the same card: step 2'],
      [0.25, 'Liftmap works on the same card: step 3'],
      // from 0.55 on, in as many parts as there are pieces: one of yours, one more of Liftmap's
      [0.55, 'Each piece of evidence is weighed'],
      [0.775, 'Each piece of evidence is weighed'],
    ])
  })
})

describe('what Liftmap had said first', () => {
  const told = (probability: number, kind: Story['causes'][number]['kind'], at: string, ...refs: string[]): Story => ({
    causes: [{ kind, at, refs }],
    probability,
    sentence: `${kind} at ${at}.`,
  })
  const [right, byPart, wrong] = [
    told(0.4, 'die', 'U2', 'U2'),
    told(0.25, 'joints', 'U2/A0', 'U2'),
    told(0.3, 'die', 'U3', 'U3'),
  ]
  const first = async (stories: readonly Story[], damages: readonly Damage[] = [die]) => {
    const asker = { ...quietAsker, ask: () => ({ ...nothingJudged, stories }) }
    const { firstStory, alike } = await endOf({ damages, seen }, [REPAIRED], asker)
    return { ...firstStory, alike }
  }

  it('was right by its cause, by its parts alone, or not', async () => {
    expect(await first([right, wrong])).toEqual({ words: 'die at U2.', right: 'cause', alike: undefined })
    expect(await first([byPart, wrong])).toEqual({ words: 'joints at U2/A0.', right: 'parts', alike: undefined })
    expect(await first([wrong, right])).toEqual({ words: 'die at U3.', right: 'no', alike: undefined })
    expect(await first([])).toEqual({ words: 'none', right: 'no', alike: undefined })
  })

  it('says where several stories have the same parts come off, with their chance together', async () => {
    const { alike } = await first([byPart, wrong, right])
    expect(alike).toMatch(
      /^2 stories have the same parts come off \(.+ and .+; together 65 %\)\. Which of them is true makes no difference to the list, and counts as right\.$/,
    )
    // a card that needs no lift has none to tell apart
    expect(
      (await first([told(0.5, 'rail', 'rail VMEM'), told(0.5, 'rail', 'rail VMEM')], [rail])).alike,
    ).toBeUndefined()
  })
})
