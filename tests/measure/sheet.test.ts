/** The measuring sheet: its lines, what they are held against, and the verdict of each. */
import { fc, test as prop } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import {
  type GoodReadings,
  learnRanges,
  lineKey,
  lineStates,
  lineVerdicts,
  type Measurement,
  measuringLines,
  type Quantity,
  usualOhms,
  type Verdict,
  verdictKinds,
} from '../../src/measure/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import { SHIPPED, shippedBoard } from '../support/read-board.ts'
import { stackedBoard } from '../support/stacked-board.ts'
import { lineOf, measured, padOn } from './measured.ts'

const bowline = shippedBoard('bowline-8')

const verdictOn = (
  typed: Readonly<Record<string, string>>,
  name: string,
  more: {
    readonly quantity?: Quantity
    readonly goodReadings?: readonly GoodReadings[]
    readonly model?: BoardModel
  } = {},
): Verdict => {
  const { quantity = 'ohms', goodReadings = [], model = bowline } = more
  const measurements = measured(typed, quantity)
  const found = lineVerdicts(model, { measurements, goodReadings }, quantity, 'before').find(
    ({ line }) => lineKey(line.line) === lineKey(lineOf(name)),
  )
  if (found === undefined) throw new Error(`${name} is no line`)
  return found.verdict
}

const good = (name: string, values: number[], quantity: Quantity = 'ohms'): GoodReadings => ({
  line: lineOf(name),
  quantity,
  values,
})

/** The board as a file might give it that knows no resistances. */
const unknowing = {
  ...bowline,
  rails: bowline.rails.map(({ name, nominalV = 1, stages, feeds, branches, points }) => ({
    name,
    nominalV,
    stages,
    feeds,
    branches,
    points,
  })),
}

describe('lines', () => {
  test.each(SHIPPED)(
    'every rail and every power stage of %s stands on the sheet, each point once, stages under their rail',
    (name) => {
      const model = shippedBoard(name)
      for (const quantity of ['ohms', 'volts'] as const) {
        const lines = measuringLines(model, quantity)
        const keys = lines.map(({ line }) => lineKey(line))
        expect(new Set(keys).size).toBe(keys.length)
        const stages = model.parts.filter(({ kind }) => kind === 'power-stage').map(({ ref }) => `stage ${ref}`)
        const rails = model.rails.map((rail) => `rail ${rail.name}`)
        const ofBoard = lines.filter(({ line }) => line.kind !== 'supply')
        expect(new Set(ofBoard.map(({ line: { kind, name: of } }) => `${kind} ${of}`))).toEqual(
          new Set([...rails, ...stages]),
        )
        expect(lines.filter(({ line }) => line.kind === 'stage' && line.point === undefined)).toEqual([])
        for (const { line, rail } of lines) {
          if (line.kind === 'stage' && rail !== undefined) {
            expect(model.rails.find((each) => each.name === rail)?.stages).toContain(line.name)
          }
        }
      }
    },
  )

  test('every line says where to probe, points numbered from 1', () => {
    for (const { points } of measuringLines(bowline, 'ohms')) {
      expect(points.length).toBeGreaterThan(0)
      expect(points.map(({ number }) => number)).toEqual(points.map((_, i) => i + 1))
    }
    const ofS1 = measuringLines(bowline, 'ohms').filter(({ line }) => line.name === 'S1')
    expect(ofS1.map(({ line, points }) => [line.point, points.map(({ words }) => words).join(', ')])).toEqual([
      ['input', 'S1, L1 beside it'],
      ['switch', 'L1 beside it'],
      ['driver', 'S1'],
      ['enable', 'S1'],
      ['pwm', 'S1'],
    ])
  })

  test('a net that stage and inductor share names the switch side', () => {
    const parts = bowline.parts.map((part) =>
      part.ref === 'S1'
        ? { ...part, pads: [padOn('SW1', '1', 1)] }
        : part.ref === 'L5'
          ? { ...part, pads: [padOn('SW1', '1', 2), padOn('VCORE', '1', 3)] }
          : part,
    )
    const model = { ...bowline, parts, partByRef: new Map(parts.map((part) => [part.ref, part])) }
    const s1 = measuringLines(model, 'ohms').find(({ line }) => line.name === 'S1' && line.point === 'switch')
    expect(s1?.points[0]).toMatchObject({ words: 'L5, switch side', at: { x: 2, y: 0 } })
  })
})

