/** Several supplies to one input, and a second supply of the core. */
import { describe, expect, test } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import { caseSchema } from '../../src/case/index.ts'
import {
  judgePower,
  lineKey,
  lineVerdicts,
  type Measurement,
  measuringLines,
  readTyped,
  type Supply,
  useOfRail,
} from '../../src/measure/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { measured, padOn } from './measured.ts'

const bowline = shippedBoard('bowline-8')
const stages = ['S1', 'S2', 'S3', 'S4', 'S5', 'S6', 'S7', 'S10', 'S11']
const rails = { '12V': '2k2', VCORE: '0.6', VMEM: '62', '3V3': '1k', '0V9': '12', VPP: '300' }
const well = measured({
  ...rails,
  ...Object.fromEntries(stages.map((ref) => [`${ref} input`, '2k'])),
})
const slot: Supply = { name: 'slot 12 V', rail: '12V', joined: false }

const at = (name: string, text: string): Measurement => {
  const read = readTyped(text, 'ohms')
  if (!read.ok) throw new Error(`${text} can't be read`)
  return { line: { kind: 'supply', name }, quantity: 'ohms', phase: 'before', reading: read.value.reading, typed: text }
}
const judged = (more: readonly Measurement[], supplies: readonly Supply[] = []) =>
  judgePower(bowline, {
    measurements: [...well, ...more],
    goodReadings: [],
    leads: { kind: 'zeroed' },
    phase: 'before',
    supplies,
  })
const kindOf = (name: string, text: string, supplies: readonly Supply[] = []): string | undefined =>
  lineVerdicts(bowline, { measurements: [...well, at(name, text)], goodReadings: [], supplies }, 'ohms', 'before').find(
    ({ line }) => lineKey(line.line) === `supply ${name}`,
  )?.verdict.kind

describe('supplies of an input', () => {
  test('before every fuse of the board there is one, under the input rail, in ohms and in volts', () => {
    for (const quantity of ['ohms', 'volts'] as const) {
      const lines = measuringLines(bowline, quantity).filter(({ line }) => line.kind === 'supply')
      expect(lines.map(({ line, rail }) => [line.name, rail])).toEqual([
        ['before F1', '12V'],
        ['before F2', '12V'],
        ['before F3', '12V'],
      ])
    }
  })

  test('with nets a fuse belongs to the rail that it is joined to, however many inputs there are', () => {
    const inputs = [
      ...bowline.rails,
      { name: '12V_AUX', nominalV: 12, stages: [], feeds: [], branches: [], points: [] },
    ]
    const parts = bowline.parts.map((part) =>
      part.ref === 'F1' ? { ...part, pads: [padOn('IN1', '1'), padOn('12V_AUX', '2')] } : part,
    )
    const lines = measuringLines({ ...bowline, rails: inputs, parts }, 'ohms').filter(
      ({ line }) => line.kind === 'supply',
    )
    expect(lines.map(({ line, rail }) => [line.name, rail])).toEqual([['before F1', '12V_AUX']])
  })

  // through a whole fuse both sides are one node
  test.each([
    ['2k2', 'alike'],
    ['3k', 'alike'],
    ['OL', 'open'],
    ['50k', 'open'],
    ['300', 'unlike-low'],
    ['1', 'short'],
  ])('before a fuse %s beside 2.2 kΩ behind it is %s', (text, kind) => expect(kindOf('before F1', text)).toBe(kind))

  test.each([
    ['3k', '3 kΩ, as 12V behind it, 2.2 kΩ: the fuse joins them.'],
    ['300', '300 Ω is far below 12V behind it, 2.2 kΩ: something leaks before the fuse.'],
    ['50k', /^50 kΩ is far above 12V behind it, 2\.2 kΩ: the fuse is open\. ./],
    ['OL', /^Open, and not as 12V behind it, 2\.2 kΩ: the fuse is open\. ./],
  ])('and says both readings and what that means for the fuse: %s', (text, words) => {
    const read = { measurements: [...well, at('before F1', text)], goodReadings: [] }
    const found = lineVerdicts(bowline, read, 'ohms', 'before').find(
      ({ line }) => lineKey(line.line) === 'supply before F1',
    )
    if (typeof words === 'string') expect(found?.verdict.sentence).toBe(words)
    else expect(found?.verdict.sentence).toMatch(words)
  })

  test('a supply by itself is held to its rail’s range, not to its reading', () => {
    expect(kindOf('slot 12 V', '20k', [slot])).toBe('in-range')
    expect(kindOf('slot 12 V', '4', [slot])).toBe('short')
  })

  test('a short at any supply forbids power, a fuse that is open leaves it not known and says what to do', () => {
    expect(judged([at('before F2', '1')]).verdict).toBe('not-safe')
    const { verdict, reasons } = judged([at('before F2', 'OL')])
    expect(verdict).toBe('not-known')
    expect(reasons[0]?.sentence).toMatch(/Supply before F2, open: .*Find what blew it before a new one goes in\./)
  })

  test('one that no fuse joins to the rail must be read, the others may', () => {
    expect(judged([]).verdict).toBe('safe')
    expect(
      judged([])
        .reasons.map(({ sentence }) => sentence)
        .join(' '),
    ).toContain('Supplies not read: before F1, before F2 and before F3.')
    expect(judged([], [slot])).toMatchObject({ verdict: 'not-known' })
    expect(judged([at('slot 12 V', '5k')], [slot]).verdict).toBe('safe')
  })

  test('a reading weighs at a supply what it weighs at its rail, and is asked for in the same words', () => {
    const good = [2200, 2100, 2300, 2250, 2150]
    const goodReadings = (['rail', 'supply'] as const).map((kind) => ({
      line: { kind, name: kind === 'rail' ? '12V' : slot.name },
      quantity: 'ohms' as const,
      values: good,
    }))
    const weightOf = (line: Measurement['line'], text: string): string | undefined => {
      const all = measured({ ...rails, '12V': line.kind === 'rail' ? text : '2k2' })
      const measurements = line.kind === 'rail' ? all : [...all, at(line.name, text)]
      const { reasons } = judgePower(bowline, { measurements, goodReadings, phase: 'before', supplies: [slot] })
      return reasons.find(({ lines: [of] }) => of !== undefined && lineKey(of) === lineKey(line))?.weight
    }
    for (const text of ['1', '150', '1k2', 'OL', '90k', '2k2']) {
      expect([text, weightOf({ kind: 'supply', name: slot.name }, text)]).toEqual([
        text,
        weightOf({ kind: 'rail', name: '12V' }, text),
      ])
    }
    const after = judgePower(bowline, { measurements: well, goodReadings: [], phase: 'after', supplies: [slot] })
    expect(after.reasons.map(({ sentence }) => sentence)).toEqual(
      expect.arrayContaining([
        'Supply not read after the work: slot 12 V.',
        'Supplies not read after the work: before F1, before F2 and before F3.',
      ]),
    )
  })

  test('a case without supplies opens as before, and with them keeps them', () => {
    const bare = { format: 'liftmap-case', title: 'x', board: { path: 'x.json' } }
    const version: unknown = caseSchema.shape.version.value
    expect(caseSchema.parse({ ...bare, version }).supplies).toEqual([])
    expect(caseSchema.parse({ ...bare, version, supplies: [slot] }).supplies).toEqual([slot])
  })
})

