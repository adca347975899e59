/** Whether to power a card: never more than that nothing measured speaks against it. */
import { fc, test as prop } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import {
  judgePower,
  lineStates,
  lineVerdicts,
  type PowerInput,
  powerUpOf,
  powerUpSchema,
  type SeenMark,
} from '../../src/measure/index.ts'
import type { Point } from '../../src/base/index.ts'
import { loadBoard } from '../../src/board/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { measured } from './measured.ts'
import { atCoreStages, bowline, coreStages, judged, well, wellRails } from './well-card.ts'

const at = { x: 10, y: 10 }
const film: SeenMark = { kind: 'film', side: 'top', at, radiusMm: 3 }

describe('the rule of thumb', () => {
  test('every rail measured and fine: nothing measured speaks against it, and that is no promise', () => {
    const { verdict, words, reasons, missing } = judged(well)
    expect([verdict, words, missing]).toEqual(['safe', 'No reading so far says don’t power it', []])
    expect(reasons[0]?.sentence).toContain('no promise')
    expect(reasons.map(({ sentence }) => sentence).join(' ')).not.toMatch(/\bis safe\b/)
  })

  // common practice, no source: no rail short, input above 1 kΩ, VPP at least its good value, stages within 20 %
  test.each([
    ['a short', { ...well, VMEM: '1' }, 'Rail VMEM, short: 1 Ω is less than 2 Ω: a short.'],
    [
      'a short that was only said',
      { ...well, VMEM: 'short' },
      'Rail VMEM, short: Said to be a short, without a figure.',
    ],
    ['a shorted input', { ...well, '12V': '3' }, /Rail 12V, short/],
    ['an upper switch that is through', { ...well, 'S4 input': '0.6' }, /Stage S4, input to switch node, short/],
    ['a driver supply that is short', { ...well, 'S4 driver': '0.6' }, /Stage S4, driver supply, short/],
  ])('%s is not safe', (_, typed, sentence) => {
    const { verdict, reasons } = judged(typed)
    expect(verdict).toBe('not-safe')
    expect(reasons[0]?.weight).toBe('against')
    expect(reasons[0]?.sentence).toMatch(sentence)
    expect(reasons[0]?.lines.length).toBe(1)
  })

  // common practice, no source: what is usual for a voltage warns; forbidden is what is at short level for that kind of rail
  test.each([
    ['an input at 800 Ω', { ...well, '12V': '800' }],
    ['VPP somewhat below what is usual', { ...well, VPP: '30' }],
    [
      'a switch node at 0.23 Ω beside others at 0.40: the windings join them',
      { ...well, ...atCoreStages('switch', '0.40'), 'S3 switch': '0.23' },
    ],
    ['a stage whose winding reads open', { ...well, ...atCoreStages('switch', '0.40'), 'S3 switch': '12' }],
    ['upper switches that let nothing through', { ...well, ...atCoreStages('input', 'OL') }],
  ])('%s warns at most', (_, typed) => {
    expect(judged(typed).verdict).toBe('safe')
  })

  test.each([
    ['far below what is usual', { ...well, VMEM: '6' }, /Rail VMEM, far below:/],
    [
      'an upper switch at half of its siblings',
      { ...well, 'S8 input': '2k', 'S9 input': '1k' },
      /Stage S9, input to switch node, below its siblings.*high-side switch may be shorted/,
    ],
    [
      'a PWM pin at nothing',
      { ...well, ...atCoreStages('pwm', '12k'), 'S4 pwm': '2' },
      /Stage S4, PWM pin, short: .*stage with it/,
    ],
  ])('%s is not known', (_, typed, sentence) => {
    const { verdict, reasons } = judged(typed)
    expect(verdict).toBe('not-known')
    expect(reasons[0]?.sentence).toMatch(sentence)
  })

  test('far below what good cards of this board read is not safe', () => {
    const goodReadings = [
      { line: { kind: 'rail' as const, name: 'VMEM' }, quantity: 'ohms' as const, values: [60, 61, 62, 63, 64, 62] },
    ]
    expect(judged({ ...well, VMEM: '6' }, { goodReadings }).verdict).toBe('not-safe')
  })

  test('more packages side by side read lower: 16 Ω is usual for sixteen of them, and not for eight', () => {
    const ofSixteen = shippedBoard('sheet-bend-16')
    const kindOn = (model: typeof bowline): string | undefined =>
      lineVerdicts(model, { measurements: measured({ VMEM: '16' }), goodReadings: [] }, 'ohms', 'before').find(
        ({ line }) => line.line.name === 'VMEM',
      )?.verdict.kind
    expect([kindOn(ofSixteen), kindOn(bowline)]).toEqual(['in-range', 'below'])
  })

  test.each([
    ['a rail not measured', { ...well, VPP: undefined }, {}, 'Not measured: VPP.'],
    ['nothing measured', {}, {}, 'Not measured: 12V, VCORE, VMEM, 3V3, 0V9 and VPP.'],
    ['a rail that reads open', { ...well, VPP: 'OL' }, {}, /Rail VPP, open/],
    ['film seen and not cleaned', well, { marks: [film] }, /1 place with residue, film or corrosion/],
    ['a spill marked', well, { marks: [{ kind: 'spill', side: 'top', at }] }, /1 spill marked/],
    ['a spill told but not marked', well, { arrival: { accident: 'spill' } }, /not marked/],
    ['measured only before the work', well, { phase: 'after' }, /Not measured after the work/],
  ] as const)('with %s it is not known', (_, typed, more, sentence) => {
    const known = Object.fromEntries(
      Object.entries(typed).flatMap(([name, text]) => (text === undefined ? [] : [[name, text]])),
    )
    const { verdict, reasons } = judged(known, more)
    expect(verdict).toBe('not-known')
    expect(reasons[0]?.sentence).toMatch(sentence)
  })

  test('a clean spot marked later over the film takes its reason away; one elsewhere or before does not', () => {
    const clean = { ...film, kind: 'clean' }
    expect(judged(well, { marks: [film, clean] }).verdict).toBe('safe')
    expect(judged(well, { marks: [film, { ...clean, side: 'bottom' }] }).verdict).toBe('not-known')
    expect(judged(well, { marks: [film, { ...clean, at: { x: 30, y: 10 } }] }).verdict).toBe('not-known')
    expect(judged(well, { marks: [clean, film] }).verdict).toBe('not-known')
  })

  test('a clean spot that covers only the start or the middle of a larger film leaves it where it is', () => {
    const spot = { kind: 'clean', side: 'top', at, radiusMm: 1.5 } as const
    expect(judged(well, { marks: [{ ...film, radiusMm: 12 }, spot] }).verdict).toBe('not-known')
    const painted: SeenMark = { ...film, path: [at, { x: 40, y: 10 }] }
    expect(judged(well, { marks: [painted, { ...spot, radiusMm: 4 }] }).verdict).toBe('not-known')
    const wiped: SeenMark = { ...painted, kind: 'clean' }
    expect(judged(well, { marks: [painted, wiped] }).verdict).toBe('safe')
    const drawn: SeenMark = { ...film, outline: [at, { x: 30, y: 10 }, { x: 30, y: 20 }] }
    expect(judged(well, { marks: [drawn, { ...spot, radiusMm: 4 }] }).verdict).toBe('not-known')
    expect(judged(well, { marks: [drawn, { ...drawn, kind: 'clean' }] }).verdict).toBe('safe')
  })

  // the points of the mark that lie inside the clean outline or on its rim count as wiped, all of them have to
  const triangle: readonly Point[] = [at, { x: 30, y: 10 }, { x: 30, y: 20 }]
  const square = (from: number, to: number): readonly Point[] => [
    { x: from, y: from },
    { x: to, y: from },
    { x: to, y: to },
    { x: from, y: to },
  ]
  test.each<[string, SeenMark, readonly Point[], boolean]>([
    ['all around a film', film, square(5, 15), true],
    ['elsewhere', film, square(30, 40), false],
    ['beside it, a millimetre short', film, square(11, 20), false],
    ['around a drawn one', { ...film, outline: square(8, 12) }, square(5, 15), true],
    ['inside a drawn one', { ...film, outline: square(5, 15) }, square(8, 12), false],
    ['around half of a painted one', { ...film, path: [at, { x: 40, y: 10 }] }, square(5, 15), false],
    ['with the film on its first edge', { ...film, at: { x: 20, y: 10 } }, triangle, true],
    ['with the film on its second edge', { ...film, at: { x: 30, y: 15 } }, triangle, true],
    ['with the film on its last edge', { ...film, at: { x: 20, y: 15 } }, triangle, true],
    ['with the film just beyond its last edge', { ...film, at: { x: 20, y: 15.5 } }, triangle, false],
  ])('clean drawn around, %s', (_, mark, outline, isWiped) => {
    const verdict = judged(well, { marks: [mark, { kind: 'clean', side: 'top', at, radiusMm: 0.1, outline }] }).verdict
    expect(verdict).toBe(isWiped ? 'safe' : 'not-known')
  })

  test('a rail far above its range may be a slip of the unit or a rail that is cut: not known', () => {
    // 380 typed where 380 mΩ was read is a thousand times too much.
    const { verdict, reasons } = judged({ ...well, VCORE: '380' })
    expect(verdict).toBe('not-known')
    expect(reasons[0]?.sentence).toContain('Rail VCORE')
    expect(judged({ ...well, VCORE: '3' }).verdict).toBe('safe')
  })

  test('stages that good cards read alike in a wide range are still held against each other', () => {
    const wide = [28, 35, 45, 60, 80]
    const goodReadings = ['S8', 'S9'].map((name) => ({
      line: { kind: 'stage' as const, name, point: 'driver' as const },
      quantity: 'ohms' as const,
      values: wide,
    }))
    expect(judged({ ...well, 'S8 driver': '60', 'S9 driver': '30' }, { goodReadings }).verdict).toBe('not-known')
    expect(judged({ ...well, 'S8 driver': '60', 'S9 driver': '58' }, { goodReadings }).verdict).toBe('safe')
  })

  test('good cards that agree on nothing do not make a short a reading in range', () => {
    const goodReadings = [
      { line: { kind: 'rail' as const, name: 'VMEM' }, quantity: 'ohms' as const, values: [62, 60, 5, 3, 0.5] },
    ]
    expect(judged({ ...well, VMEM: '0.05' }, { goodReadings }).verdict).toBe('not-safe')
  })

  test('a core rail that is only as usual, by a hint, is not known', () => {
    const rails = bowline.rails.map((rail) => {
      const { ohmsToGround, ...bare } = rail
      return rail.name === 'VCORE' ? bare : { ...bare, ...(ohmsToGround === undefined ? {} : { ohmsToGround }) }
    })
    const input: PowerInput = {
      measurements: measured(well),
      goodReadings: [],
      leads: { kind: 'zeroed' },
      phase: 'before',
    }
    const { verdict, reasons } = judgePower({ ...bowline, rails }, input)
    expect(verdict).toBe('not-known')
    expect(reasons[0]?.sentence).toMatch(/Rail VCORE, as is usual.*hint only/)
  })

  // common practice, no source: leads and contact read 0.1 to 0.5 Ω with two wires
  test('a core rail at 0.21 Ω is not known until the leads are taken off', () => {
    const typed = { ...well, VCORE: '0.21' }
    const unknown = judged(typed, { leads: undefined })
    expect(unknown.verdict).toBe('not-known')
    expect(unknown.reasons[0]?.sentence).toMatch(/VCORE, 210 mΩ: two leads alone read up to 500 mΩ.*four wires/)
    expect(judged(typed, { leads: { kind: 'two-wire', ohm: 0.2 } }).verdict).toBe('not-safe')
    expect(judged(typed, { leads: { kind: 'two-wire', ohm: 0.13 } }).verdict).toBe('not-known')
    expect(judged({ ...typed, VCORE: '0.5' }, { leads: { kind: 'two-wire', ohm: 0.2 } }).verdict).toBe('safe')
    expect(judged(typed, { leads: { kind: 'four-wire' } }).verdict).toBe('safe')
  })

  test('what two touching probes read is taken off before anything is held against it', () => {
    const of = (ohm: number): string | undefined =>
      lineVerdicts(
        bowline,
        { measurements: measured({ VMEM: '2.1' }), goodReadings: [], leads: { kind: 'two-wire', ohm } },
        'ohms',
        'before',
      ).find(({ line }) => line.line.name === 'VMEM')?.verdict.kind
    expect([of(0), of(0.3)]).toEqual(['low', 'short'])
  })

  test('a rail that reads no more than leads do is not known to be fine to the suspects either', () => {
    const readings = measured({ VCORE: '0.3', VMEM: '62' })
    expect([...lineStates(bowline, readings, []).rails]).toEqual([['VMEM', 'fine']])
    expect(lineStates(bowline, readings, [], { kind: 'zeroed' }).rails.get('VCORE')).toBe('fine')
  })

  test('a board without rails is not known', () => {
    const parts = bowline.parts.filter(({ kind }) => kind !== 'power-stage')
    const bare = { ...bowline, rails: [], parts }
    expect(judgePower(bare, { measurements: [], goodReadings: [], phase: 'before' }).verdict).toBe('not-known')
  })

  const entry = fc.constantFrom('0', '0.3', '2', '15', '62', '300', '1k', '2k2', '50k', 'OL', 'short')
  prop.prop([fc.dictionary(fc.constantFrom(...Object.keys(well), 'S8 input', 'S2 driver'), entry), fc.boolean()], {
    seed: 9,
    numRuns: 300,
  })('it is never called safe with a rail unmeasured or shorted, or with a film left', (typed, dirty) => {
    const { verdict, missing } = judged(typed, dirty ? { marks: [film] } : {})
    const shorted = Object.values(typed).some((text) => text === 'short' || text === '0')
    if (missing.length > 0 || dirty) expect(verdict).not.toBe('safe')
    if (shorted) expect(verdict).toBe('not-safe')
  })
})

