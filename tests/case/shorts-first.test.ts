/** A rail that reads short is found before any story is followed. Common practice, no source. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { loadBoard } from '../../src/board/index.ts'
import { type Case, caseSchema, shortsFirst } from '../../src/case/index.ts'
import { unwrap } from '../support/board-fixture.ts'

const board: unknown = JSON.parse(readFileSync('boards/bowline-8.json', 'utf8'))
const model = unwrap(loadBoard(board))
const withOhms = (readings: Readonly<Record<string, number>>): Case =>
  caseSchema.parse({
    format: 'liftmap-case',
    version: 3,
    title: 'shorts',
    board: { inline: board },
    measurements: Object.entries(readings).map(([name, value]) => ({
      line: { kind: 'rail', name },
      quantity: 'ohms',
      reading: { kind: 'value', value },
      typed: String(value),
    })),
  })

test('one short rail, and two, are named and come first; a rail in range is no reason', () => {
  expect(shortsFirst(model, withOhms({ VMEM: 62, VPP: 420 }), 'before')).toBeUndefined()
  expect(shortsFirst(model, withOhms({ VMEM: 1.2, VPP: 420 }), 'before')?.what).toMatch(
    /^VMEM reads short: find it first/,
  )
  expect(shortsFirst(model, withOhms({ VMEM: 1.2, VPP: 0.05 }), 'before')?.what).toMatch(
    /^VMEM and VPP read short: find them first, before any lift/,
  )
})

test('what read short before the work counts until it is read again after it', () => {
  const short = withOhms({ VMEM: 1.2 })
  expect(shortsFirst(model, short, 'after')?.what).toMatch(/^VMEM reads short/)
  const [before] = short.measurements
  const again = {
    ...short,
    measurements:
      before === undefined
        ? []
        : [before, { ...before, phase: 'after' as const, reading: { kind: 'value' as const, value: 62 } }],
  }
  expect(shortsFirst(model, again, 'after')).toBeUndefined()
})
