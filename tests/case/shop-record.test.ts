/** From a case to what the shop's own record counts of it: the demo that was worked on and tested again, made one's own. */
import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, test } from 'vitest'
import { good } from '../../src/base/index.ts'
import {
  assumptionsInForce,
  type Case,
  causesDraft,
  closedCardOf,
  enteredOf,
  failingLanes,
  foretoldOf,
  loadCase,
  type OpenedCase,
  openCase,
  proofOf,
  recordHtml,
  recordOf,
} from '../../src/case/index.ts'
import { type CausesFound, countsOf } from '../../src/rehearsal/index.ts'
import { assessorFor } from '../support/kept-answers.ts'

const demo: object = JSON.parse(readFileSync('demo-data/returned-card.case.json', 'utf8'))

async function opened(change: object = {}): Promise<OpenedCase> {
  const loaded = loadCase({ ...demo, demo: false, ...change })
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.faults))
  const result = await openCase(loaded.value, async (path) => good(bytesOf(`demo-data/${path}`)))
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

async function* bytesOf(path: string): AsyncIterable<Uint8Array> {
  yield readFileSync(path)
}

let own: OpenedCase
beforeAll(async () => {
  own = await opened()
})

const closed = (causes: Partial<CausesFound>, change: Partial<Case> = {}): Case => ({
  ...own.caseFile,
  ...change,
  handBack: {
    ...own.caseFile.handBack,
    on: '2026-03-09',
    outcome: 'repaired',
    causes: { settled: 'all', parts: [], others: [], ...causes },
  },
})
const cardOf = (caseFile: Case) => closedCardOf(caseFile, own.model, failingLanes(own.tally))
const under = (ref: string) => ({ ref, was: 'under' as const, harmed: false })

describe('what counts', () => {
  test('a closed case with its causes confirmed does', () => {
    expect(cardOf(closed({}))).toMatchObject({ board: own.model.name, month: '2026-03', repaired: true })
  })

  test.each([
    ['a demo', closedDemo],
    ['a good card that was only measured', () => closed({}, { goodCard: true })],
    ['a case without an outcome', withoutOutcome],
    ['a case whose causes nobody confirmed', unconfirmed],
  ])('%s does not', (_, make) => {
    expect(cardOf(make())).toBeUndefined()
  })

  function closedDemo(): Case {
    return closed({}, { demo: true })
  }
  function withoutOutcome(): Case {
    const { outcome: _, ...handBack } = closed({}).handBack
    return { ...own.caseFile, handBack }
  }
  function unconfirmed(): Case {
    const whole = closed({})
    return { ...whole, handBack: { ...whole.handBack, causes: { parts: [], others: [] } } }
  }

  test('a card of which a lifted part is still unknown is not known, nor one of which only some was found', () => {
    expect(cardOf(closed({ parts: [under('U15')] }))?.known).toBe(false)
    expect(cardOf(closed({ parts: [under('U15'), under('U16')] }))?.known).toBe(true)
    expect(cardOf(closed({ parts: [under('U15'), under('U16')], settled: 'some' }))?.known).toBe(false)
  })

  test('a sound card has no cause, whatever its rows say', () => {
    const card = cardOf(closed({ settled: 'nothing-wrong', parts: [under('U15')], others: [{ what: 'slip' }] }))
    expect(card?.known).toBe(true)
    expect(card?.parts.map(({ was }) => was)).toEqual(['fine', 'fine'])
    expect(card?.others).toEqual([])
  })
})

