/** What is told on a practice card holds what its view holds: counts, places and figures, counted again from the view. */
import { beforeAll, describe, expect, it } from 'vitest'
import {
  type Action,
  createAsker,
  openPractice,
  type Practice,
  type PracticeAction,
} from '../../src/rehearsal/index.ts'
import { substances } from '../../src/spill/index.ts'
import { shippedBoard } from '../support/read-board.ts'

const board = 'splice-6'
const model = shippedBoard(board)
const asker = createAsker(model)

async function opened(difficulty: string, seed: number): Promise<Practice> {
  const practice = await openPractice(model, { board, seed, difficulty }, () => asker)
  if (!practice.ok) throw new Error('the card could not be made')
  return practice.value
}
/** `U1, U2 and U3` */
const refsIn = (words: string): string[] => words.split(/, | and /)

describe('a run', () => {
  let practice: Practice
  const run: PracticeAction = { kind: 'run' }
  beforeAll(async () => {
    practice = await opened('everyday', 1)
  })

  it('is none before the test was run, and is kept when something is done after it', () => {
    expect(practice.view([]).lastRun).toBeUndefined()
    expect(practice.view([{ kind: 'ask' }]).lastRun).toBeUndefined()
    const { lastRun } = practice.view([run])
    expect(lastRun?.size).toBe(model.lanes.length)
    const lift: PracticeAction = { kind: 'lift', ref: 'U12' }
    expect(practice.view([run, lift])).toMatchObject({ untested: true, lifted: ['U12'], lastRun })
    expect(practice.view([run, lift, run]).untested).toBe(false)
  })

  it('says how many lanes fail, at which packages, and how many pass whole', () => {
    const { log, lastRun } = practice.view([run])
    const failing = [...(lastRun ?? [])].flatMap(([id, state]) => (state === 'fail' ? [id] : []))
    const parts = [...new Set(failing.map((id) => model.laneById.get(id)?.part ?? ''))]
    expect(failing.length).toBeGreaterThan(0)
    const [first = '', second] = log[0]?.outcome ?? []
    const [, count, all, at = ''] = /^(\d+) of (\d+) lanes fail, at (.+)\.$/.exec(first) ?? []
    expect([Number(count), Number(all)]).toEqual([failing.length, 24])
    expect(refsIn(at).toSorted()).toEqual(parts.toSorted())
    expect(second).toBe(`${6 - parts.length} packages pass whole.`)
  })

  it('after every package was put right passes whole', () => {
    const lifts = ['U1', ...model.memories.map(({ ref }) => ref)].map((ref) => ({ kind: 'lift', ref }) as const)
    const { log, lastRun, lifted } = practice.view([...lifts, run])
    const failing = [...(lastRun ?? [])].filter(([, state]) => state === 'fail')
    expect(log.at(-1)?.outcome[0]).toMatch(failing.length === 0 ? /^Every lane passes\.$/ : /lanes fail/)
    expect(lifted).toEqual(lifts.map(({ ref }) => ref))
  })

  it('is not taken twice in a row, and no part is taken off twice', () => {
    const twice = practice.view([run, run])
    expect([twice.passedOver, twice.log.length]).toEqual([1, 1])
    expect(twice.offers.find(({ what }) => what === 'run')?.refused).toMatch(
      /^Nothing was worked on since the last run/,
    )
    const off = practice.view([{ kind: 'lift', ref: 'U12' }])
    const lifts = off.offers.filter(({ what }) => what === 'lift')
    expect(lifts.filter(({ refused }) => refused !== undefined).map(({ at, refused }) => [at, refused])).toEqual([
      ['U12', 'U12 was off and put right.'],
    ])
    const rail: PracticeAction = { kind: 'put-right', name: 'rail VMEM' }
    const mended = practice.view([rail]).offers.filter(({ what, refused }) => what === 'put-right' && refused)
    expect(mended.map(({ refused }) => refused)).toEqual(['rail VMEM was gone into and put right.'])
    for (const action of [
      { kind: 'lift', ref: 'C1' },
      { kind: 'put-right', name: 'rail NONE' },
      { kind: 'check', check: 'press', at: 'NONE' },
    ] as const)
      expect(practice.view([action]).passedOver).toBe(1)
  })

  it('a card that was handed back offers nothing and takes nothing', () => {
    const { offers, handedBack, passedOver } = practice.view([{ kind: 'hand-back', as: 'repaired' }, run])
    expect([offers.length, handedBack, passedOver]).toEqual([0, 'repaired', 1])
  })

  it('the report is told part by part, and the parts without errors by their number', () => {
    const { report, tallyParts, firstRun } = practice.view([])
    const failing = tallyParts.filter(({ errors }) => errors > 0)
    const untested = model.memories.filter(({ ref }) =>
      model.lanes.every(({ id, part }) => part !== ref || (firstRun.get(id) ?? 'untested') === 'untested'),
    )
    const clean = tallyParts.length - failing.length - untested.length
    expect(report.read.slice(0, failing.length)).toEqual(failing.map(({ signature }) => signature.sentence))
    expect(report.read[failing.length]).toBe(`No errors at the other ${clean}.`)
    expect([report.cut, report.text.length > 0]).toEqual([0, true])
  })
})

