/** What is said of the order in which rails come up, whole. */
import { expect, test } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import { bringUpOf, lineVerdicts } from '../../src/measure/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { measured } from './measured.ts'

const bowline = shippedBoard('bowline-8')
const up = { '12V': '12.1', '3V3': '3.3', VPP: '1.8', VCORE: '0.8', VMEM: '1.35', '0V9': '0.9' }
const said = (typed: Readonly<Record<string, string>>, model: BoardModel = bowline) =>
  bringUpOf(model, lineVerdicts(model, { measurements: measured(typed, 'volts'), goodReadings: [] }, 'volts', 'before'))
    ?.sentence
const without = (...names: string[]) => Object.fromEntries(Object.entries(up).filter(([name]) => !names.includes(name)))

// in the order 12V, 3V3, VPP, VCORE, VMEM, 0V9; 3.3 V ± 9 %, 1.35 V ± 3 %, 1.8 V ± 3 %
test.each<[Readonly<Record<string, string>>, string]>([
  [up, 'Every rail came up.'],
  [without('VPP', '0V9'), 'What was read came up; not read: VPP and 0V9.'],
  [{ ...up, VMEM: '3' }, 'VMEM reads too high: look at it first. Every other rail came up.'],
  [{ ...up, VMEM: '3', VPP: '3' }, 'VPP and VMEM read too high: look at them first. Every other rail came up.'],
  [
    { ...without('VPP'), VMEM: '3' },
    'VMEM reads too high: look at it first. What else was read came up; not read: VPP.',
  ],
  [
    { ...up, '12V': '0' },
    'Input 12V did not come up: look at the supply, its limit, the cable and the fuses first. The rails behind it tell nothing.',
  ],
  [
    { ...up, '12V': '6' },
    'Input 12V came up too low: look at the supply, its limit, the cable and the fuses first. The rails behind it tell nothing.',
  ],
  [{ ...without('3V3', 'VPP'), VMEM: '0' }, 'VMEM did not come up. Read first what comes before it: 3V3 and VPP.'],
  [{ ...without('VPP'), VMEM: '1' }, 'VMEM came up too low. Read first what comes before it: VPP.'],
  [{ ...up, VMEM: '0' }, 'VMEM is the first that did not come up.'],
  [{ ...up, VMEM: '1' }, 'VMEM is the first that came up too low.'],
  [{ ...without('0V9'), VMEM: '0' }, 'VMEM is the first that did not come up.'],
  [
    { ...up, VCORE: '0', VMEM: '0', '0V9': '0.5' },
    'VCORE is the first that did not come up. VMEM and 0V9 may only wait for it.',
  ],
])('%j', (typed, sentence) => expect(said(typed)).toBe(sentence))

test('with nothing before it the power may have been off', () => {
  const model = { ...bowline, rails: bowline.rails.filter(({ name }) => name !== '12V') }
  const off = ', and nothing comes before it: see that the power was on.'
  expect(said({ '3V3': '0' }, model)).toBe(`3V3 did not come up${off}`)
  expect(said({ '3V3': '2' }, model)).toBe(`3V3 came up too low${off}`)
})
