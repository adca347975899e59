/** A bench meter over SCPI, as the standard has it and as real meters bend it. */
import { fc, test as prop } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import { sayFault } from '../../src/base/index.ts'
import { connectMeter, meterNumber, readIdentity, readTrouble } from '../../src/measure/index.ts'
import { type MeterQuirks, simulatedMeter } from '../support/simulated-meter.ts'

const FAST = { replyMs: 1, readingMs: 1 }

describe('numbers', () => {
  // NR1, NR2, NR3 of IEEE 488.2; +1.23456789E+02 is the form of an NR3 reply, from memory of the standard
  test.each([
    ['62', 62],
    ['62.5', 62.5],
    ['+1.23456789E+02', 123.456789],
    ['-1.5e-3', -0.0015],
    ['.5', 0.5],
    ['6.2E1,6.3E1', 62],
    [' 6.2E+01 ', 62],
  ])('%s', (text, value) => expect(meterNumber(text)).toEqual({ kind: 'value', value }))

  // SCPI-1999: ±9.9E37 is infinity, 9.91E37 not a number; spellings as three open implementations and two meter manuals have them
  test.each([
    ['9.9E37', 'over'],
    ['+9.9E+37', 'over'],
    ['-9.9E37', 'under'],
    ['9.90000000E+37', 'over'],
    ['+9.90E+37', 'over'],
    ['9.91E37', 'no-number'],
    ['9.91000E+37', 'no-number'],
    ['OL', 'over'],
  ])('%s is %s', (text, kind) => expect(meterNumber(text)).toEqual({ kind }))

  test.each([
    '',
    'abc',
    '1.2.3',
    '12 V',
    '0x12',
    'NaN',
    '1e',
    '--1',
    '0,"No error"',
    '+0,No error',
    '-113,"Undefined header"',
  ])('%s is none', (text) => expect(meterNumber(text)).toBeUndefined())

  prop.prop([fc.double({ min: -1e9, max: 1e9, noNaN: true }).filter((value) => !Object.is(value, -0))], {
    seed: 2,
    numRuns: 300,
  })('what JavaScript writes as NR3 is read as itself', (value) => {
    expect(meterNumber(value.toExponential())).toEqual({ kind: 'value', value })
  })
})

describe('who and what went wrong', () => {
  // IEEE 488.2: four fields, 0 for a serial or firmware that is not known
  test.each([
    ['Bench Works,DM-1,1234,1.02', 'Bench Works DM-1, serial 1234'],
    ['Bench Works,DM-1,0,0', 'Bench Works DM-1'],
    ['Bench Works , DM-1', 'Bench Works DM-1'],
    ['"Bench Works,DM-1,77,A,B"', 'Bench Works DM-1, serial 77'],
    ['DM-1', 'DM-1'],
  ])('%s is %s', (reply, words) => expect(readIdentity(reply)?.words).toBe(words))

  test('a left-over reading is no name', () => {
    expect(readIdentity('+6.2E+01')).toBeUndefined()
    expect(readIdentity('')).toBeUndefined()
  })

  // an empty queue as two meter manuals have it: 0,No error; +0,"No error"; the standard: 0,"No error"
  test.each(['0,No error', '0,"No error"', '+0,"No error"', '+0 , "No error"', '0'])('%s is an empty queue', (reply) =>
    expect(readTrouble(reply)).toBe('none'),
  )

  // numbers and texts of SCPI-1999 as the manuals list them
  test.each([
    ['-113,"Undefined header"', -113, 'Undefined header'],
    ['-350,Queue overflow', -350, 'Queue overflow'],
    ['-222, "Data out of range"', -222, 'Data out of range'],
    ['521', 521, 'no text'],
  ])('%s', (reply, number, text) => expect(readTrouble(reply)).toEqual({ number, text }))

  test('something else is no answer of the queue', () => expect(readTrouble('hello')).toBeUndefined())
})

async function connected(quirks: MeterQuirks = {}) {
  const simulated = simulatedMeter(quirks)
  const meter = await connectMeter(simulated.line, FAST)
  if (!meter.ok) throw new Error(meter.faults.map(sayFault).join())
  return { simulated, meter: meter.value }
}

