/** What is spent and how far the limit is, by hand from the price book; a declined quote ends in a clean hand-back. */
import { describe, expect, test } from 'vitest'
import {
  type Case,
  costOfStep,
  declinedHandBack,
  draftLines,
  limitState,
  limitWords,
  type Quote,
  quoteSchema,
  recordOf,
  settingsOf,
  spentSoFar,
  waitingHours,
  worseDraft,
} from '../../src/case/index.ts'
import { substanceOf } from '../../src/spill/index.ts'
import { openFull } from '../support/recordCase.ts'

const opened = await openFull()
const { model } = opened
const noWork: Case = {
  ...opened.caseFile,
  shop: undefined,
  assumptions: undefined,
  passes: [],
  ticks: [],
  handBack: { ...opened.caseFile.handBack, minutes: undefined, usedParts: [], charged: undefined },
}
const pass = (change: Partial<Case['passes'][number]>): Case['passes'][number] => ({
  action: 'lift',
  refs: ['U2'],
  outcome: 'done',
  measured: [],
  found: [],
  replaced: false,
  ...change,
})
const tick = (change: Partial<Case['ticks'][number]>): Case['ticks'][number] => ({
  action: 'clean',
  refs: ['U2'],
  outcome: 'done',
  minutes: 9,
  afterPasses: 1,
  ...change,
})
const worked = (passes: Case['passes'], ticks: Case['ticks'] = []): Case => ({ ...noWork, passes, ticks })

// the book: 12 min to heat up, 5 to handle a memory package; 0.80 flux a pass, 15 a memory package, 60 an hour
describe('spent so far', () => {
  test('nothing was done: nothing', () => {
    expect(spentSoFar(noWork, model)).toEqual({ minutes: 0, labour: 0, parts: 0, money: 0 })
  })

  test('one lift: 12 + 5 min, so 17 of labour, and 0.80 of flux', () => {
    const { minutes, labour, parts, money } = spentSoFar(worked([pass({})]), model)
    expect([minutes, labour]).toEqual([17, 17])
    expect(parts).toBeCloseTo(0.8)
    expect(money).toBeCloseTo(17.8)
  })

  test('solved heat stands in place of the book’s minutes: 9 + 5', () => {
    expect(spentSoFar(worked([pass({})]), model, [{ target: 'U2', minutes: 9 }]).minutes).toBe(14)
  })

  test('a new package counts once it is refitted; what was skipped counts nothing', () => {
    const refit = pass({ action: 'refit', replaced: true })
    expect(spentSoFar(worked([refit]), model).parts).toBeCloseTo(15.8)
    expect(spentSoFar(worked([{ ...refit, outcome: 'skipped' }]), model).money).toBe(0)
    expect(spentSoFar(worked([{ ...refit, outcome: 'failed' }]), model).parts).toBeCloseTo(0.8)
  })

  test('ticks take what the plan had for them; a site takes 0.50 of solvent and 0.70 of braid', () => {
    const { minutes, parts } = spentSoFar(worked([], [tick({}), tick({ action: 'inspect', minutes: 15 })]), model)
    expect(minutes).toBe(24)
    expect(parts).toBeCloseTo(1.2)
    expect(spentSoFar(worked([], [tick({ outcome: 'skipped' })]), model).money).toBe(0)
  })

  test('hours and parts that were noted count where they are more: 90 min and 2 · 10', () => {
    const noted = {
      ...worked([pass({})]),
      handBack: { ...noWork.handBack, minutes: 90, usedParts: [{ what: 'fan', count: 2, price: 10 }] },
    }
    expect(spentSoFar(noted, model)).toMatchObject({ minutes: 90, labour: 90, parts: 20, money: 110 })
  })

  test('the next step costs its time, and its part where it fits a new one', () => {
    const settings = settingsOf(noWork)
    if (settings === undefined) throw new Error('the shipped figures')
    expect(costOfStep({ action: 'replace', refs: ['U2'], cost: 4 }, model, settings)).toBe(19)
    expect(costOfStep({ action: 'lift', refs: ['U2'], cost: 17 }, model, settings)).toBe(17)
  })
})

const quote = (change: Partial<Quote> = {}): Quote =>
  quoteSchema.parse({
    on: '2026-03-16',
    low: 140,
    expected: 190,
    high: 310,
    daysLow: 2,
    daysHigh: 8,
    works: 0.85,
    answer: 'agreed',
    limit: 300,
    ...change,
  })

