/** What a plan needs against what the shop has: new parts and materials, taken for a card, used, on order; donors. */
import { describe, expect, it } from 'vitest'
import {
  arrived,
  binSchema,
  binWords,
  donorsOf,
  editedLine,
  freeFor,
  giveBack,
  needOf,
  type StockDraft,
  type StockItem,
  standingOf,
  stockItemSchema,
  takeForCase,
  takenFor,
  usedUp,
  broughtBack,
  removedLine,
  stockMoves,
  usedAgain,
} from '../../src/case/index.ts'
import { loadBoard } from '../../src/board/index.ts'

const itemOf = (draft: Partial<StockDraft>): StockItem =>
  stockItemSchema.parse({ id: 'm', kind: 'memory', what: '8 Gbit', package: '180-ball', count: 5, ...draft })

function model() {
  const memory = (ref: string, x: number) =>
    ({ ref, kind: 'memory', side: 'top', at: { x, y: 20 }, package: '180-ball', value: '8 Gbit' }) as const
  const board = loadBoard({
    format: 'liftmap-board',
    version: 1,
    name: 'two',
    outline: [
      { x: 0, y: 0 },
      { x: 90, y: 0 },
      { x: 90, y: 40 },
      { x: 0, y: 40 },
    ],
    parts: [memory('U2', 20), memory('U3', 60)],
  })
  if (!board.ok) throw new Error(JSON.stringify(board.faults))
  return board.value
}

type Plan = Parameters<typeof needOf>[0]
const stepOf = (refs: readonly string[]): Plan['steps'][number] => ({
  n: 1,
  action: 'replace',
  refs,
  minutes: 4,
  cost: 3,
  why: '',
  setting: undefined,
  cautions: [],
  exposed: [],
})
const plan: Plan = {
  steps: [stepOf(['U2', 'U3'])],
  materials: [
    { what: 'new part for U2: 8 Gbit, with balls', insteadOf: 'U2', amount: '1', why: '', cost: 14 },
    // which part it is for stands apart from its words, which may be in any language
    { what: 'neues Bauteil für U3: 8 Gbit, mit Lotkugeln', insteadOf: 'U3', amount: '1', why: '', cost: 14 },
    { what: 'solder balls 0.45 mm, SAC305', amount: '180', why: '', cost: 0.4 },
    { what: 'gel flux', amount: '4 passes', why: '', cost: 2 },
  ],
}
const need = needOf(plan, model())

describe('the need of a plan', () => {
  it('is alike new parts in one line, then each material by its number or in the plan’s words', () => {
    expect(need.map(({ kind, what, count, amount, refs }) => [kind, what, count, amount, refs.join()])).toEqual([
      ['memory', '8 Gbit', 2, '2', 'U2,U3'],
      ['material', 'solder balls 0.45 mm, SAC305', 180, '180', ''],
      ['material', 'gel flux', undefined, '4 passes', ''],
    ])
    expect(need[0]?.cost).toBe(28)
  })

  const stateOf = (items: readonly StockItem[], at = 0): unknown => {
    const standing = standingOf(need, items, 'here')[at]
    return standing && [standing.state, standing.have, standing.missing]
  }

  it('is there, short by what is missing, or on order', () => {
    expect(stateOf([itemOf({ count: 2 })])).toEqual(['have', 2, 0])
    expect(stateOf([itemOf({ count: 1 })])).toEqual(['short', 1, 1])
    expect(stateOf([itemOf({ count: 1, ordered: 1 })])).toEqual(['on order', 1, 1])
    expect(stateOf([])).toEqual(['short', 0, 2])
  })

  it('names the earliest day of what is on order', () => {
    const items = [
      itemOf({ count: 0, ordered: 1, expectedOn: '2026-05-02' }),
      itemOf({ id: 'n', count: 0, ordered: 1, expectedOn: '2026-04-30' }),
    ]
    expect(standingOf(need, items, 'here')[0]?.expectedOn).toBe('2026-04-30')
  })

  it('takes no part of another package or value, and materials by their name alone', () => {
    expect(stateOf([itemOf({ package: '190-ball' })])).toEqual(['short', 0, 2])
    expect(stateOf([itemOf({ what: '16 Gbit' })])).toEqual(['short', 0, 2])
    expect(stateOf([itemOf({ kind: 'core' })])).toEqual(['short', 0, 2])
    expect(stateOf([itemOf({ kind: 'material', what: 'Gel  flux', package: '', count: 1 })], 2)).toEqual(['have', 1, 0])
  })

  it('counts nothing that another card holds', () => {
    const held = itemOf({ count: 3, reserved: [{ caseId: 'other', card: '0418', count: 2 }] })
    expect(stateOf([held])).toEqual(['short', 1, 1])
  })
})

