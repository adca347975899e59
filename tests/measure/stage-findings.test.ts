/** What readings at the points of stages say of each stage, what several show alike, and where supplies are probed. */
import { describe, expect, test } from 'vitest'
import {
  lineStates,
  lineVerdicts,
  lineWithKind,
  lineWords,
  measuringLines,
  type Measurement,
} from '../../src/measure/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { measured } from './measured.ts'

const bowline = shippedBoard('bowline-8')
const statesOf = (ohms: Readonly<Record<string, string>>, diode: Readonly<Record<string, string>> = {}) =>
  Object.fromEntries(lineStates(bowline, [...measured(ohms), ...measured(diode, 'diode')], []).stages)

// S1 to S3 make VCORE, S8 and S9 make VMEM
describe('a stage is', () => {
  test.each<[string, Readonly<Record<string, string>>, Readonly<Record<string, string>>]>([
    ['low by its input', { 'S1 input': '200', 'S2 input': '2k', 'S3 input': '2k' }, { S1: 'low' }],
    [
      'low by its driver',
      { 'S1 driver': '100', 'S2 driver': '2k', 'S3 driver': '2k' },
      { S1: 'low', S2: 'fine', S3: 'fine' },
    ],
    [
      'low by its enable pin',
      { 'S1 enable': '1k', 'S2 enable': '9k', 'S3 enable': '9k' },
      { S1: 'low', S2: 'fine', S3: 'fine' },
    ],
    [
      'not low by its switch node, which the windings join',
      { 'S1 switch': '0.1', 'S2 switch': '0.4', 'S3 switch': '0.4' },
      {},
    ],
    ['open by its switch node', { 'S1 switch': '12', 'S2 switch': '0.4', 'S3 switch': '0.4' }, { S1: 'open' }],
    ['not open by its input', { 'S1 input': 'OL', 'S2 input': '2k', 'S3 input': '2k' }, {}],
    ['open by its pin', { 'S1 pwm': 'OL', 'S2 pwm': '9k', 'S3 pwm': '9k' }, { S1: 'open', S2: 'fine', S3: 'fine' }],
    [
      'low before it is open',
      { 'S1 pwm': '1', 'S1 enable': 'OL', 'S2 enable': '9k', 'S3 enable': '9k' },
      { S1: 'low', S2: 'fine', S3: 'fine' },
    ],
    [
      'open before it is fine',
      { 'S1 pwm': '9k', 'S2 pwm': '9k', 'S1 enable': 'OL', 'S2 enable': '9k', 'S3 enable': '9k' },
      { S1: 'open', S2: 'fine', S3: 'fine' },
    ],
    [
      'not fine by input and switch node',
      { 'S1 input': '2k', 'S2 input': '2k', 'S1 switch': '0.4', 'S2 switch': '0.4' },
      {},
    ],
    ['no worse for a short that all that were read there show', { 'S1 driver': '0.5', 'S2 driver': '0.5' }, {}],
    [
      'low by a short that not all show',
      { 'S1 driver': '0.5', 'S2 driver': '2k', 'S3 driver': '2k' },
      { S1: 'low', S2: 'fine', S3: 'fine' },
    ],
    ['low by a short where no other was read', { 'S1 driver': '0.5' }, { S1: 'low' }],
    [
      'low by a short whatever stages of another rail read',
      { 'S1 driver': '0.5', 'S8 driver': '0.5' },
      { S1: 'low', S8: 'low' },
    ],
    ['fine where the only other is low beside it', { 'S1 pwm': '9k', 'S2 pwm': '1k' }, { S1: 'fine', S2: 'low' }],
    [
      'nothing where two of three are above it',
      { 'S1 pwm': '20k', 'S2 pwm': '9k', 'S3 pwm': '9k' },
      { S2: 'fine', S3: 'fine' },
    ],
  ])('%s', (_, ohms, states) => expect(statesOf(ohms)).toEqual(states))

  test('held against its own quantity alone: a short in diode mode is not that of ohms', () => {
    expect(statesOf({ 'S1 driver': '0.5' }, { 'S2 driver': '0' })).toEqual({ S1: 'low', S2: 'low' })
    expect(statesOf({}, { 'S1 pwm': '545', 'S2 pwm': '545', 'S3 pwm': '300' })).toEqual({
      S1: 'fine',
      S2: 'fine',
      S3: 'low',
    })
  })
})

