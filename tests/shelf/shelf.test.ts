/** Both kinds of shelf keep what is put on them, with undo and redo, and refuse to overwrite. */
import { describe, expect, test } from 'vitest'
import { redo, startHistory, undo } from '../../src/case/index.ts'
import type { CaseShelf, ShelfChange } from '../../src/view/shelf/caseShelf.ts'
import { BOARD, caseOf, edited, kinds, titles, value } from './support.ts'

describe.each(kinds)('a shelf %s', (_, open) => {
  const put = async (shelf: CaseShelf, id: string, title: string, fields: Record<string, unknown> = {}) =>
    value(
      await shelf.save({ id, history: startHistory(caseOf({ title, ...fields })), boardName: BOARD, basedOnRev: 0 }),
    )

  test('gives back the case with every step of undo and redo', async () => {
    const shelf = open()
    const history = undo(undo(edited(caseOf(), 5)))
    expect(value(await shelf.save({ id: 'a', history, boardName: BOARD, basedOnRev: 0 }))).toEqual({
      kind: 'saved',
      rev: 1,
    })
    const stored = value(await shelf.load('a'))
    expect(stored.history).toEqual(history)
    expect(stored.droppedSteps).toBe(0)
    expect(redo(redo(stored.history)).present.arrival.account).toBe('edit 5')
    expect(undo(undo(undo(stored.history))).present.arrival.account).toBe('')
  })

  test('lists the last changed first, with what a list needs', async () => {
    const shelf = open()
    await put(shelf, 'a', 'first', { card: '0417', arrival: { owner: 'Ann Example', on: '2026-03-01' } })
    await put(shelf, 'b', 'second', { goodCard: true, handBack: { outcome: 'repaired' } })
    const entries = value(await shelf.list())
    expect(entries.map((entry) => entry.id)).toEqual(['b', 'a'])
    expect(entries[1]).toMatchObject({ card: '0417', owner: 'Ann Example', arrivedOn: '2026-03-01', boardName: BOARD })
    expect(entries[1]?.words).toContain('ann example')
    expect(entries[0]).toMatchObject({ goodCard: true, outcome: 'repaired', furthest: 'hand-back', rev: 1 })
  })

  test('keeps when a case was made while its changes are dated anew', async () => {
    const shelf = open()
    await put(shelf, 'a', 'first')
    const before = value(await shelf.load('a')).entry
    await shelf.save({ id: 'a', history: edited(caseOf(), 1), boardName: BOARD, basedOnRev: 1 })
    const after = value(await shelf.load('a')).entry
    expect(after.createdAt).toBe(before.createdAt)
    expect(after.changedAt).toBeGreaterThan(before.changedAt)
    expect(after.rev).toBe(2)
  })

  test('refuses a save that started from another state, and writes nothing of it', async () => {
    const shelf = open()
    await put(shelf, 'a', 'first')
    await shelf.save({ id: 'a', history: edited(caseOf(), 1), boardName: BOARD, basedOnRev: 1 })
    const late = await shelf.save({ id: 'a', history: edited(caseOf(), 9), boardName: BOARD, basedOnRev: 1 })
    expect(value(late)).toEqual({ kind: 'changed-elsewhere', rev: 2 })
    expect(value(await shelf.load('a')).history.present.arrival.account).toBe('edit 1')
  })

  test('refuses a save of a deleted case; once restored, it is as it was', async () => {
    const shelf = open()
    await put(shelf, 'a', 'first')
    const token = value(await shelf.remove('a'))
    expect(titles(await shelf.list())).toEqual([])
    expect((await shelf.load('a')).ok).toBe(false)
    const late = await shelf.save({ id: 'a', history: edited(caseOf(), 1), boardName: BOARD, basedOnRev: 1 })
    expect(value(late)).toEqual({ kind: 'deleted-elsewhere' })
    value(await shelf.restore(token))
    expect(value(await shelf.load('a')).history.present.title).toBe('first')
  })

  test('duplicates the case with a title of its own and without its history', async () => {
    const shelf = open()
    await shelf.save({ id: 'a', history: edited(caseOf({ card: '7' }), 3), boardName: BOARD, basedOnRev: 0 })
    const copy = value(await shelf.duplicate('a', 'the copy'))
    const stored = value(await shelf.load(copy))
    expect(stored.history.present).toEqual({
      ...caseOf({ card: '7', title: 'the copy' }),
      arrival: { ...caseOf().arrival, account: 'edit 3' },
    })
    expect(stored.history.past).toEqual([])
    expect(titles(await shelf.list()).toSorted()).toEqual(['a card', 'the copy'])
  })

  test('archiving is no change of the case: an open tab saves on', async () => {
    const shelf = open()
    await put(shelf, 'a', 'first')
    value(await shelf.archive('a', true))
    expect(value(await shelf.list())[0]).toMatchObject({ archived: true, rev: 1 })
    const saved = await shelf.save({ id: 'a', history: edited(caseOf(), 1), boardName: BOARD, basedOnRev: 1 })
    expect(value(saved)).toEqual({ kind: 'saved', rev: 2 })
    expect(value(await shelf.list())[0]?.archived).toBe(true)
  })

  test('tells what changed', async () => {
    const shelf = open()
    const told: ShelfChange[] = []
    const end = shelf.subscribe((change) => told.push(change))
    await put(shelf, 'a', 'first')
    await shelf.remove('a')
    end()
    await shelf.restore('a')
    expect(told.filter(({ kind }) => kind !== 'opened')).toEqual([
      { kind: 'saved', id: 'a', rev: 1, elsewhere: false },
      { kind: 'deleted', id: 'a', elsewhere: false },
    ])
  })

  test('learns from the good cards of that board alone, the last reading of each line', async () => {
    const shelf = open()
    const line = { kind: 'rail', name: 'V1' }
    const measured = (...ohms: number[]) => ({
      measurements: ohms.map((v) => ({ line, quantity: 'ohms', typed: `${v}`, reading: { kind: 'value', value: v } })),
    })
    await put(shelf, 'good', 'good', { goodCard: true, ...measured(9, 0.38) })
    await put(shelf, 'other', 'good too', { goodCard: true, ...measured(0.41) })
    await put(shelf, 'open', 'good, and asked for', { goodCard: true, ...measured(0.5) })
    await put(shelf, 'bad', 'not known good', measured(0.01))
    await put(shelf, 'demo', 'invented', { goodCard: true, demo: true, ...measured(5) })
    const after = measured(0.44).measurements.map((each) => ({ ...each, phase: 'after' }))
    await put(shelf, 'other mended', 'repaired', { handBack: { outcome: 'repaired' }, measurements: after })
    const learnt = value(await shelf.goodReadings(BOARD, 'open'))
    expect(learnt.map(({ line: of, values }) => [of.name, values])).toEqual([['V1', [0.38, 0.41, 0.44]]])
    expect(value(await shelf.goodReadings('another board', 'open'))).toEqual([])
  })

  test('gives the board of a case without the case, and says when there is no such case', async () => {
    const shelf = open()
    await put(shelf, 'a', 'first')
    const { present } = value(await shelf.load('a')).history
    expect({ inline: value(await shelf.boardOf('a')) }).toEqual(present.board)
    const missing = await shelf.boardOf('b')
    expect(missing.ok ? [] : missing.faults.map(({ found }) => found)).toEqual(['no such case on the shelf'])
  })

  test('remembers which case was open last', async () => {
    const shelf = open()
    expect(value(await shelf.lastOpen())).toBeUndefined()
    await shelf.setLastOpen('a')
    expect(value(await shelf.lastOpen())).toBe('a')
  })
})