describe('what is taken from the case', () => {
  test('lifts by the log, what lay under, what inspection said at the edge', () => {
    const parts = cardOf(
      closed({ parts: [under('U15'), { ref: 'U16', was: 'bad', harmed: true, minutes: 42 }] }),
    )?.parts
    expect(
      parts?.map(({ ref, kind, lifts, under: lay, minutes, harmed }) => [ref, kind, lifts, lay, minutes, harmed]),
    ).toEqual([
      ['U15', 'memory', 1, 'reached', undefined, false],
      ['U16', 'memory', 1, 'reached', 42, true],
    ])
    const near = cardOf(
      closed(
        { parts: [under('U15'), under('U16')] },
        {
          marks: [
            ...own.caseFile.marks,
            { kind: 'corrosion', id: 'c', side: 'top', at: edgeOf('U15'), radiusMm: 1 },
            { kind: 'clean', id: 'd', side: 'top', at: edgeOf('U16'), radiusMm: 1 },
            { kind: 'clean', id: 'under-U15-film', side: 'top', at: edgeOf('U15'), radiusMm: 1 },
          ],
        },
      ),
    )
    expect(near?.parts.map(({ look }) => look)).toEqual(['residue', 'clean'])
  })

  const edgeOf = (ref: string) => {
    const box = own.model.partByRef.get(ref)?.box
    if (box === undefined) throw new Error(`no ${ref}`)
    return { x: box.maxX + 0.5, y: (box.minY + box.maxY) / 2 }
  }

  test('the parts of its counts are those of its board', () => {
    const card = cardOf(closed({ parts: [under('U15'), under('U16')] }))
    if (card === undefined) throw new Error('not counted')
    const { shares, cards } = countsOf(card)
    expect(cards).toBe(1)
    expect(shares['prior.die']).toEqual({ hits: 0, tries: own.model.memories.length })
    expect(shares['prior.corridor']?.tries).toBe(own.model.corridors.length)
    // a spill was marked, so that nothing unreported was at work
    expect(shares).not.toHaveProperty(['prior.unreported-spill'])
    expect(shares['risk.memoryDamage']).toEqual({ hits: 0, tries: 2 })
  })
})

describe('the draft', () => {
  const draft = (caseFile: Case = own.caseFile, proof = proofOf(own)) => causesDraft(caseFile, own.model, proof)
  const passesWith = (what: 'clean' | 'torn-pad', replaced: boolean, refs = ['U15', 'U16']): Case['passes'] =>
    refs.flatMap((ref): Case['passes'] => [
      { action: 'lift', refs: [ref], outcome: 'done', measured: [], found: [{ ref, what: [what] }], replaced: false },
      { action: 'refit', refs: [ref], outcome: 'done', measured: [], found: [], replaced },
    ])
  const was = (passes: Case['passes']) => draft({ ...own.caseFile, passes }).parts.map((row) => row.was)

  test('what lay wet or corroded under a part was it', () => {
    expect(draft().parts.map(({ ref, was: each }) => [ref, each])).toEqual([
      ['U15', 'under'],
      ['U16', 'under'],
    ])
    expect(draft().settled).toBeUndefined()
  })

  test('a part that was clean beneath and works again was bad if it was replaced, else its joints were', () => {
    expect(was(passesWith('clean', true))).toEqual(['bad', 'bad'])
    expect(was(passesWith('clean', false))).toEqual(['joints', 'joints'])
  })

  test('a torn pad is harm by the work', () => {
    const rows = draft({ ...own.caseFile, passes: passesWith('torn-pad', false) }).parts
    expect(rows.map(({ harmed }) => harmed)).toEqual([true, true])
  })

  test('with the core off too, nobody can tell a package’s joints from the core’s', () => {
    const core = own.model.core?.ref ?? ''
    expect(was(passesWith('clean', false, ['U15', core]))).toEqual(['unknown', 'unknown'])
  })

  test('a package that never failed was fine, and one that was not tested again is unknown', () => {
    const sound = proofOf(own).parts.find(({ lanes }) => lanes.every(({ before }) => before === 'pass'))?.ref ?? ''
    expect(was(passesWith('clean', false, [sound]))).toEqual(['fine'])
    expect(
      causesDraft({ ...own.caseFile, passes: passesWith('clean', true) }, own.model, undefined).parts[0]?.was,
    ).toBe('unknown')
  })

  test('a card that was only washed and works again had liquid on it', () => {
    expect(draft({ ...own.caseFile, passes: [], measurements: [] }).others).toEqual([{ what: 'liquid' }])
    expect(causesDraft({ ...own.caseFile, passes: [], measurements: [] }, own.model, undefined).others).toEqual([])
  })

  test('a rail that read low and reads well after the work is offered where no part explains the card', () => {
    const [rail] = draft({ ...own.caseFile, passes: [] }).others
    expect(rail).toEqual({ what: 'rail', at: 'VPP' })
  })
})

test('what is kept of an assessment fits into the case, and tells what failed', () => {
  const before = { ...own, caseFile: { ...own.caseFile, passes: [] } }
  const { suspects } = assessorFor(own.model).assess(enteredOf(before))
  const kept = foretoldOf(suspects, own.tally)
  expect(kept.lift).toEqual(suspects.lift)
  expect(kept.stories.length).toBeGreaterThan(0)
  expect(kept.failing).toEqual(failingLanes(own.tally))
  const read = loadCase({ ...closed({ parts: [under('U15'), under('U16')] }), foretold: kept })
  expect(read.ok).toBe(true)
})