describe('power on the record', () => {
  test('against the verdict it needs a typed reason; with it, the reason is kept', () => {
    const judgement = judged({ ...well, VMEM: '1' })
    const refused = powerUpOf(judgement, '  ')
    expect(refused.ok ? 'taken' : refused.faults[0]?.expected).toBe('a typed reason')
    const taken = powerUpOf(judgement, ' to find the short by heat, 0.3 A ', '2026-03-14T10:00:00Z')
    if (!taken.ok) throw new Error('refused')
    expect(taken.value).toMatchObject({
      verdict: 'not-safe',
      against: 'to find the short by heat, 0.3 A',
      at: '2026-03-14T10:00:00Z',
    })
    expect(powerUpSchema.parse(taken.value)).toEqual(taken.value)
  })

  test('with the verdict it needs none', () => {
    const taken = powerUpOf(judged(well), '')
    expect(taken.ok && powerUpSchema.safeParse(taken.value).success).toBe(true)
  })
})

describe('what a range alone cannot tell', () => {
  // common practice, no source: before power somebody looks across the upper switches, input to switch node
  test('a core whose upper switches were not looked across is not known', () => {
    const { verdict, reasons } = judged(wellRails)
    expect(verdict).toBe('not-known')
    expect(reasons[0]?.sentence).toBe(
      'Input to switch node not read at stages of the core: S1, S2, S3, S4, S5, S6, S7, S10 and S11. A shorted high-side switch puts the input on the core.',
    )
  })

  // Kirchhoff: milliohms of winding join the switch nodes, so that a reading at any inductor is one of the rail
  test('twelve readings at inductors of older cases open, are said, and count for nothing', () => {
    const old = Object.fromEntries(coreStages.map((ref) => [ref, '0.4']))
    const { verdict, reasons } = judged({ ...wellRails, ...old })
    expect(verdict).toBe('not-known')
    expect(reasons.at(-1)).toMatchObject({ weight: 'note' })
    expect(reasons.map(({ sentence }) => sentence).join(' ')).toMatch(/Read at the inductors of S1, .*not counted/)
    expect(lineStates(bowline, measured({ ...old, S3: '0.05' }), []).stages.size).toBe(0)
  })

  test('an upper switch that is through shows at every stage, and is said once', () => {
    const { verdict, reasons } = judged({ ...well, ...atCoreStages('input', '0.5') })
    const against = reasons.filter(({ weight }) => weight === 'against')
    expect([verdict, against.length]).toEqual(['not-safe', 1])
    expect(against[0]?.sentence).toMatch(/the input goes straight to VCORE\. The windings join them all/)
    expect(against[0]?.lines).toHaveLength(coreStages.length)
  })

  test('a range of the trade’s habit is called one', () => {
    expect(
      judged(well)
        .reasons.map(({ sentence }) => sentence)
        .join(' '),
    ).toContain('typical values only')
  })

  test('good cards that read far under the board’s own range leave it not known', () => {
    const values = [1.4, 1.5, 1.5, 1.5, 1.6, 1.5]
    const goodReadings = [{ line: { kind: 'rail', name: 'VMEM' }, quantity: 'ohms', values } as const].map((each) => ({
      ...each,
      values: [...each.values],
    }))
    const { verdict, reasons } = judged({ ...well, VMEM: '1.5' }, { goodReadings })
    expect(verdict).toBe('not-known')
    expect(reasons[0]?.sentence).toContain('Look at both again')
  })

  test('a clean spot smaller than the doubt about a spill’s point does not clear it', () => {
    const spill: SeenMark = { id: 'a', kind: 'spill', side: 'top', at, sdMm: 4 }
    const spot = (radiusMm: number): SeenMark => ({ id: 'b', kind: 'clean', side: 'top', at, radiusMm })
    expect(judged(well, { marks: [spill, spot(1.5)] }).verdict).toBe('not-known')
    expect(judged(well, { marks: [spill, spot(8)] }).verdict).toBe('safe')
  })
})