describe('ranges learnt from good cards', () => {
  // Worked example of the median absolute deviation: 1, 1, 2, 2, 4, 6, 9 has median 2 and MAD 1 (common textbook example).
  // 1.4826: Rousseeuw and Croux 1993, Alternatives to the Median Absolute Deviation.
  test('median and scaled median deviation of the textbook example', () => {
    const learnt = learnRanges([good('VMEM', [1, 1, 2, 2, 4, 6, 9], 'volts')]).get('volts rail VMEM')
    expect(learnt?.median).toBe(2)
    expect(learnt?.range?.low).toBeCloseTo(2 - 3 * 1.4826, 3)
    expect(learnt?.range?.high).toBeCloseTo(2 + 3 * 1.4826, 3)
  })

  test('resistances are the same by their logarithms', () => {
    const values = [1, 1, 2, 2, 4, 6, 9].map((x) => Math.exp(x / 10))
    const range = learnRanges([good('VMEM', values)]).get('ohms rail VMEM')?.range
    expect(Math.log(range?.low ?? 0)).toBeCloseTo((2 - 3 * 1.4826) / 10, 1)
    expect(Math.log(range?.high ?? 0)).toBeCloseTo((2 + 3 * 1.4826) / 10, 1)
  })

  test('says median, number of cards and range; four cards make no range yet', () => {
    const values = [62, 58, 66, 60, 64, 71, 55]
    expect(learnRanges([good('VMEM', values)]).get('ohms rail VMEM')?.words).toMatch(
      /^median 62 Ω on 7 good cards of this board; \d+ to \d+ Ω$/,
    )
    const few = learnRanges([good('VMEM', values.slice(0, 4))]).get('ohms rail VMEM')
    expect([few?.range, few?.words]).toEqual([
      undefined,
      'median 61 Ω on 4 good cards of this board; a range comes with 5',
    ])
    expect(learnRanges([good('VMEM', [0, 0])]).size).toBe(0)
  })

  const cards = fc.array(fc.double({ min: 0.01, max: 1e6, noNaN: true }), { minLength: 5, maxLength: 30 })
  prop.prop([cards, fc.double({ min: 0.01, max: 100, noNaN: true })], { seed: 7, numRuns: 300 })(
    'the median lies inside of the range, which is never narrower than a fifth and scales with the readings',
    (values, factor) => {
      const learnt = learnRanges([good('VMEM', values)]).get('ohms rail VMEM')
      const { low = NaN, high = NaN } = learnt?.range ?? {}
      const median = learnt?.median ?? NaN
      expect(low).toBeLessThanOrEqual(median / 1.13)
      expect(high).toBeGreaterThanOrEqual(median * 1.13)
      const scaled = learnRanges([
        good(
          'VMEM',
          values.map((value) => value * factor),
        ),
      ]).get('ohms rail VMEM')?.range
      expect((scaled?.low ?? 0) / factor / low).toBeCloseTo(1, 0)
    },
  )

  prop.prop(
    [
      fc.array(fc.double({ min: 50, max: 70, noNaN: true }), { minLength: 9, maxLength: 20 }),
      fc.double({ min: 0.001, max: 1e6, noNaN: true }),
    ],
    { seed: 7, numRuns: 200 },
  )('one wrong card among nine or more moves the range by no more than the others spread', (values, wrong) => {
    const range = learnRanges([good('VMEM', [...values, wrong])]).get('ohms rail VMEM')?.range
    expect(range?.low).toBeGreaterThan(50 / (70 / 50) ** 4.5)
    expect(range?.high).toBeLessThan(70 * (70 / 50) ** 4.5)
  })

  test('a learnt range stands before the board’s own, and the board’s is still said', () => {
    const line = measuringLines(bowline, 'ohms', [good('VMEM', [62, 58, 66, 60, 64])]).find(
      ({ line: { name } }) => name === 'VMEM',
    )
    expect(line?.reference.from).toBe('learnt')
    expect(line?.besides).toBe('the board’s file says 20 to 150 Ω (common practice, no source)')
  })
})

