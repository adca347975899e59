/** The words of the screen keep a number and its unit on one line. */
import { expect, test } from 'vitest'
import { paragraph, percent, percentOf, minutesWords } from '../../src/view/stores/words.ts'

test('a chance is said as everywhere, with its sign on the same line', () => {
  expect(percent(0.934)).toBe('93\u00a0%')
  expect(percent(0.99996)).toBe('over 99.9\u00a0%')
})

test('a number never parts from its unit at the end of a line', () => {
  expect(paragraph(['It reached 93 % at 4.0 mm.', 'More.'])).toBe('It reached 93\u00a0% at 4.0\u00a0mm. More.')
})

test('what the screen says of a share and of a time never parts from its unit either', () => {
  expect(percentOf(3, 4)).toBe('75\u00a0%')
  expect(minutesWords(150)).toBe('2\u00a0h 30\u00a0min')
})
