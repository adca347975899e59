/** What the technician's record says of readings under power and at several supplies. */
import { expect, test } from 'vitest'
import { recordHtml, recordOf } from '../../src/case/index.ts'
import { openFull } from '../support/recordCase.ts'

const wordsOf = (html: string): string =>
  html
    .replace(/<style>[\s\S]*?<\/style>/, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')

const memory = { kind: 'rail', name: 'VMEM' }
const reading = (value: number) => ({ kind: 'value', value })

test('a voltage is told with what the card did meanwhile, and every supply with its rail or as not read', async () => {
  const opened = await openFull((plain) => ({
    ...plain,
    supplies: [
      { name: 'slot 12 V', rail: 'VMEM', joined: false },
      { name: 'J5 pin 1', rail: 'VMEM', joined: true },
    ],
    measurements: [
      { line: memory, quantity: 'volts', reading: reading(1.36), state: 'idle', typed: '1.36' },
      { line: memory, quantity: 'volts', phase: 'after', reading: reading(1.33), state: 'load', typed: '1.33' },
      { line: { kind: 'supply', name: 'slot 12 V' }, quantity: 'ohms', reading: reading(5200), typed: '5k2' },
    ],
  }))
  const words = wordsOf(recordHtml(recordOf({ ...opened, audience: 'technician', today: '2026-03-20' })))
  expect(words).toContain('1.36 V idle, as is usual')
  expect(words).toContain('1.33 V under load, as is usual')
  expect(words).toMatch(/supply slot 12 V, to VMEM \S.* 5\.2 kΩ/)
  expect(words).toMatch(/Cold resistance to ground, not measured: (supply|supplies) .*J5 pin 1/)
})