describe('verdicts', () => {
  // the trade's table of usual resistances to ground, column "short"; common practice, no source
  test.each([
    ['12V', '4', 'short'],
    ['12V', '150', 'low'],
    ['12V', '600', 'below'],
    ['12V', '2k2', 'in-range'],
    ['12V', '200k', 'above'],
    ['VMEM', '1.5', 'short'],
    ['VMEM', '8', 'low'],
    ['VMEM', '15', 'below'],
    ['VMEM', '62', 'in-range'],
    ['3V3', '1', 'short'],
    ['VPP', '0.5', 'short'],
    ['VPP', '15', 'low'],
    ['0V9', '0.3', 'short'],
    ['0V9', '2', 'low'],
    ['VCORE', '0.04', 'short'],
    ['VCORE', '0.3', 'in-range'],
    ['VMEM', 'OL', 'open'],
    ['VMEM', 'short', 'short'],
    ['VMEM', '0', 'short'],
  ])('%s at %s is %s', (rail, typed, kind) => expect(verdictOn({ [rail]: typed }, rail).kind).toBe(kind))

  test('a low core rail is said to be low by nature', () => {
    expect(verdictOn({ VCORE: '300m' }, 'VCORE').sentence).toBe(
      '300 mΩ is within 200 mΩ to 2 Ω (common practice, no source). A core rail reads low by nature: compare it with a good card of this board.',
    )
  })

  test('what a good card reads is no short, however low', () => {
    const goodReadings = [good('VMEM', [1.5, 1.4, 1.6, 1.5, 1.5])]
    expect(verdictOn({ VMEM: '1.5' }, 'VMEM', { goodReadings }).kind).toBe('in-range')
    expect(verdictOn({ VMEM: '0.9' }, 'VMEM', { goodReadings }).kind).toBe('short')
  })

  test('a hint neither passes nor fails', () => {
    expect(verdictOn({ VMEM: '62' }, 'VMEM', { model: unknowing }).kind).toBe('usual')
    expect(verdictOn({ VMEM: '15' }, 'VMEM', { model: unknowing }).kind).toBe('unusual')
    const states = lineStates(unknowing, measured({ VMEM: '15', '12V': '2k' }), [])
    expect(states.rails.size).toBe(0)
    for (const { source, reason } of usualOhms)
      expect([/^(?:common practice|stated), no source$/.test(source), reason !== '']).toEqual([true, true])
  })

  // within 20 % of the sibling stages: common practice, no source
  test.each([
    ['12k', 'alike'],
    ['13k', 'alike'],
    ['8k', 'unlike-low'],
    ['17k', 'unlike-high'],
    ['200k', 'open'],
    ['OL', 'open'],
    ['2', 'short'],
  ])('a PWM pin at %s Ω beside siblings at 12 kΩ is %s', (typed, kind) => {
    const siblings = { 'S2 pwm': '12k', 'S3 pwm': '12k4', 'S4 pwm': '11k6' }
    expect(verdictOn({ ...siblings, 'S1 pwm': typed }, 'S1 pwm').kind).toBe(kind)
  })

  test('pins that all read open are alike, and one among them that reads a figure is not', () => {
    const siblings = { 'S2 enable': 'OL', 'S3 enable': 'OL', 'S4 enable': 'OL' }
    expect(verdictOn({ ...siblings, 'S1 enable': 'OL' }, 'S1 enable').kind).toBe('alike')
    expect(verdictOn({ ...siblings, 'S1 enable': '40k' }, 'S1 enable').kind).toBe('unlike-low')
  })

  test('points are held against the same point of siblings alone', () => {
    const typed = { 'S1 pwm': '12k', 'S2 enable': '80k', 'S3 driver': '900' }
    expect(verdictOn(typed, 'S1 pwm').kind).toBe('no-range')
  })

  test('without a measured sibling only what is usual is left, where anything is', () => {
    expect(verdictOn({ 'S1 pwm': '12k' }, 'S1 pwm').kind).toBe('no-range')
    expect(verdictOn({ 'S1 input': '3k' }, 'S1 input').kind).toBe('usual')
    expect(verdictOn({ 'S1 input': '40' }, 'S1 input').kind).toBe('unusual')
    expect(verdictOn({ 'S13 driver': '60' }, 'S13 driver').kind).toBe('unusual')
  })

  // nominal voltage and tolerance as the board gives them: 1.35 V ± 3 %
  test.each([
    ['VMEM', '1.35', 'in-range'],
    ['VMEM', '1.3095', 'in-range'],
    ['VMEM', '1.30', 'below'],
    ['VMEM', '1,40 V', 'above'],
    ['VMEM', '20 mV', 'no-voltage'],
    ['VMEM', '-1.35', 'below-zero'],
    ['12V', '12,1', 'in-range'],
    ['12V', 'OL', 'above'],
  ])('%s at %s is %s', (rail, typed, kind) => {
    expect(verdictOn({ [rail]: typed }, rail, { quantity: 'volts' }).kind).toBe(kind)
  })

  test('a voltage below zero is held against no range, because the probes may be swapped', () => {
    expect(verdictOn({ VMEM: '-1.35' }, 'VMEM', { quantity: 'volts' }).sentence).toBe(
      '-1.35 V is below zero: the probes may be swapped. Read it again.',
    )
  })

  test('the last reading of a line counts, and each phase by itself', () => {
    const measurements: Measurement[] = [
      ...measured({ VMEM: '1' }),
      ...measured({ VMEM: '62' }),
      ...measured({ VMEM: '2' }, 'ohms', 'after'),
    ]
    const kinds = (['before', 'after'] as const).map(
      (phase) =>
        lineVerdicts(bowline, { measurements, goodReadings: [] }, 'ohms', phase).find(
          ({ line }) => line.line.name === 'VMEM',
        )?.verdict.kind,
    )
    expect(kinds).toEqual(['in-range', 'low'])
  })

  test('every verdict has a word and a shape of its own kind', () => {
    const { word, shape, sentence } = verdictOn({}, 'VMEM')
    expect([word, shape, sentence]).toEqual([
      'not measured',
      'ring',
      'Not measured yet; 20 to 150 Ω (common practice, no source).',
    ])
    expect(verdictKinds.length).toBe(new Set(verdictKinds).size)
  })

  prop.prop([fc.double({ min: 0, max: 1e9, noNaN: true }), fc.double({ min: 1, max: 100, noNaN: true })], {
    seed: 3,
    numRuns: 300,
  })('more ohms are never a worse verdict towards a short', (ohm, factor) => {
    const rank = (value: number): number => {
      const measurements: Measurement[] = [
        {
          line: { kind: 'rail', name: 'VMEM' },
          quantity: 'ohms',
          phase: 'before',
          reading: { kind: 'value', value },
          typed: '',
        },
      ]
      const kind =
        lineVerdicts(bowline, { measurements, goodReadings: [] }, 'ohms', 'before').find(
          ({ measurement }) => measurement,
        )?.verdict.kind ?? 'ring'
      return ['short', 'low', 'below', 'in-range', 'above'].indexOf(kind)
    }
    expect(rank(ohm * factor)).toBeGreaterThanOrEqual(rank(ohm))
  })
})

