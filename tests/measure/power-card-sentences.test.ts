/** What is said about power of the card itself, whole: what lies on it, what was told, the supply at its limit; and power on the record. */
import { describe, expect, test } from 'vitest'
import {
  judgePower,
  type PowerInput,
  type PowerJudgement,
  type PowerReason,
  powerUpOf,
  type SeenMark,
} from '../../src/measure/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { measured } from './measured.ts'

const bowline = shippedBoard('bowline-8')
const well = { '12V': '2k2', VCORE: '0.6', VMEM: '62', '3V3': '1k', '0V9': '12', VPP: '300' }
const judged = (typed: Readonly<Record<string, string>>, more: Partial<PowerInput> = {}): PowerJudgement =>
  judgePower(bowline, { measurements: measured(typed), goodReadings: [], phase: 'before', ...more })
const told = ({ weight, sentence, key }: PowerReason) => [weight, sentence, key]

describe('the supply that stayed at its limit', () => {
  test.each([
    [
      0.5,
      'before',
      [
        'against',
        'The supply stayed at its limit of 0.5 A when the card had power: measure cold what draws it down.',
        'measured against at limit 0.5',
      ],
    ],
    [
      undefined,
      'before',
      [
        'against',
        'The supply stayed at its limit when the card had power: measure cold what draws it down.',
        'measured against at limit ',
      ],
    ],
    [
      2,
      'after',
      ['note', 'Before the work the supply stayed at its limit of 2 A: begin again with a low limit.', 'measured note'],
    ],
  ] as const)('%s A, %s the work', (limitA, phase, expected) => {
    const { reasons } = judged({}, { phase, powered: { limitA, atLimit: 'stays' } })
    expect(reasons.filter(({ sentence }) => sentence.includes('its limit')).map(told)).toEqual([expected])
  })
})

