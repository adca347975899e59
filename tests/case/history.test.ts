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