test('siblings that read nothing at all make no other open', () => {
  const said = (typed: Readonly<Record<string, string>>) =>
    lineVerdicts(bowline, { measurements: measured(typed), goodReadings: [] }, 'ohms', 'before').find(
      ({ line }) => line.line.name === 'S1' && line.line.point === 'pwm',
    )?.verdict
  for (const nothing of ['0', 'short']) {
    const verdict = said({ 'S1 pwm': '9k', 'S2 pwm': nothing, 'S3 pwm': nothing })
    expect([verdict?.kind, verdict?.sentence]).toEqual([
      'unlike-high',
      '9 kΩ is above 0 Ω, the median of its 2 siblings.',
    ])
  }
})

describe('a supply', () => {
  test('is probed at its fuse, before it, and one that the user named nowhere in particular', () => {
    const fuse = bowline.partByRef.get('F1')
    const lines = measuringLines(bowline, 'ohms', [], [{ name: 'slot 12 V', rail: '12V', joined: false }])
    const pointsOf = (name: string) => lines.find(({ line }) => line.kind === 'supply' && line.name === name)
    expect(pointsOf('before F1')?.points).toEqual([
      { number: 1, side: fuse?.side, at: fuse?.placement.at, words: 'F1, supply side' },
    ])
    expect(pointsOf('slot 12 V')?.points).toEqual([])
    expect([pointsOf('before F1')?.isApart, pointsOf('slot 12 V')?.isApart]).toEqual([false, true])
    expect(measuringLines(bowline, 'diode').filter(({ line }) => line.kind === 'supply')).toEqual([])
  })

  // behind the fuse 2.2 kΩ: far above is more than 11 kΩ, far below less than 1.1 kΩ
  test.each([
    ['OL', 'Open, and not as 12V behind it, 2.2 kΩ: the fuse is open. Find what blew it before a new one goes in.'],
    [
      '11.1k',
      '11.1 kΩ is far above 12V behind it, 2.2 kΩ: the fuse is open. Find what blew it before a new one goes in.',
    ],
    ['11k', '11 kΩ, as 12V behind it, 2.2 kΩ: the fuse joins them.'],
    ['1k1', '1.1 kΩ, as 12V behind it, 2.2 kΩ: the fuse joins them.'],
    ['1.09k', '1.09 kΩ is far below 12V behind it, 2.2 kΩ: something leaks before the fuse.'],
    ['4', '4 Ω is less than 5 Ω: a short.'],
    ['short', 'Said to be a short, without a figure.'],
  ])('before a fuse at %s', (typed, sentence) => {
    const at = measured({ x: typed }).map(
      (each): Measurement => ({ ...each, line: { kind: 'supply', name: 'before F1' } }),
    )
    const measurements = [...measured({ '12V': '2k2' }), ...at]
    const found = lineVerdicts(bowline, { measurements, goodReadings: [] }, 'ohms', 'before')
    expect(found.find(({ line }) => line.line.name === 'before F1')?.verdict.sentence).toBe(sentence)
  })
})

test('lines are named with their kind and their point', () => {
  expect(lineWithKind({ kind: 'rail', name: 'VMEM' })).toBe('Rail VMEM')
  expect(lineWithKind({ kind: 'supply', name: 'before F1' })).toBe('Supply before F1')
  expect(lineWithKind({ kind: 'stage', name: 'S4', point: 'pwm' })).toBe('Stage S4, PWM pin')
  expect(lineWords({ kind: 'stage', name: 'S4', point: 'input' })).toBe('S4, input to switch node')
  // only a supply goes by its fuse
  expect(lineWords({ kind: 'rail', name: 'before F1' })).toBe('before F1')
  expect(lineWords({ kind: 'supply', name: 'not before F1' })).toBe('not before F1')
})