describe('what is proposed', () => {
  // U11 is where this card's report has errors
  const look: Action = { kind: 'check', check: 'under-look', at: 'U11' }
  const proposing = async (first: Action, withoutChecks: Action = first): Promise<Practice> => {
    const fixed = { ...asker, propose: () => first, proposeWithoutChecks: () => withoutChecks }
    const practice = await openPractice(model, { board, seed: 1, difficulty: 'everyday' }, () => fixed)
    if (!practice.ok) throw new Error('the card could not be made')
    return practice.value
  }

  it.each<[Action, string | RegExp]>([
    [{ kind: 'lift', refs: ['U12'] }, 'Lift U12, and run the test.'],
    [{ kind: 'lift', refs: ['U12', 'U13'] }, 'Lift U12 and U13, and run the test.'],
    [{ kind: 'put-right', names: ['rail VMEM', 'slip s1'] }, 'Put right rail VMEM and slip s1, and run the test.'],
    [{ kind: 'run-again' }, 'Run the memory test.'],
    [{ kind: 'hand-back' }, 'Hand it back as repaired: nothing more pays by what is known.'],
    [look, /^Check: .*U11/],
  ])('is said as an order at the bench: %o', async (action, words) => {
    expect((await proposing(action)).propose([])).toEqual({
      action,
      words: typeof words === 'string' ? words : expect.stringMatching(words),
    })
  })

  it('is a run after work, and no check that was just made', async () => {
    const lift: Action = { kind: 'lift', refs: ['U12'] }
    const practice = await proposing(look, lift)
    const made: PracticeAction = { kind: 'check', check: 'under-look', at: 'U11' }
    expect(practice.propose([]).action).toEqual(look)
    expect(practice.propose([made]).action).toEqual(lift)
    expect(practice.propose([{ ...made, check: 'press' }]).action).toEqual(look)
    expect(practice.propose([{ kind: 'lift', ref: 'U12' }]).action).toEqual({ kind: 'run-again' })
  })
})

describe('the owner’s account', () => {
  it('of what was spilled tells substance, amount, side and place as the map has them', async () => {
    let told = 0
    for (const seed of [1, 2, 7]) {
      const { account, marks } = (await opened('spilled', seed)).view([])
      for (const mark of marks) {
        if (mark.kind !== 'spill') continue
        told++
        const name = substances.find(({ id }) => id === mark.substance)?.name.split(',')[0] ?? ''
        const line = account.find((each) => each.startsWith(`${name}, about `)) ?? ''
        const [, figure, unit, side, x, y, spread] =
          /about ([\d.e+]+) (ml|cm²), got onto it .*on the (top|bottom) side \((\d+), (\d+)\), give or take ([\d.]+) mm\./.exec(
            line,
          ) ?? []
        const amount = 'volumeMl' in mark.amount ? [mark.amount.volumeMl, 'ml'] : [mark.amount.smearCm2, 'cm²']
        expect([Number(figure), unit]).toEqual([Number(Number(amount[0]).toPrecision(2)), amount[1]])
        expect([side, Number(x), Number(y), Number(spread)]).toEqual([
          mark.side,
          Math.round(mark.at.x),
          Math.round(mark.at.y),
          mark.sdMm,
        ])
        expect(line.includes('No cooler was pressed on it.')).toBe(mark.pressed === 'no')
        expect(line.includes('The card stood on edge')).toBe(mark.downDeg !== undefined)
      }
      if (marks.length === 0) expect(account.join(' ')).toMatch(/The owner says/)
    }
    expect(told).toBeGreaterThan(1)
  })
})
