/** A reading beside the same point of the other stages of its rail: what most agree on stands against the rest. */
import { fc, test as prop } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import {
  judgePower,
  lineKey,
  lineStates,
  lineVerdicts,
  type Measurement,
  type Quantity,
} from '../../src/measure/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { lineOf, measured } from './measured.ts'

const bowline = shippedBoard('bowline-8')

/** S1, S2 and so on make VCORE. */
const pins = (ohms: readonly string[], point = 'pwm'): Record<string, string> =>
  Object.fromEntries(ohms.map((text, i) => [`S${i + 1} ${point}`, text]))

const verdictsOf = (typed: Readonly<Record<string, string>>, quantity: Quantity = 'ohms') => {
  const verdicts = lineVerdicts(
    bowline,
    { measurements: measured(typed, quantity), goodReadings: [] },
    quantity,
    'before',
  )
  return Object.keys(typed).map((name) => {
    const found = verdicts.find(({ line }) => lineKey(line.line) === lineKey(lineOf(name)))
    if (found === undefined) throw new Error(`${name} is no line`)
    return found.verdict
  })
}
const kinds = (ohms: readonly string[]): string[] => verdictsOf(pins(ohms)).map(({ kind }) => kind)

describe('siblings', () => {
  // within a fifth of the other stages: common practice, no source
  test.each([
    [
      ['9k', '9k', '1'],
      ['alike', 'alike', 'short'],
    ],
    [
      ['9k', '9k', '1k'],
      ['alike', 'alike', 'unlike-low'],
    ],
    [
      ['9k', '9k', '20k'],
      ['alike', 'alike', 'unlike-high'],
    ],
    [
      ['9k', '9k', '900k'],
      ['alike', 'alike', 'open'],
    ],
    [
      ['9k', '9k', 'OL'],
      ['alike', 'alike', 'open'],
    ],
    [
      ['OL', 'OL', '9k'],
      ['alike', 'alike', 'unlike-low'],
    ],
    [
      ['9k', '9k', '1k', 'OL'],
      ['alike', 'alike', 'unlike-low', 'open'],
    ],
  ])('of %j the odd one stands out, and makes no other look wrong: %j', (ohms, expected) =>
    expect(kinds(ohms)).toEqual(expected),
  )

  test('two camps of the same size tell of neither, and power is not known', () => {
    expect(kinds(['9k', '9k', '1k', '1k'])).toEqual(['apart', 'apart', 'apart', 'apart'])
    expect(kinds(['9k', '9k', 'OL', 'OL'])).toEqual(['apart', 'apart', 'apart', 'apart'])
    const measurements = measured(pins(['9k', '9k', '1k', '1k']))
    const { reasons } = judgePower(bowline, { measurements, goodReadings: [], phase: 'before' })
    expect(reasons.filter(({ sentence }) => /siblings disagree/.test(sentence)).map(({ weight }) => weight)).toEqual([
      'unknown',
      'unknown',
      'unknown',
      'unknown',
    ])
    expect([...lineStates(bowline, measurements, []).stages]).toEqual([])
  })

  test('of two that differ the lower is told, the higher is never called open for it, and both are named as one of two', () => {
    expect(kinds(['9k', '1k'])).toEqual(['unlike-high', 'unlike-low'])
    expect(verdictsOf(pins(['9k', '1k'])).map(({ sentence }) => sentence)).toEqual([
      '9 kΩ is above 1 kΩ, its only sibling. One of the two is off: hold both against a good card.',
      '1 kΩ is below 9 kΩ, its only sibling. One of the two is off: hold both against a good card. The pin may be blown, and the stage with it.',
    ])
    expect([...lineStates(bowline, measured(pins(['9k', '1k'])), []).stages]).toEqual([
      ['S1', 'fine'],
      ['S2', 'low'],
    ])
  })

  test('says what they agree on, and how many of them', () => {
    const [first, , odd] = verdictsOf(pins(['9k', '9k2', '1k', '9k4']))
    expect(first?.sentence).toBe('9 kΩ is near 9.3 kΩ, the median of 2 of its 3 siblings.')
    expect(odd?.sentence).toBe(
      '1 kΩ is below 9.2 kΩ, the median of its 3 siblings. The pin may be blown, and the stage with it.',
    )
  })

  const figures = fc.array(fc.double({ min: 5000, max: 6000, noNaN: true }), { minLength: 3, maxLength: 7 })
  const oddOne = fc.oneof(
    fc.double({ min: 6, max: 3000, noNaN: true }).map((value) => ({ kind: 'value', value }) as const),
    fc.double({ min: 9000, max: 1e9, noNaN: true }).map((value) => ({ kind: 'value', value }) as const),
    fc.constant({ kind: 'open' } as const),
  )
  prop.prop([figures, oddOne], { seed: 11, numRuns: 200 })(
    'whatever one of them reads, the others that agree stay alike',
    (values, odd) => {
      const readings = [...values.map((value) => ({ kind: 'value', value }) as const), odd]
      const measurements: Measurement[] = readings.map((reading, i) => ({
        line: { kind: 'stage', name: ['S1', 'S2', 'S3', 'S4', 'S5', 'S6', 'S7', 'S10'][i] ?? '', point: 'pwm' },
        quantity: 'ohms',
        phase: 'before',
        reading,
        typed: '',
      }))
      const found = lineVerdicts(bowline, { measurements, goodReadings: [] }, 'ohms', 'before').filter(
        ({ measurement }) => measurement !== undefined,
      )
      expect(found.filter(({ verdict }) => verdict.kind === 'alike').length).toBe(values.length)
    },
  )
})