describe('taking', () => {
  const here = { caseId: 'here', card: '0417' }
  it('reserves, more on top, and is refused beyond what is free: 5 − 2 held elsewhere = 3', () => {
    const held = itemOf({ count: 5, reserved: [{ caseId: 'other', card: '0418', count: 2 }] })
    const first = takeForCase(held, here, 2)
    if (!first.ok) throw new Error('refused')
    expect([takenFor(first.value, 'here'), freeFor(first.value, 'third')]).toEqual([2, 1])
    const second = takeForCase(first.value, here, 1)
    expect(second.ok && takenFor(second.value, 'here')).toBe(3)
    expect(second.ok && takeForCase(second.value, here, 1).ok).toBe(false)
    expect(takeForCase(held, here, 0).ok).toBe(false)
  })

  it('given back leaves the count, used up lowers it', () => {
    const taken = takeForCase(itemOf({ count: 5 }), here, 2)
    if (!taken.ok) throw new Error('refused')
    expect(giveBack(taken.value, 'here')).toEqual(itemOf({ count: 5 }))
    expect(usedUp(taken.value, 'here')).toEqual(itemOf({ count: 3 }))
  })

  it('shows as taken once the plan’s number is', () => {
    const taken = takeForCase(itemOf({ count: 2 }), here, 2)
    expect(taken.ok && standingOf(need, [taken.value], 'here')[0]?.state).toBe('taken')
  })

  it('a line that was edited keeps what was taken meanwhile, and loses only what was put back by hand', () => {
    const before = itemOf({ count: 5, place: 'drawer 1', price: 10 })
    const meanwhile = itemOf({ ...before, count: 4, reserved: [{ caseId: 'other', card: '0418', count: 2 }] })
    const { price: _, ...priceless } = itemOf({ ...before, place: 'drawer 2' })
    expect(editedLine(meanwhile, before, priceless)).toEqual(
      itemOf({ count: 4, place: 'drawer 2', reserved: meanwhile.reserved }),
    )
    expect(editedLine(meanwhile, before, before, ['other']).reserved).toEqual([])
  })

  it('what was ordered arrives: 1 and 4 are 5, and no day is expected any more', () => {
    expect(arrived(itemOf({ count: 1, ordered: 4, expectedOn: '2026-04-01' }))).toEqual(itemOf({ count: 5 }))
  })
})

describe('what the bill says of the stock', () => {
  const used = (line: string, count: number) => ({ what: 'memory', count, price: 15, stock: { line, count } })
  const byHand = { what: 'thermal pads', count: 1, price: 8 }
  const here = { caseId: 'here', card: '0417' }

  it('moves are what is used now and was not before, and back; what was billed by hand is none', () => {
    expect(stockMoves([], [used('a', 2), byHand])).toEqual([{ line: 'a', used: 2 }])
    expect(stockMoves([used('a', 2), used('b', 1)], [used('b', 1)])).toEqual([{ line: 'a', used: -2 }])
    expect(stockMoves([used('a', 2), used('a', 1)], [used('a', 3)])).toEqual([])
    expect(stockMoves([used('a', 2)], [{ ...used('a', 2), count: 5, price: 20 }])).toEqual([])
  })

  it('used pieces come back as taken: 1 left and 2 back are 3, of which 2 lie ready; used again it is 1 and none', () => {
    const left = itemOf({ count: 1 })
    const back = broughtBack(left, here, 2)
    expect(back).toEqual(itemOf({ count: 3, reserved: [{ ...here, count: 2 }] }))
    expect(usedAgain(back, here, 2)).toEqual(left)
    expect(usedAgain(itemOf({ count: 1 }), here, 2).count).toBe(0)
  })
})

describe('donors and bins', () => {
  it('each donor has what was taken from it, used up or not', () => {
    const donor = { source: 'donor', donor: '0391', count: 1 } as const
    const items = [
      itemOf({ ...donor, id: 'a', donorRef: 'U10' }),
      itemOf({ ...donor, id: 'b', donorRef: 'U2', count: 0 }),
      itemOf({ id: 'c' }),
    ]
    expect(donorsOf(items).map(({ card, taken }) => [card, taken.map(({ donorRef }) => donorRef)])).toEqual([
      ['0391', ['U2', 'U10']],
    ])
  })

  it('a donor’s line that leaves the list stays with its donor, without pieces; any other goes', () => {
    const line = itemOf({
      source: 'donor',
      donor: '0391',
      donorRef: 'U2',
      count: 1,
      ordered: 2,
      expectedOn: '2026-04-01',
    })
    const removed = removedLine(line, '2026-03-02')
    expect(removed).toMatchObject({ count: 0, ordered: 0, reserved: [], removedOn: '2026-03-02' })
    expect(donorsOf(removed === undefined ? [] : [removed]).map(({ card }) => card)).toEqual(['0391'])
    expect(removedLine(itemOf({ count: 5 }), '2026-03-02')).toBeUndefined()
    expect(removedLine(itemOf({ source: 'donor', donor: '' }), '2026-03-02')).toBeUndefined()
  })

  it('a bin is told with pin one and state, and says nothing of what was not noted', () => {
    const bin = binSchema.parse({ ref: 'U3', bin: 'A2', pinOne: 'lower left', state: 'good' })
    expect(binWords(bin)).toBe('bin A2, pin one lower left, good')
    expect(binWords(binSchema.parse({ ref: 'U3' }))).toBe('')
  })
})