describe('a second supply of the core', () => {
  /** S10 and S11 make a rail of their own for the same die. */
  const two: BoardModel = {
    ...bowline,
    rails: bowline.rails.flatMap((rail) => {
      if (rail.name !== 'VCORE') return [rail]
      const { ohmsToGround: _, copper: __, ...bare } = rail
      return [
        { ...rail, stages: rail.stages.filter((ref) => ref !== 'S10' && ref !== 'S11') },
        { ...bare, name: 'VCORE2', stages: ['S10', 'S11'], feeds: ['U1'], points: [] },
      ]
    }),
  }

  test('is the core’s too, and the one with the most stages is the first', () => {
    expect(two.rails.map((rail) => [rail.name, useOfRail(two, rail)])).toEqual([
      ['12V', 'input'],
      ['VCORE', 'core'],
      ['VCORE2', 'second core'],
      ['VMEM', 'memory'],
      ['3V3', 'any'],
      ['0V9', 'any'],
      ['VPP', 'memory'],
    ])
  })

  test('reads low by nature, and has stages that are compared with each other alone', () => {
    const verdicts = (ohms: string) =>
      lineVerdicts(
        two,
        {
          measurements: measured({ VCORE2: ohms, 'S10 pwm': '9k', 'S11 pwm': '9k', 'S1 pwm': '20k' }),
          goodReadings: [],
        },
        'ohms',
        'before',
      )
    const of = (ohms: string, name: string) => verdicts(ohms).find(({ line }) => lineKey(line.line) === name)?.verdict
    expect(of('1.5', 'rail VCORE2')?.kind).toBe('usual')
    expect(of('1.5', 'rail VCORE2')?.sentence).toContain('reads low by nature')
    expect(of('0.05', 'rail VCORE2')?.kind).toBe('short')
    expect(of('1.5', 'stage S10 pwm')?.kind).toBe('alike')
  })
})