describe('a board that was cleaned and dried', () => {
  const spill: SeenMark = { id: 'spill-1', kind: 'spill', side: 'top', at }
  const residue: SeenMark = { id: 'residue-1', kind: 'residue', side: 'top', at, radiusMm: 3 }
  const cleaned = { marks: ['spill-1', 'residue-1'] }

  test('its marks speak against power no more, and what nobody saw is said', () => {
    const before = judged(well, { marks: [spill, residue] })
    const after = judged(well, { marks: [spill, residue], cleaned })
    expect([before.verdict, after.verdict]).toEqual(['not-known', 'safe'])
    expect(after.reasons.map(({ sentence }) => sentence).join(' ')).toContain('under the parts that stayed on')
  })

  test('a mark made since counts again', () => {
    const since: SeenMark = { ...residue, id: 'residue-2' }
    expect(judged(well, { marks: [spill, since], cleaned }).verdict).toBe('not-known')
  })

  test('a short stays a short', () => {
    expect(judged({ ...well, VMEM: '1' }, { marks: [spill], cleaned }).verdict).toBe('not-safe')
  })
})

/** What the owner tells counts until it was looked at or measured: common practice, no source. */
describe('what was told at arrival', () => {
  const unknowns = (
    typed: Readonly<Record<string, string>>,
    arrival: PowerInput['arrival'],
    more: Partial<PowerInput> = {},
  ) =>
    judged(typed, { ...more, ...(arrival === undefined ? {} : { arrival }) })
      .reasons.filter(({ weight, about }) => weight === 'unknown' && about === 'card')
      .map(({ sentence }) => sentence)
  const half = { VMEM: '62' }
  const spill: SeenMark = { kind: 'spill', side: 'top', at }

  test.each<[string, Readonly<Record<string, string>>, string, readonly RegExp[]]>([
    ['a spill that nobody marked', well, 'spill', [/spilled.*not marked/]],
    ['flux that nobody marked', well, 'flux', [/Flux.*not marked.*conducts/]],
    ['a slip of a tool, with rails unread', half, 'slip', [/slipped tool.*only a meter shows/]],
    ['a slip of a tool, with every rail read', well, 'slip', []],
    ['nobody knows what, with rails unread', half, 'unknown', [/Nobody knows/]],
    ['nobody knows what, with every rail read', well, 'unknown', []],
    ['no accident', half, 'none', []],
  ])('%s', (_, typed, accident, expected) => {
    const said = unknowns(typed, { accident })
    expect(said).toHaveLength(expected.length)
    for (const [i, sentence] of said.entries()) expect(sentence).toMatch(expected[i] ?? /^$/)
  })

  // Under a wet board's voltage metal goes into solution and grows from pad to pad: IPC-TR-476A, Electrochemical Migration (1997; from memory)
  test.each<[string, string, Partial<PowerInput>, RegExp]>([
    ['after a spill', 'spill', {}, /metal may have grown between wet joints/],
    ['after flux', 'flux', {}, /metal may have grown between wet joints/],
    ['with a spill marked that nobody told', 'none', { marks: [spill] }, /metal may have grown between wet joints/],
    ['after a slip', 'slip', {}, /may be worse for it/],
  ])('and powered since, %s, it is said last, and on no card that was not', (_, accident, more, words) => {
    const said = (poweredSince: string): string[] => unknowns(half, { accident, poweredSince }, more)
    expect(said('yes')).toEqual([...said('no'), expect.stringMatching(words)])
    expect(said('no')).toEqual(said('unknown'))
    expect(said('no')).toHaveLength(1)
  })

  test('and powered since without any doubt otherwise, it is no doubt by itself', () => {
    expect(unknowns(well, { accident: 'none', poweredSince: 'yes' })).toEqual([])
    expect(unknowns(well, undefined)).toEqual([])
  })
})

test('a core or memory that no rail of the board file feeds keeps power unknown, and says what to find', () => {
  const whole = shippedBoard('bowline-8')
  const without = (refs: readonly string[]): string[] => refs.filter((ref) => ref !== 'U11')
  const rails = whole.description.rails.map((rail) => ({
    ...rail,
    feeds: without(rail.feeds),
    branches: rail.branches.map((branch) => ({ ...branch, feeds: without(branch.feeds) })),
  }))
  const loaded = loadBoard({ ...whole.description, rails })
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.faults))
  const { verdict, reasons } = judgePower(loaded.value, { measurements: [], goodReadings: [], phase: 'before' })
  expect(verdict).toBe('not-known')
  expect(reasons.map(({ sentence }) => sentence).join(' ')).toContain('names no rail that feeds U11')
})
