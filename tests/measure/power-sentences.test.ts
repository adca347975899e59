/** What speaks about power, whole: weight, sentence and key of each reason. Figures stand in `practice.json`: common practice, no source. */
import { describe, expect, test } from 'vitest'
import { judgePower, type PowerInput, type PowerReason } from '../../src/measure/index.ts'
import { measured } from './measured.ts'
import { bowline, judged, well as wellAtZero } from './well-card.ts'

const well = { ...wellAtZero, VCORE: '0.6' }
const told = ({ weight, sentence, key }: PowerReason) => [weight, sentence, key]
/** What a card that is well does not say anyway. */
const besides = (typed: Readonly<Record<string, string>>, more: Partial<PowerInput> = {}) => {
  const always = new Set(
    judged(well, more.phase === undefined ? {} : { phase: more.phase }).reasons.map(({ key }) => key),
  )
  return judged(typed, more)
    .reasons.filter(({ key, sentence }) => !always.has(key) && !sentence.startsWith('Checked against typical values'))
    .map(told)
}

test('a card that is well is told what was not looked at', () => {
  const { words, reasons } = judged(well)
  expect(words).toBe('No reading so far says don’t power it')
  expect(reasons.map(told)).toEqual([
    [
      'note',
      'That is no promise: a meter sees neither every pin nor a fault that comes with voltage or heat.',
      'no promise',
    ],
    [
      'note',
      'Checked against typical values only, not against a good card of this board: 12V, VCORE, VMEM, 3V3, 0V9 and VPP.',
      'measured note rail 12V rail VCORE rail VMEM rail 3V3 rail 0V9 rail VPP',
    ],
    [
      'note',
      'Supplies not read: before F1, before F2 and before F3.',
      'measured note supply before F1 supply before F2 supply before F3',
    ],
    ['note', 'Input to switch node not read at S8 and S9.', 'measured note stage S8 input stage S9 input'],
  ])
})

