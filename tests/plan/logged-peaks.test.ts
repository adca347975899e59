import { expect, test } from 'vitest'
import { replan } from '../../src/plan/index.ts'
import { exposuresOf, plainBoard } from './plan-fixture.ts'

const input = {
  model: plainBoard([
    { ref: 'U2', x: 60 },
    { ref: 'U3', x: 300 },
  ]),
  lift: ['U2', 'U3'],
  exposures: exposuresOf({ U2: {}, U3: {} }),
  successProbability: 0.8,
}

/** What the notes say of U2 when its lift was logged with this peak. */
function saidOf(peakC: number): string[] {
  const planned = replan(input, [{ action: 'lift', refs: ['U2'], outcome: 'done', peakC }])
  if (!planned.ok) throw new Error('the log fits')
  return planned.value.answer.notes.filter((note) => note.startsWith('U2 peaked'))
}

test('a real peak beyond what the body bears is told: 260 °C for a thin, small lead-free body (J-STD-020)', () => {
  expect(saidOf(268)).toEqual([
    'U2 peaked at 268 °C at its lift, beyond the 260 °C that its body bears: test it, or replace it.',
  ])
})

test('a part that came off though its joints read too cold to melt puts the reading in doubt', () => {
  expect(saidOf(205)[0]).toContain('below the 217 °C at which its alloy starts to melt')
})

test('a peak inside of the window says nothing', () => {
  expect(saidOf(238)).toEqual([])
})
