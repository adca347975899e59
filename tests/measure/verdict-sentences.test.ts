/** What a line says of its reading, whole. The limits stand in `practice.json`; where none is named they are common practice, no source. */
import { describe, expect, test } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import {
  type GoodReadings,
  lineKey,
  lineVerdicts,
  type LineVerdict,
  type Measurement,
  type PoweredState,
  type Quantity,
} from '../../src/measure/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { lineOf, measured } from './measured.ts'

const bowline = shippedBoard('bowline-8')
/** The board as a file might give it that knows no resistances and no tolerances; 3V3 is 5 V there, 0V9 has no voltage at all. */
const unknowing: BoardModel = {
  ...bowline,
  rails: bowline.rails.map(({ name, nominalV = 1, stages, feeds, branches, points }) => {
    const nominal = name === '0V9' ? {} : { nominalV: name === '3V3' ? 5 : nominalV }
    return { name, ...nominal, stages, feeds, branches, points }
  }),
}

interface More {
  readonly quantity?: Quantity
  readonly model?: BoardModel
  readonly goodReadings?: readonly GoodReadings[]
  readonly state?: PoweredState
}
function lineOn(
  name: string,
  typed: Readonly<Record<string, string>>,
  { quantity = 'ohms', model = bowline, goodReadings = [], state }: More = {},
): LineVerdict {
  const measurements = measured(typed, quantity).map(
    (each): Measurement => (state === undefined ? each : { ...each, state }),
  )
  const found = lineVerdicts(model, { measurements, goodReadings }, quantity, 'before').find(
    ({ line }) => lineKey(line.line) === lineKey(lineOf(name)),
  )
  if (found === undefined) throw new Error(`${name} is no line`)
  return found
}
const sentenceOf = (...told: Parameters<typeof lineOn>): string => lineOn(...told).verdict.sentence
/** Readings at one point of S1, S2 and so on; what is said of S1. */
const ofFirst = (point: string, readings: readonly string[], quantity: Quantity = 'ohms'): string =>
  sentenceOf(`S1 ${point}`, Object.fromEntries(readings.map((text, i) => [`S${i + 1} ${point}`, text])), { quantity })

const HABIT = 'common practice, no source'

describe('a rail in ohms', () => {
  test.each([
    ['short', 'Said to be a short, without a figure.'],
    ['OL', 'Beyond the meter: no way to ground, or no contact. Look at the probe, then measure again.'],
    ['1', '1 Ω is less than 2 Ω: a short.'],
    ['0', '0 Ω is less than 2 Ω: a short.'],
    ['8', `8 Ω is far below 20 to 150 Ω (${HABIT}).`],
    ['15', `15 Ω is below 20 to 150 Ω (${HABIT}).`],
    ['62', `62 Ω is within 20 to 150 Ω (${HABIT}).`],
    ['151', `151 Ω is above 20 to 150 Ω (${HABIT}).`],
  ])('at %s', (typed, sentence) => expect(sentenceOf('VMEM', { VMEM: typed })).toBe(sentence))

  test('not read yet says what it will be held against', () => {
    expect(sentenceOf('VMEM', {})).toBe(`Not measured yet; 20 to 150 Ω (${HABIT}).`)
    expect(sentenceOf('VMEM', {}, { model: unknowing })).toBe(
      `Not measured yet; usual for its voltage: 20 to 150 Ω (${HABIT}).`,
    )
    expect(sentenceOf('S1 pwm', {})).toBe(`Not measured yet; as the other stages of VCORE, within 20 % (${HABIT}).`)
    expect(sentenceOf('S1 pwm', {}, { quantity: 'diode' })).toBe(
      `Not measured yet; as the other stages of VCORE, within 30 mV (${HABIT}).`,
    )
    expect(sentenceOf('S13 pwm', {})).toBe('Not measured yet; no sibling to compare it with.')
  })

  test('of a board that knows none is held to what is usual, which is a hint only', () => {
    const hint = 'A hint only: hold it against a good card of this board.'
    expect(sentenceOf('VMEM', { VMEM: '62' }, { model: unknowing })).toBe(
      `62 Ω; usual for its voltage: 20 to 150 Ω (${HABIT}). ${hint}`,
    )
    // of 5 V only the lower end is usual
    expect(sentenceOf('3V3', { '3V3': '900' }, { model: unknowing })).toBe(
      `900 Ω; usual for its voltage: above 500 Ω (${HABIT}). ${hint}`,
    )
    expect(sentenceOf('0V9', { '0V9': '62' }, { model: unknowing })).toBe('62 Ω: no reference.')
    expect(sentenceOf('0V9', { '0V9': '0.4' }, { model: unknowing })).toBe('400 mΩ is less than 500 mΩ: a short.')
  })

  test('says what good cards read, and what the board’s file says besides', () => {
    const line = lineOf('VMEM')
    // ln spread 0, so that the range is the least: 60 / 1.2 = 50 to 60 · 1.2 = 72
    const goodReadings: GoodReadings[] = [{ line, quantity: 'ohms', values: [60, 60, 60, 60, 60] }]
    const learnt = lineOn('VMEM', { VMEM: '62' }, { goodReadings })
    expect(learnt.verdict.sentence).toBe('62 Ω is within 50 to 72 Ω (median 60 Ω on 5 good cards of this board).')
    expect(learnt.line.reference.words).toBe('median 60 Ω on 5 good cards of this board; 50 to 72 Ω')
    expect(learnt.line.besides).toBe(`the board’s file says 20 to 150 Ω (${HABIT})`)
    expect(lineOn('VMEM', {}, { goodReadings, model: unknowing }).line.besides).toBeUndefined()
    const few = lineOn('VMEM', {}, { goodReadings: [{ line, quantity: 'ohms', values: [60] }] })
    expect(few.line.besides).toBe('median 60 Ω on 1 good card of this board; a range comes with 5')
    expect(few.line.reference.words).toBe(`20 to 150 Ω (${HABIT})`)
  })
})