describe('what lines say to the stories', () => {
  test('rails and stages are low, open or fine; what says nothing is left out', () => {
    const typed = {
      'S1 pwm': '12k',
      'S2 pwm': '12k',
      'S3 pwm': '4k',
      'S4 pwm': 'OL',
      'S13 pwm': '9k',
    }
    const ofRails = { '12V': '2k', VMEM: '1', VPP: 'OL' }
    const { rails, stages } = lineStates(bowline, measured({ ...ofRails, ...typed }), [])
    expect([...rails]).toEqual([
      ['12V', 'fine'],
      ['VMEM', 'low'],
      ['VPP', 'open'],
    ])
    expect([...stages]).toEqual([
      ['S1', 'fine'],
      ['S2', 'fine'],
      ['S3', 'low'],
      ['S4', 'open'],
    ])
  })

  test('one pin that is off outweighs others that are alike', () => {
    const alike = { 'S1 enable': '80k', 'S2 enable': '80k', 'S3 enable': '80k' }
    const typed = { ...alike, 'S1 pwm': '12k', 'S2 pwm': '12k', 'S3 pwm': '1' }
    expect(lineStates(bowline, measured(typed), []).stages.get('S3')).toBe('low')
  })

  // the windings join all switch nodes, and the inputs hang on one rail
  test('what all stages show through windings and input calls none of them fine or low', () => {
    const at = (point: string, ohms: string): Record<string, string> =>
      Object.fromEntries(['S1', 'S2', 'S3'].map((ref) => [`${ref} ${point}`, ohms]))
    expect(lineStates(bowline, measured(at('switch', '0.4')), []).stages.size).toBe(0)
    expect(lineStates(bowline, measured({ ...at('switch', '0.4'), 'S2 switch': '0.1' }), []).stages.size).toBe(0)
    expect(lineStates(bowline, measured(at('input', '2k')), []).stages.size).toBe(0)
    expect(lineStates(bowline, measured(at('input', '0.5')), []).stages.size).toBe(0)
    const open = lineStates(bowline, measured({ ...at('switch', '0.4'), 'S2 switch': '30' }), []).stages
    expect([...open]).toEqual([['S2', 'open']])
  })

  test('what is above its siblings, or a rail far above its range, is not fine', () => {
    const typed = { 'S1 pwm': '12k', 'S2 pwm': '12k', 'S3 pwm': '12k', 'S4 pwm': '18k', VCORE: '380' }
    const { rails, stages } = lineStates(bowline, measured(typed), [])
    expect([...rails]).toEqual([])
    expect([...stages.keys()]).toEqual(['S1', 'S2', 'S3'])
  })

  test('a supply that all drivers share and that is short is no stage’s own', () => {
    const typed = { 'S1 driver': '1', 'S2 driver': '0.9', 'S3 driver': 'short' }
    expect([...lineStates(bowline, measured(typed), []).stages]).toEqual([])
    const one = { 'S1 driver': '1', 'S2 driver': '900', 'S3 driver': '900' }
    expect(lineStates(bowline, measured(one), []).stages.get('S1')).toBe('low')
  })

  test('readings after the work and voltages are no findings about the card as it came', () => {
    const later = [...measured({ VMEM: '1' }, 'ohms', 'after'), ...measured({ VMEM: '0' }, 'volts')]
    expect(lineStates(bowline, later, []).rails.size).toBe(0)
  })
})

describe('supplies of stacks on the core', () => {
  // habits of the trade are of packages on the board; of stacks there is none to give (common practice, no source)
  const verdict = (name: string, typed: string) => verdictOn({ [name]: typed }, name, { model: stackedBoard() })

  test.each(['VMEM', 'VPP'])('%s is held to no habit, and a short of it still counts', (name) => {
    const line = measuringLines(stackedBoard(), 'ohms').find((each) => each.line.name === name)
    expect(line?.reference).toMatchObject({ from: 'none', low: undefined, high: undefined })
    expect(verdict(name, '8')).toMatchObject({
      kind: 'no-range',
      sentence: '8 Ω: nothing is usual for supplies of stacks on the core: hold it against a good card of this board.',
    })
    expect(verdict(name, '0.2').kind).toBe('short')
  })

  test('good cards give it a range as they do any other rail', () => {
    const goodReadings = [good('VMEM', [7.9, 8, 8.1, 8, 8.2])]
    const typed = (value: string) => verdictOn({ VMEM: value }, 'VMEM', { model: stackedBoard(), goodReadings }).kind
    expect([typed('8'), typed('2')]).toEqual(['in-range', 'low'])
  })
})