describe('the limit', () => {
  test.each([
    [200, 100, 'within', false],
    [200, 100.01, 'next-goes-past', false],
    [300, 50, 'next-goes-past', false],
    [300.01, 0, 'past', true],
  ])('%d spent and %d next of 300: %s', (spent, next, state, asksReason) => {
    expect(limitState(quote(), spent, next)).toMatchObject({ state, asksReason })
  })

  test('the limit is one with tax: 253 and 19 % are 301.07', () => {
    expect(limitState(quote({ taxPct: 19 }), 253)).toMatchObject({ spent: 301.07, state: 'past' })
    expect(limitState(quote({ taxPct: 19 }), 252)).toMatchObject({ spent: 299.88, state: 'within' })
  })

  test('one reason stands for the limit that it was given at; a higher limit that is passed asks anew', () => {
    const pastLimit = [{ limit: 300, spent: 310, on: '2026-03-18', reason: 'U3 had to come off too' }]
    expect(limitState(quote({ pastLimit }), 320)).toMatchObject({ state: 'past', asksReason: false })
    expect(limitState(quote({ pastLimit, limit: 400 }), 410)).toMatchObject({ asksReason: true })
  })

  test('there is none where nothing was agreed', () => {
    expect(limitState(undefined, 500)).toBeUndefined()
    expect(limitState(quote({ answer: 'open' }), 500)).toBeUndefined()
    expect(limitState(quote({ answer: 'declined' }), 500)).toBeUndefined()
    expect(limitState(quote({ limit: undefined }), 500)).toBeUndefined()
  })

  test('in words', () => {
    const words = (spent: number, next = 0) => {
      const state = limitState(quote(), spent, next)
      return state === undefined ? '' : limitWords(state, 'EUR')
    }
    expect(words(210)).toBe('About 210\u00a0EUR of the 300.00 EUR agreed is spent.')
    expect(words(210, 120)).toBe(
      'The next step takes it to about 330\u00a0EUR, past the 300.00 EUR agreed. Ask the owner first.',
    )
    expect(words(345)).toBe('About 345\u00a0EUR is spent, past the 300.00 EUR agreed.')
  })
})

describe('days without a hand on the card', () => {
  const spilled = (substance: string): Case => ({
    ...noWork,
    cleaned: undefined,
    marks: opened.caseFile.marks.map((mark) => (mark.kind === 'spill' ? { ...mark, substance } : mark)),
  })

  test('those of the plan, where there is one', () => {
    expect(waitingHours(noWork, [{ hours: 2 }, {}, { hours: 9.5 }])).toBe(11.5)
  })

  test('else what the spilled substance takes to dry, by the shop’s 8 h where nobody knows', () => {
    const coolant = substanceOf('coolant-pg', [])?.cleaning?.dryMinutes.value ?? 0
    expect(coolant).toBeGreaterThan(0)
    expect(waitingHours(spilled('coolant-pg'))).toBe(coolant / 60)
    expect(waitingHours(spilled('some-brew'))).toBe(8)
  })

  test('nothing once it was washed, or where nothing was spilled', () => {
    expect(waitingHours({ ...spilled('some-brew'), cleaned: { marks: [], note: '' } })).toBe(0)
    expect(waitingHours({ ...noWork, marks: [] })).toBe(0)
  })
})

describe('what is said of worse', () => {
  test('shares where it was worked out, none where it was entered by hand', () => {
    expect(worseDraft(0.85, undefined, 'EUR')).toContain('In 15 % of such cards the work does not help.')
    expect(worseDraft(0.85, 0, 'EUR')).toContain('Then you pay nothing: no fix, no fee.')
    expect(worseDraft(undefined, 45, 'EUR')).toBe(
      'If it takes more, we stop before your limit and ask you first. If the work does not help, you pay 45.00 EUR for the diagnosis.',
    )
  })
})