describe('a meter on the line', () => {
  test.each<[string, MeterQuirks]>([
    ['that keeps to the standard', {}],
    ['that ends lines with CR LF', { ending: '\r\n' }],
    ['that ends lines with CR alone', { ending: '\r' }],
    ['that sends back what it hears', { echo: true }],
    ['that knows CONF and READ? only', { noMeasure: true }],
    ['that knows CONF and READ? only, and keeps silent about it', { noMeasure: true, mute: true }],
    ['without an error queue', { noQueue: true }],
    ['that leaves the quotes out', { emptyQueue: '0,No error' }],
    ['with old answers in its output', { leftOver: ['9.9E37', 'x', ''] }],
    ['that misses the first question', { asleepFor: 1 }],
    [
      'that does all of it',
      { ending: '\r\n', echo: true, noMeasure: true, leftOver: ['1'], emptyQueue: '+0,"No error"' },
    ],
  ])('%s reads ohms and volts', async (_, quirks) => {
    const { simulated, meter } = await connected(quirks)
    expect(meter.identity.words).toBe('Bench Works DM-1')
    simulated.show('+3.80000000E-01', '+1.21000000E+01')
    expect(await meter.read('ohms')).toEqual({ ok: true, value: { kind: 'value', value: 0.38 } })
    expect(await meter.read('volts')).toEqual({ ok: true, value: { kind: 'value', value: 12.1 } })
    expect(await meter.read('ohms')).toEqual({ ok: true, value: { kind: 'value', value: 0.38 } })
  })

  test('what it does not know is asked once and not again', async () => {
    const { simulated, meter } = await connected({ noMeasure: true })
    await meter.read('ohms')
    await meter.read('ohms')
    expect(simulated.heard.filter((line) => line.startsWith('MEAS'))).toHaveLength(1)
  })

  test('over range is open; a little below zero is zero', async () => {
    const { simulated, meter } = await connected()
    simulated.show('+9.90000000E+37')
    expect(await meter.read('ohms')).toEqual({ ok: true, value: { kind: 'open' } })
    simulated.show('-1.2E-02', '-1.2E-02')
    expect(await meter.read('ohms')).toEqual({ ok: true, value: { kind: 'value', value: 0 } })
    expect(await meter.read('volts')).toEqual({ ok: true, value: { kind: 'value', value: -0.012 } })
  })

  test.each([
    ['+9.91E37', 'the meter: found 9.91E37: it says that this is no number, expected a reading.'],
    ['#?§x', 'the meter: found "#?§x", expected a number. Look at baud rate and cable, then read again.'],
    [
      '-2.5E+01',
      'the meter: found -25 Ω, expected a resistance. The rail may still be charged: let it drain, then read again.',
    ],
  ])('%s is refused with a sentence, and the next reading is taken', async (shown, sentence) => {
    const { simulated, meter } = await connected()
    simulated.show(shown)
    const read = await meter.read('ohms')
    expect(read.ok ? read.value : read.faults.map(sayFault)).toEqual([sentence])
    simulated.show('62')
    expect(await meter.read('ohms')).toEqual({ ok: true, value: { kind: 'value', value: 62 } })
  })

  test('its errors are said in its words, all of them, and are gone afterwards', async () => {
    const { simulated, meter } = await connected()
    simulated.fail('-222,"Data out of range"')
    simulated.fail('-350,"Queue overflow"')
    const read = await meter.read('ohms')
    expect(read.ok ? read.value : read.faults.map(sayFault)).toEqual([
      'the meter: found its error -222, Data out of range; -350, Queue overflow, expected a reading. Look at what the meter shows.',
    ])
    expect((await meter.read('ohms')).ok).toBe(true)
  })

  test('silence, a line of noise and a pulled cable are each said', async () => {
    const silent = await connectMeter(
      { send: () => Promise.resolve(), receive: () => Promise.resolve(undefined) },
      FAST,
    )
    expect(silent.ok ? '' : silent.faults.map(sayFault).join()).toMatch(/no answer to \*IDN\?.*baud rate/)
    const noise = await connectMeter(
      { send: () => Promise.resolve(), receive: () => Promise.resolve('\u0000\u007f~~~') },
      FAST,
    )
    expect(noise.ok ? '' : noise.faults.map(sayFault).join()).toMatch(/expected the meter’s name/)
    const { simulated, meter } = await connected()
    simulated.pull()
    const read = await meter.read('ohms')
    expect(read.ok ? '' : read.faults.map(sayFault).join()).toMatch(/line that is gone \(the device has been lost\)/)
  })
})