describe('figures of the shop’s own record', () => {
  const ownRecord = { cards: 30, boardAlone: false, figures: { prior: { die: 0.1, rail: 0.02 } } }

  test('without them a case keeps exactly what it changed', () => {
    const assumptions = { prior: { die: 0.3 } }
    expect(assumptionsInForce({ assumptions })).toBe(assumptions)
    expect(assumptionsInForce({})).toBeUndefined()
  })

  test('stand between what ships and what the case changed itself', () => {
    expect(assumptionsInForce({ ownRecord, assumptions: { prior: { die: 0.3 }, risk: { coreDamage: 0.1 } } })).toEqual({
      prior: { die: 0.3, rail: 0.02 },
      risk: { coreDamage: 0.1 },
    })
  })

  test('change what is said about a card', () => {
    const assessor = assessorFor(own.model)
    const said = (change: Partial<Case>) =>
      assessor
        .assess(enteredOf({ ...own, caseFile: { ...own.caseFile, marks: [], passes: [], checks: [], ...change } }))
        .suspects.parts.find(({ ref }) => ref === own.model.core?.ref)?.probability ?? 0
    const figures = { prior: { core: 0.4, 'core-patch': 0.4 } }
    expect(said({ ownRecord: { ...ownRecord, figures } })).toBeGreaterThan(said({}) + 0.05)
    const checks = [{ check: 'press', at: own.model.core?.ref ?? '', found: true }]
    const sure = { checks: { press: { finds: { 'core-patch': 0.9 }, falseAlarm: 0.001 } } }
    expect(said({ checks, ownRecord: { ...ownRecord, figures: sure } })).toBeGreaterThan(said({ checks }) + 0.05)
  })
})

test('the technician’s record names the figures of the shop’s own record, and from how many cards they are', () => {
  const caseFile: Case = {
    ...own.caseFile,
    ownRecord: { cards: 31, boardAlone: true, figures: { prior: { die: 0.0321 } } },
  }
  const input = {
    ...own,
    proof: proofOf(own),
    assessment: undefined,
    today: '2026-03-20',
    audience: 'technician',
  } as const
  const text = recordHtml(recordOf({ ...input, caseFile }))
  expect(text).toContain('Figures of the shop’s own record, from 31 closed cards of this board')
  expect(text).toContain('0.0321')
  expect(text).not.toContain('Priors and costs are the shipped ones.')
  expect(recordHtml(recordOf(input))).toContain('Priors and costs are the shipped ones.')
})

describe('weeks later', () => {
  // U15 was put back, U16 is a new one
  const cause = { parts: [under('U15'), { ref: 'U16', was: 'fine' as const, harmed: false }], others: [] }
  const asked = (...answers: readonly ('works' | 'same fault back' | 'other fault' | 'not reached')[]): Case =>
    closed(cause, { followUps: answers.map((answer) => ({ on: '2026-05-02', answer, note: '' })) })

  test('nobody was asked, or reached: the card counts as it was closed', () => {
    for (const caseFile of [closed(cause), asked('not reached'), asked('other fault')])
      expect(cardOf(caseFile)).toMatchObject({ repaired: true, known: true, held: undefined })
  })

  test('it still works: the repair held', () => {
    const card = cardOf(asked('not reached', 'works'))
    expect(card).toMatchObject({ repaired: true, known: true, held: true })
    expect(card?.parts.map(({ refitted }) => refitted)).toEqual(['the same', 'a new one'])
    if (card === undefined) throw new Error('it is closed')
    expect(countsOf(card).shares['cure.reballBeneath']).toEqual({ hits: 1, tries: 1 })
  })

  test('the same fault is back: neither the repair nor what was taken for the cause counts any more', () => {
    const back = cardOf(asked('works', 'same fault back'))
    expect(back).toMatchObject({ repaired: false, known: false, held: false })
    if (back === undefined) throw new Error('it is closed')
    expect(countsOf(back).cards).toBe(0)
  })

  test('where not all that was wrong is known, nothing is said of what lasts', () => {
    const some = closed({ ...cause, settled: 'some' }, { followUps: [{ on: '2026-05-02', answer: 'works', note: '' }] })
    expect(cardOf(some)?.held).toBeUndefined()
  })
})
