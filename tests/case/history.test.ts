/** Undo: what came before comes back, in order; a drag is one step. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { endJoin, redo, startHistory, step, undo } from '../../src/case/index.ts'

test('undoing every step leads back through all values to the first', () => {
  fc.assert(
    fc.property(fc.array(fc.integer(), { minLength: 1, maxLength: 60 }), (values) => {
      const distinct = values.filter((value, i) => i === 0 || value !== values[i - 1])
      let history = startHistory(distinct[0] ?? 0)
      for (const value of distinct.slice(1)) history = step(history, value)
      const seen: number[] = []
      for (const _ of distinct) {
        seen.push(history.present)
        history = undo(history)
      }
      expect(seen).toEqual(distinct.toReversed())
      expect(history.past).toEqual([])
    }),
  )
})

test('redo takes back an undo, and a new step forgets what was undone', () => {
  const two = step(step(startHistory('a'), 'b'), 'c')
  expect(redo(undo(two)).present).toBe('c')
  expect(redo(step(undo(two), 'd')).present).toBe('d')
})

test('steps with one key count as one until the join is ended', () => {
  let history = startHistory(0)
  for (const x of [1, 2, 3]) history = step(history, x, 'drag spill-1')
  history = endJoin(history)
  history = step(history, 4, 'drag spill-1')
  expect(undo(history).present).toBe(3)
  expect(undo(undo(history)).present).toBe(0)
})

test('redo goes through what was undone once each, and then nothing is left of it', () => {
  let history = [1, 2, 3].reduce((all, value) => step(all, value), startHistory(0))
  history = undo(undo(undo(history)))
  expect(history.future).toEqual([1, 2, 3])
  const seen: number[] = []
  for (let left = 3; left > 0; left--) {
    history = redo(history)
    seen.push(history.present)
    expect(history.future).toHaveLength(left - 1)
  }
  expect(seen).toEqual([1, 2, 3])
  expect(history.past).toEqual([0, 1, 2])
  expect(redo(history)).toBe(history)
})

test('the last 200 steps can be undone', () => {
  const values = Array.from({ length: 250 }, (_, i) => i + 1)
  let history = values.reduce((all, value) => step(all, value), startHistory(0))
  for (const _ of values) history = undo(history)
  expect(history.present).toBe(50)
  expect(undo(history)).toBe(history)
})

test('the same value again is no step, and another key is a step of its own', () => {
  const one = step(startHistory('a'), 'b', 'typing in a field')
  expect(step(one, 'b')).toBe(one)
  expect(undo(step(one, 'c', 'typing in another')).present).toBe('b')
  expect(endJoin(startHistory('a')).joinKey).toBeUndefined()
})

test.each([
  ['undone to', (history: ReturnType<typeof startHistory<number>>) => undo(history)],
  ['redone', (history: ReturnType<typeof startHistory<number>>) => redo(undo(history))],
])('what was %s is joined by no later step', (_, back) => {
  const drawn = step(step(startHistory(0), 1, 'drag'), 2)
  const before = back(step(drawn, 3, 'drag'))
  const after = step(before, 9, 'drag')
  expect(undo(after).present).toBe(before.present)
})