describe('a point of a stage in ohms', () => {
  const LOW: Readonly<Record<string, string>> = {
    input: 'The high-side switch may be shorted: with power the input would go straight to the rail.',
    switch:
      'The windings join all switch nodes, so that it points at no stage: look at the contact, and read the rail.',
    driver: 'The driver pulls its supply down.',
    enable: 'The pin may be blown, and the stage stays off.',
    pwm: 'The pin may be blown, and the stage with it.',
  }
  const PIN = 'The joint or the track of the pin may be open.'
  const OPEN: Readonly<Record<string, string>> = {
    input: 'Its own input feed may be open.',
    switch: 'Its winding or a joint of it may be open.',
    driver: 'The feed of the driver may be open.',
    enable: PIN,
    pwm: PIN,
  }

  test.each([
    ['input', '3', '3 Ω is less than 5 Ω'],
    ['switch', '0.01', '10 mΩ is less than 50 mΩ'],
    ['driver', '1', '1 Ω is less than 2 Ω'],
    ['enable', '4', '4 Ω is less than 5 Ω'],
    ['pwm', '0', '0 Ω is less than 5 Ω'],
  ])('short, low and open at the %s say what each speaks of', (point, typed, short) => {
    const [low = '', open = ''] = [LOW[point], OPEN[point]]
    expect(ofFirst(point, [typed])).toBe(`${short}: a short. ${low}`)
    expect(ofFirst(point, ['short'])).toBe(`Said to be a short, without a figure. ${low}`)
    expect(ofFirst(point, ['1k', '12k', '12k'])).toBe(`1 kΩ is below 12 kΩ, the median of its 2 siblings. ${low}`)
    expect(ofFirst(point, ['OL', '12k', '12k'])).toBe(
      `Open beside 12 kΩ, the median of its 2 siblings. Look at the probe and the joint. ${open}`,
    )
  })

  // near is within a fifth, far above is more than five times; 20 kΩ of 9 kΩ is neither
  test.each<[readonly string[], string]>([
    [['12k', '12k', '12k'], '12 kΩ is near 12 kΩ, the median of its 2 siblings.'],
    [['20k', '9k', '9k'], '20 kΩ is above 9 kΩ, the median of its 2 siblings.'],
    [
      ['900k', '9k', '9k'],
      `900 kΩ is far above 9 kΩ, the median of its 2 siblings: its joint or its track may be open. ${PIN}`,
    ],
    [['9k', '9k', '1k', '1k'], '9 kΩ: its 3 siblings do not agree. Hold them against a good card.'],
    [['OL', 'OL', 'OL'], 'Open, as its 2 siblings.'],
    [['OL', 'OL', 'OL', '9k'], 'Open, as 2 of its 3 siblings.'],
    [['9k', 'OL', 'OL'], `9 kΩ, where its 2 siblings read open. ${LOW['pwm'] ?? ''}`],
    [['12k'], '12 kΩ: no other stage of VCORE is measured here yet.'],
    [['OL'], 'open: no other stage of VCORE is measured here yet.'],
    [['OL', 'OL'], 'Open, as its only sibling.'],
    [['9k', '9k1'], '9 kΩ is near 9.1 kΩ, its only sibling.'],
    [['OL', '9k'], `Open beside 9 kΩ, its only sibling. Look at the probe and the joint. ${PIN}`],
    [
      ['9k', 'OL'],
      `9 kΩ, where its only sibling reads open. One of the two is off: hold both against a good card. ${LOW['pwm'] ?? ''}`,
    ],
  ])('%j at PWM pins', (readings, sentence) => expect(ofFirst('pwm', readings)).toBe(sentence))

  test('alone is held to what is usual there, where anything is', () => {
    const usual = `usual at the input to switch node: above 100 Ω (${HABIT})`
    expect(ofFirst('input', ['OL'])).toBe(`Open: the high-side switch lets nothing through; ${usual}.`)
    expect(ofFirst('input', ['3k'])).toBe(`3 kΩ; ${usual}.`)
    expect(ofFirst('driver', ['900'])).toBe(`900 Ω; usual at the driver supply: above 100 Ω (${HABIT}).`)
    expect(ofFirst('driver', ['OL'])).toBe('open: no other stage of VCORE is measured here yet.')
    const rails = bowline.rails.filter(({ name }) => name !== 'VCORE')
    expect(sentenceOf('S1 pwm', { 'S1 pwm': '12k' }, { model: { ...bowline, rails } })).toBe(
      '12 kΩ: no other stage of its rail is measured here yet.',
    )
  })
})