describe('the card itself', () => {
  const at = { x: 10, y: 10 }
  const mark = (kind: string, x = 10): SeenMark => ({ kind, side: 'top', at: { x, y: 10 } })
  const half = { VMEM: '62' }
  const ofCard = (more: Partial<PowerInput>, typed: Readonly<Record<string, string>> = well) =>
    judged(typed, more)
      .reasons.filter(({ about }) => about === 'card')
      .map(told)

  test.each<[string, Partial<PowerInput>, string[][]]>([
    [
      'a spill',
      { marks: [mark('spill')] },
      [['unknown', '1 spill marked and not marked clean: it may bridge pads that no probe reaches.', 'spills 1']],
    ],
    [
      'two spills',
      { marks: [mark('spill'), mark('spill', 30)] },
      [['unknown', '2 spills marked and not marked clean: it may bridge pads that no probe reaches.', 'spills 2']],
    ],
    [
      'residue',
      { marks: [mark('residue')] },
      [['unknown', '1 place with residue, film or corrosion, not marked clean since.', 'dirt 1']],
    ],
    [
      'film and corrosion',
      { marks: [mark('film'), mark('corrosion', 30)] },
      [['unknown', '2 places with residue, film or corrosion, not marked clean since.', 'dirt 2']],
    ],
    ['a mark of another kind', { marks: [mark('scratch')] }, []],
    [
      'a spill that was told and marked',
      { marks: [mark('spill')], arrival: { accident: 'spill' } },
      [['unknown', '1 spill marked and not marked clean: it may bridge pads that no probe reaches.', 'spills 1']],
    ],
    [
      'a spill that was told and wiped',
      { marks: [mark('film'), { kind: 'clean', side: 'top', at, radiusMm: 2 }], arrival: { accident: 'spill' } },
      [],
    ],
    [
      'a spill that was told alone',
      { arrival: { accident: 'spill' } },
      [['unknown', 'Something was spilled, and where it went is not marked.', 'spilled']],
    ],
    [
      'flux',
      { arrival: { accident: 'flux' } },
      [['unknown', 'Flux was left on it, and where is not marked: warm and damp it conducts.', 'flux']],
    ],
    [
      'a spill told, cleaned since',
      { arrival: { accident: 'spill' }, cleaned: { marks: [] } },
      [['note', 'Cleaned and dried, as noted. Nobody has looked under the parts that stayed on.', 'cleaned']],
    ],
    ['a slip, with every rail read', { arrival: { accident: 'slip' } }, []],
  ])('%s', (_, more, expected) => expect(ofCard(more)).toEqual(expected))

  const SLIP = ['unknown', 'A slipped tool may have left a short that only a meter shows.', 'slip']
  test.each<[string, Partial<PowerInput>, string[][]]>([
    ['a slip that was told', { arrival: { accident: 'slip' } }, [SLIP]],
    ['a slip that was marked', { marks: [mark('slip')] }, [SLIP]],
    [
      'nobody knows',
      { arrival: { accident: 'unknown' } },
      [['unknown', 'Nobody knows what happened to it.', 'nobody knows']],
    ],
    [
      'a slip, and powered since',
      { arrival: { accident: 'slip', poweredSince: 'yes' } },
      [SLIP, ['unknown', 'It was powered since, and may be worse for it.', 'powered since']],
    ],
    [
      'flux, and powered since',
      { arrival: { accident: 'flux', poweredSince: 'yes' } },
      [
        ['unknown', 'Flux was left on it, and where is not marked: warm and damp it conducts.', 'flux'],
        ['unknown', 'It was powered since: metal may have grown between wet joints.', 'powered since'],
      ],
    ],
    [
      'cleaned, and powered since',
      { cleaned: { marks: [] }, arrival: { accident: 'none', poweredSince: 'yes' } },
      [['note', 'Cleaned and dried, as noted. Nobody has looked under the parts that stayed on.', 'cleaned']],
    ],
  ])('with rails unread: %s', (_, more, expected) => expect(ofCard(more, half)).toEqual(expected))

  test('a mark without a name is not among those that a cleaning took care of', () => {
    const cleaned = { marks: ['a'] }
    const count = (marks: readonly SeenMark[]) =>
      ofCard({ marks, cleaned }).filter(([weight]) => weight === 'unknown').length
    expect(count([mark('spill')])).toBe(1)
    expect(count([{ ...mark('spill'), id: 'a' }])).toBe(0)
    expect(count([{ ...mark('spill'), id: 'b' }])).toBe(1)
  })
})

describe('power on the record', () => {
  const reason = (sentence: string): PowerReason => ({
    weight: 'against',
    about: 'card',
    sentence,
    lines: [],
    key: sentence,
  })
  const judgement = (reasons: readonly PowerReason[]): PowerJudgement => ({
    verdict: 'not-safe',
    words: 'Not safe to power',
    reasons,
    missing: [],
  })

  test('without a reason is refused in a whole sentence', () => {
    expect(powerUpOf(judgement([]), ' ')).toEqual({
      ok: false,
      faults: [
        {
          path: 'the reason',
          found: 'power against the verdict "Not safe to power"',
          expected: 'a typed reason',
          todo: 'Say why it gets power all the same.',
        },
      ],
    })
  })

  // the case file takes 200 reasons of 500 characters, and 2000 of why
  test('takes as much as the case file does', () => {
    const long = [reason('a'.repeat(500)), reason('b'.repeat(501)), ...Array.from({ length: 199 }, () => reason('c'))]
    const taken = powerUpOf(judgement(long), 'd'.repeat(2001))
    if (!taken.ok) throw new Error('refused')
    const { reasons, keys, against } = taken.value
    expect(reasons.slice(0, 3)).toEqual(['a'.repeat(500), `${'b'.repeat(499)}…`, 'c'])
    expect(keys).toEqual(reasons)
    expect([reasons.length, against?.length]).toEqual([200, 2000])
    expect(taken.value).not.toHaveProperty('at')
  })

  test('with the verdict keeps no reason that was typed all the same', () => {
    const taken = powerUpOf({ verdict: 'safe', words: '', reasons: [], missing: [] }, 'why not')
    expect(taken).toEqual({ ok: true, value: { verdict: 'safe', reasons: [], keys: [] } })
  })
})