describe('readings', () => {
  test.each<[Readonly<Record<string, string>>, string[]]>([
    [
      { VMEM: '1' },
      ['against', 'Rail VMEM, short: 1 Ω is less than 2 Ω: a short.', 'measured against rail VMEM ohms short 1'],
    ],
    [
      { VMEM: '15' },
      [
        'note',
        'Rail VMEM, below the range: 15 Ω is below 20 to 150 Ω (common practice, no source).',
        'measured note rail VMEM ohms below 15',
      ],
    ],
    [
      { VMEM: '8' },
      [
        'unknown',
        'Rail VMEM, far below: 8 Ω is far below 20 to 150 Ω (common practice, no source).',
        'measured unknown rail VMEM ohms low 8',
      ],
    ],
    [
      { VMEM: '200' },
      [
        'note',
        'Rail VMEM, above the range: 200 Ω is above 20 to 150 Ω (common practice, no source).',
        'measured note rail VMEM ohms above 200',
      ],
    ],
    [
      { 'S1 driver': '1' },
      [
        'against',
        'Stage S1, driver supply, short: 1 Ω is less than 2 Ω: a short. The driver pulls its supply down.',
        'measured against stage S1 driver ohms short 1',
      ],
    ],
    [
      { 'S1 enable': '4' },
      [
        'unknown',
        'Stage S1, enable pin, short: 4 Ω is less than 5 Ω: a short. The pin may be blown, and the stage stays off.',
        'measured unknown stage S1 enable ohms short 4',
      ],
    ],
    [
      { 'S1 switch': '0.01' },
      [
        'against',
        'Stage S1, switch node to ground, short: 10 mΩ is less than 50 mΩ: a short. The windings join all switch nodes, so that it points at no stage: look at the contact, and read the rail.',
        'measured against stage S1 switch ohms short 0.01',
      ],
    ],
  ])('%j', (typed, expected) => expect(besides({ ...well, ...typed })).toEqual([expected]))

  test('in diode mode say so, and a short is said by the ohms alone where they say the same', () => {
    const diode = measured({ VMEM: '0' }, 'diode')
    const said = (typed: Readonly<Record<string, string>>) =>
      besides(well, { measurements: [...measured({ ...well, ...typed }), ...diode] }).map(([weight, sentence]) => [
        weight,
        sentence,
      ])
    expect(said({})).toEqual([
      ['unknown', 'Rail VMEM in diode mode, short: 0 mV: next to nothing, as a short reads. Read it in ohms.'],
    ])
    expect(said({ VMEM: '1' })).toEqual([['against', 'Rail VMEM, short: 1 Ω is less than 2 Ω: a short.']])
  })

  test('of two wires may be the leads’ own', () => {
    const typed = { ...well, VCORE: '0.4' }
    expect(besides(typed, { leads: undefined })).toEqual([
      [
        'unknown',
        'Rail VCORE, 400 mΩ: two leads alone read up to 500 mΩ, so a dead short may read like this. Hold the probes together and enter what they read, set the meter to zero there, or use four wires.',
        'measured unknown rail VCORE',
      ],
    ])
    // 0.4 - 0.31 = 0.09 Ω is below the 0.1 Ω of a contact, and below the range as well
    const after = besides(typed, { leads: { kind: 'two-wire', ohm: 0.31 } }).map(([, sentence]) => sentence)
    expect(after).toContain(
      'Rail VCORE, 90 mΩ after the leads: the contact of the probes alone may read as much. Use four wires.',
    )
  })

  test('of good cards far under the board’s own range leave both in doubt', () => {
    const goodReadings = [
      { line: { kind: 'rail' as const, name: 'VMEM' }, quantity: 'ohms' as const, values: [9, 9, 9, 9, 9] },
    ]
    expect(besides({ ...well, VMEM: '9' }, { goodReadings })[0]).toEqual([
      'unknown',
      'Rail VMEM, 9 Ω: your good cards read so, but the board’s own range begins at 20 Ω. Look at both again.',
      'measured unknown rail VMEM',
    ])
  })

  test.each([
    [
      'input',
      '0.5',
      'against',
      'input to switch node: all short. A high-side switch is shorted, and with power the input goes straight to VCORE. The windings join them all: which it is, the PWM and driver pins tell, or an inductor that is lifted.',
    ],
    [
      'switch',
      '0.01',
      'against',
      'switch node to ground: all short. Through the windings that is VCORE itself: no stage is found by it.',
    ],
    [
      'driver',
      '0.5',
      'against',
      'driver supply: all short. They share that supply: lift its feed, then read each by itself.',
    ],
    ['enable', '0.5', 'unknown', 'enable pin: all short. They may share one line: read it at the controller.'],
    ['pwm', '0.5', 'unknown', 'PWM pin: all short. Look at the controller, which drives them all.'],
  ])('short at the %s of two stages are said once', (point, ohms, weight, words) => {
    const [first] = besides({ ...well, [`S1 ${point}`]: ohms, [`S2 ${point}`]: ohms })
    expect(first).toEqual([
      weight,
      `Stages S1 and S2, ${words}`,
      `measured ${weight} stage S1 ${point} stage S2 ${point}`,
    ])
  })

  test('at inductors, of older cases, are kept and not counted', () => {
    const old = measured({ S3: '0.4', S1: '0.4' })
    expect(besides(well, { measurements: [...measured(well), ...old, ...old] })).toEqual([
      [
        'note',
        'Read at the inductors of S3 and S1: kept, and not counted. Through the windings every one of them reads the rail.',
        'measured note',
      ],
    ])
    const elsewhere = [
      ...measured({ S99: '0.4' }),
      ...measured({ S1: '400' }, 'diode'),
      ...measured({ S1: '0.4' }, 'ohms', 'after'),
    ]
    expect(besides(well, { measurements: [...measured(well), ...elsewhere] })).toEqual([])
  })
})

describe('what was not read', () => {
  test('is named, before the work and after it', () => {
    expect(
      judged({})
        .reasons.map(({ weight, sentence }) => [weight, sentence])
        .slice(0, 2),
    ).toEqual([
      ['unknown', 'Not measured: 12V, VCORE, VMEM, 3V3, 0V9 and VPP.'],
      [
        'unknown',
        'Input to switch node not read at stages of the core: S1, S2, S3, S4, S5, S6, S7, S10 and S11. A shorted high-side switch puts the input on the core.',
      ],
    ])
    const after = judged(well, { phase: 'after' }).reasons.map(({ sentence }) => sentence)
    expect(after).toEqual([
      'Not measured after the work: 12V, VCORE, VMEM, 3V3, 0V9 and VPP.',
      'Input to switch node not read after the work at stages of the core: S1, S2, S3, S4, S5, S6, S7, S10 and S11. A shorted high-side switch puts the input on the core.',
      'Supplies not read after the work: before F1, before F2 and before F3.',
      'Input to switch node not read after the work at S8 and S9.',
    ])
  })

  test('a board without rails says so', () => {
    const bare = { ...bowline, rails: [], parts: bowline.parts.filter(({ kind }) => kind !== 'power-stage') }
    const { reasons, missing } = judgePower(bare, { measurements: [], goodReadings: [], phase: 'before' })
    expect(reasons.map(told)).toEqual([
      ['unknown', 'The board’s description names no rail to measure.', 'measured unknown'],
    ])
    expect(missing).toEqual([])
  })
})
