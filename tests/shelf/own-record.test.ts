/** Both kinds of shelf give the closed cards for the shop's own record, and keep what was chosen about it. */
import { describe, expect, test } from 'vitest'
import { startHistory } from '../../src/case/index.ts'
import { countCards, countsFileOf } from '../../src/rehearsal/index.ts'
import type { CaseShelf } from '../../src/view/shelf/caseShelf.ts'
import { BOARD, caseOf, kinds, value } from './support.ts'

const closed = (fields: Readonly<Record<string, unknown>> = {}) => ({
  arrival: { owner: 'Ann Example', on: '2026-03-01' },
  handBack: {
    on: '2026-03-09',
    outcome: 'repaired',
    causes: { settled: 'all', parts: [{ ref: 'U13', was: 'bad' }], others: [] },
  },
  ...fields,
})

describe.each(kinds)('a shelf %s', (_, open) => {
  const put = async (shelf: CaseShelf, id: string, fields: Record<string, unknown>, basedOnRev = 0) =>
    value(await shelf.save({ id, history: startHistory(caseOf(fields)), boardName: BOARD, basedOnRev }))

  test('gives closed cards whose causes were confirmed, and says how many were not', async () => {
    const shelf = open()
    await put(shelf, 'a', closed({ card: '1' }))
    await put(shelf, 'b', closed({ card: '2' }))
    await put(shelf, 'open', { card: '3' })
    await put(shelf, 'unconfirmed', { card: '4', handBack: { outcome: 'repaired' } })
    await put(shelf, 'demo', closed({ card: '5', demo: true }))
    await put(shelf, 'good', closed({ card: '6', goodCard: true }))
    await put(shelf, 'gone', closed({ card: '7' }))
    await shelf.remove('gone')
    const { cards, unconfirmed, unreadable } = value(await shelf.closedCards())
    expect(cards.map(({ board, month, known }) => [board, month, known])).toEqual([
      [BOARD, '2026-03', true],
      [BOARD, '2026-03', true],
    ])
    expect({ unconfirmed, unreadable }).toEqual({ unconfirmed: 1, unreadable: 0 })
    expect(value(await shelf.closedCards('a')).cards).toHaveLength(1)
  })

  test('a visit that lies there twice counts once, and a copy of it not at all until it is confirmed', async () => {
    const shelf = open()
    await put(shelf, 'a', closed({ card: '1' }))
    await put(shelf, 'again', closed({ card: '1', title: 'opened from its file' }))
    await shelf.duplicate('a', 'for the next card')
    expect(value(await shelf.closedCards())).toMatchObject({ cards: [{ board: BOARD }], unconfirmed: 1 })
  })

  test('reads a case anew once it changed', async () => {
    const shelf = open()
    await put(shelf, 'a', closed())
    expect(value(await shelf.closedCards()).cards[0]?.parts[0]?.was).toBe('bad')
    const { handBack } = closed()
    const causes = { ...handBack.causes, parts: [{ ref: 'U13', was: 'joints' }] }
    await put(shelf, 'a', closed({ handBack: { ...handBack, causes } }), 1)
    expect(value(await shelf.closedCards()).cards[0]?.parts[0]?.was).toBe('joints')
  })

  test('the record is not in use until it is chosen, and the choice is kept with the counts of others', async () => {
    const shelf = open()
    expect(value(await shelf.recordChoice())).toEqual({ inUse: false, pools: [] })
    await put(shelf, 'a', closed())
    const { all, boards = {} } = countsFileOf(countCards(value(await shelf.closedCards()).cards), 'with boards')
    const told: string[] = []
    shelf.subscribe(({ kind }) => told.push(kind))
    const choice = { inUse: true, pools: [{ name: 'the harbour shop', all, boards }] }
    value(await shelf.setRecordChoice(choice))
    expect(value(await shelf.recordChoice())).toEqual(choice)
    expect(told.filter((kind) => kind !== 'opened')).toEqual(['own-record'])
  })
})