describe('diode mode', () => {
  const cards: GoodReadings[] = [
    { line: lineOf('VMEM'), quantity: 'diode', values: [0.12, 0.122, 0.118, 0.121, 0.119] },
    { line: lineOf('VCORE'), quantity: 'diode', values: [0.1, 0.1, 0.1, 0.1, 0.1] },
  ]
  test.each([
    // 2 Ω at 1 mA drop 2 mV
    ['VMEM', '2', [], '2 mV: next to nothing, as a short reads. Read it in ohms.'],
    ['VMEM', '3', [], '3 mV: a good card of this board gives it a reference.'],
    ['VMEM', 'short', [], 'Said to be a short, without a figure.'],
    [
      'VMEM',
      'OL',
      [],
      'Nothing conducts from ground to it: no contact, or it is cut from its load. Look at the probe.',
    ],
    ['VCORE', '0', [], '0 mV: a core reads next to nothing in diode mode. Read it in ohms.'],
    // narrower than 20 mV on either side no range is: 120 - 20 to 120 + 20
    ['VMEM', '125', cards, '125 mV is within 100 to 140 mV (median 120 mV on 5 good cards of this board).'],
    ['VMEM', '95', cards, '95 mV is below 100 to 140 mV (median 120 mV on 5 good cards of this board).'],
    ['VMEM', '40', cards, '40 mV is far below 100 to 140 mV (median 120 mV on 5 good cards of this board).'],
    ['VMEM', '141', cards, '141 mV is above 100 to 140 mV (median 120 mV on 5 good cards of this board).'],
    ['VCORE', '100', cards, '100 mV is within 80 to 120 mV (median 100 mV on 5 good cards of this board).'],
  ] as const)('%s at %s', (name, typed, goodReadings, sentence) =>
    expect(sentenceOf(name, { [name]: typed }, { quantity: 'diode', goodReadings })).toBe(sentence),
  )

  test('at a pin alone names what a clamp usually reads, and at a driver supply nothing', () => {
    expect(ofFirst('pwm', ['545'], 'diode')).toBe(`545 mV; usual at a pin: 300 to 600 mV (${HABIT}).`)
    expect(ofFirst('driver', ['545'], 'diode')).toBe('545 mV: no other stage of VCORE is measured here yet.')
    expect(ofFirst('pwm', ['OL'], 'diode')).toBe('open: no other stage of VCORE is measured here yet.')
  })

  test('at pins that good cards range is still held to its siblings', () => {
    const goodReadings: GoodReadings[] = [{ line: lineOf('S1 pwm'), quantity: 'diode', values: Array(5).fill(0.545) }]
    const said = (typed: Readonly<Record<string, string>>) =>
      sentenceOf('S1 pwm', typed, { quantity: 'diode', goodReadings })
    const range = '525 to 565 mV (median 545 mV on 5 good cards of this board)'
    expect(said({ 'S1 pwm': '550' })).toBe(`550 mV is within ${range}.`)
    expect(said({ 'S1 pwm': '550', 'S2 pwm': '545', 'S3 pwm': '548' })).toBe(`550 mV is within ${range}.`)
    expect(said({ 'S1 pwm': '550', 'S2 pwm': '600', 'S3 pwm': '600' })).toBe(
      '550 mV is below 600 mV, the median of its 2 siblings.',
    )
    expect(said({ 'S1 pwm': '500', 'S2 pwm': '600', 'S3 pwm': '600' })).toBe(`500 mV is below ${range}.`)
  })
})