describe('declined', () => {
  const declined: Case = {
    ...noWork,
    intake: opened.caseFile.intake === undefined ? undefined : { ...opened.caseFile.intake, diagnosisFee: 45 },
    quote: quote({ answer: 'declined', answeredOn: '2026-03-17', limit: undefined }),
    handBack: { ...noWork.handBack, on: undefined, outcome: undefined, done: '', currency: 'EUR' },
  }

  test('the hand-back is filled in, and what stood there stays', () => {
    expect(declinedHandBack(declined, '2026-03-20')).toMatchObject({
      outcome: 'not repaired',
      on: '2026-03-20',
      done: 'Diagnosis only; the repair was declined on 17 March 2026. Nothing was heated or changed.',
    })
    expect(
      declinedHandBack({ ...declined, handBack: { ...declined.handBack, outcome: 'repaired' } }, '2026-03-20'),
    ).toMatchObject({
      outcome: 'not repaired',
    })
    const own = { ...declined.handBack, done: 'looked at it', charged: 20 }
    expect(declinedHandBack({ ...declined, handBack: own }, '2026-03-20')).toMatchObject({
      done: 'looked at it',
      charged: 20,
    })
  })

  test('the fee of the intake desk is the price, and the one line of the invoice', () => {
    if (declined.intake === undefined) throw new Error('the full case has an intake')
    expect(declinedHandBack(declined, '2026-03-20').charged).toBe(45)
    expect(draftLines(declined, model)).toEqual([
      { what: 'Diagnosis, as agreed', unit: 'piece', quantity: 1, price: 45, discountPct: 0 },
    ])
  })

  test('a card that was worked on has the fee on its invoice beside the work, one that it did not help the fee alone', () => {
    const { quote: _, ...agreed } = declined
    const withOutcome = (outcome: 'repaired' | 'not repaired' | 'not worth repairing') =>
      draftLines({ ...agreed, handBack: { ...agreed.handBack, outcome, minutes: 60 } }, model).map(
        ({ what, price }) => [what, price],
      )
    expect(
      withOutcome('repaired')
        .slice(0, 2)
        .map(([what]) => what),
    ).toEqual(['Diagnosis, as agreed', 'Work at the bench'])
    expect(withOutcome('not repaired')).toEqual([['Diagnosis, as agreed', 45]])
    expect(withOutcome('not worth repairing')).toEqual([['Diagnosis, as agreed', 45]])
  })

  const page = JSON.stringify(
    recordOf({
      ...opened,
      caseFile: { ...declined, handBack: declinedHandBack(declined, '2026-03-20') },
      audience: 'owner',
      today: '2026-03-20',
    }).sections,
  )

  test.each([
    ['what was decided', 'You chose not to have your card mended.'],
    ['what it would have cost', 'Mending it would have cost about 140.00 EUR to 310.00 EUR.'],
    ['how likely it would have helped', 'That it works after that is likely.'],
    ['in what state it goes back', 'No part was taken off or changed.'],
    ['what lies on it still', 'What got onto it is still there.'],
    ['whether it may be switched on', 'switch on'],
    ['the price', '45.00 EUR'],
  ])('the owner’s page says %s', (_, words) => {
    expect(page).toContain(words)
  })

  test('and asks for nothing more: no test after work that was not done', () => {
    expect(page).not.toContain('We did not run the memory test after the work')
    expect(page).not.toContain('not settled yet')
  })
})

describe('the price on the owner’s page', () => {
  const priced = (change: Partial<Case>): string =>
    JSON.stringify(
      recordOf({ ...opened, caseFile: { ...noWork, ...change }, audience: 'owner', today: '2026-03-20' }).sections,
    )
  const eur = { ...noWork.handBack, currency: 'EUR' }

  test('nothing is known: it is not settled', () => {
    expect(priced({})).toContain('not settled yet')
  })

  test('a quote gives the range, and the limit that was agreed', () => {
    const page = priced({ quote: quote(), handBack: eur })
    expect(page).toContain('about 140.00 EUR to 310.00 EUR')
    expect(page).toContain('300.00 EUR')
    expect(page).not.toContain('not settled yet')
  })

  test('an invoice gives the price, whatever was charged before', () => {
    const invoice: Case['invoice'] = {
      number: '2026-0017',
      on: '2026-03-20',
      to: '',
      letterhead: { name: '', address: '', contact: '', taxNumber: '' },
      lines: [{ what: 'work', unit: 'minutes', quantity: 150, price: 60, discountPct: 0 }],
      discountPct: 0,
      taxPct: 19,
      taxRounding: 'total',
      warranty: '',
    }
    // 150 and 28.50
    const page = priced({ quote: quote(), invoice, handBack: { ...eur, charged: 999 } })
    expect(page).toContain('178.50 EUR')
    expect(page).not.toContain('999')
  })
})