describe('a rail under power', () => {
  // 1.35 V ± 3 % is 1.3095 to 1.3905 V
  const span = '1.3095 to 1.3905 V'
  test.each([
    ['OL', `Beyond the meter; 1.35 V ± 3 %: ${span}.`],
    ['20m', `20 mV: the rail is not on; 1.35 V ± 3 %: ${span}.`],
    ['1.35', `1.35 V is within ${span} (1.35 V ± 3 %).`],
    ['1.3', `1.3 V is below ${span} (1.35 V ± 3 %).`],
    ['1.4', `1.4 V is above ${span} (1.35 V ± 3 %).`],
  ])('at %s V', (typed, sentence) => expect(sentenceOf('VMEM', { VMEM: typed }, { quantity: 'volts' })).toBe(sentence))

  test('without a tolerance has 5 % as a hint: 4.75 to 5.25 V; without a voltage it has no reference', () => {
    const hint = '5 V ± 5 %, a tolerance by common practice, no source: 4.75 to 5.25 V'
    for (const typed of ['5', '4.7', '5.3'])
      expect(sentenceOf('3V3', { '3V3': typed }, { quantity: 'volts', model: unknowing })).toBe(
        `${typed} V; ${hint}. A hint only.`,
      )
    expect(sentenceOf('0V9', { '0V9': '0.9' }, { quantity: 'volts', model: unknowing })).toBe('0.9 V: no reference.')
  })

  // of 0.9 V nominal: idle 0.65 · 0.9 = 0.585 to 1.1 · 0.9 = 0.99, under load 0.85 · 0.9 = 0.765 to 1.25 · 0.9 = 1.125, never above 1.4 · 0.9 = 1.26
  test.each<[string, PoweredState | undefined, string]>([
    ['0.65', 'idle', `0.65 V; expected idle: 0.585 to 0.99 V (${HABIT}).`],
    ['0.8', 'load', `0.8 V; expected under load: 0.765 to 1.13 V (${HABIT}).`],
    ['0.65', undefined, `0.65 V; expected idle or under load: 0.585 to 1.13 V (${HABIT}).`],
    ['0.4', 'idle', `0.4 V; expected idle: 0.585 to 0.99 V (${HABIT}). Hold it against a good card.`],
    ['1.3', 'load', '1.3 V is more than a core is given in any state: take the power off.'],
  ])('a core at %s V, %s', (typed, state, sentence) =>
    expect(sentenceOf('VCORE', { VCORE: typed }, { quantity: 'volts', ...(state && { state }) })).toBe(sentence),
  )

  test('a core not read yet names both windows', () => {
    expect(sentenceOf('VCORE', {}, { quantity: 'volts' })).toBe(
      `Not measured yet; idle 0.585 to 0.99 V, under load 0.765 to 1.13 V (${HABIT}).`,
    )
  })

  test('said to be a short asks to take the power off', () => {
    const measurements: Measurement[] = measured({ VMEM: '0' }, 'volts').map((each) => ({
      ...each,
      reading: { kind: 'short' },
    }))
    const found = lineVerdicts(bowline, { measurements, goodReadings: [] }, 'volts', 'before')
    const { verdict } = found.find(({ measurement }) => measurement !== undefined) ?? {}
    expect([verdict?.kind, verdict?.sentence]).toEqual(['no-voltage', 'Said to be a short: take the power off.'])
  })
})
