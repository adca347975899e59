/** How long a meter is waited for, what of its answers is a reading, and what is said of the others. */
import { describe, expect, test } from 'vitest'
import { sayFault } from '../../src/base/index.ts'
import {
  connectMeter,
  type Meter,
  meterNumber,
  type Quantity,
  readIdentity,
  readTrouble,
} from '../../src/measure/index.ts'
import { simulatedMeter } from '../support/simulated-meter.ts'

/** A line that always answers the same; `waited` holds each time that was granted, in ms. */
function stubborn(answer: (lastSent: string) => string | undefined) {
  const sent: string[] = []
  const waited: number[] = []
  return {
    sent,
    waited,
    line: {
      send: (text: string) => Promise.resolve(void sent.push(text)),
      receive: (ms: number) => {
        waited.push(ms)
        return Promise.resolve(answer(sent.at(-1) ?? ''))
      },
    },
  }
}
const refusalsOf = (result: Awaited<ReturnType<Meter['read'] | typeof connectMeter>>): string[] =>
  result.ok ? [] : result.faults.map(sayFault)

describe('patience', () => {
  const HELP = 'Look at cable, baud rate and whether remote control is switched on at the meter.'

  test('of what was left over 50 lines are taken, 20 ms each, and the name is asked for twice', async () => {
    const { line, sent, waited } = stubborn(() => '+6.2E+01')
    expect(refusalsOf(await connectMeter(line))).toEqual([
      `the meter: found "+6.2E+01", expected the meter’s name. ${HELP}`,
    ])
    expect(sent).toEqual(['*IDN?', '*IDN?'])
    // 1.5 s for an answer where nothing else is said
    const once = [...Array<number>(50).fill(20), 1500]
    expect(waited).toEqual([...once, ...once])
  })

  test('of the question sent back, in whatever letters, and of empty lines five are passed over', async () => {
    const { line, waited } = stubborn((last) => (last === '' ? undefined : '> *idn?\r'))
    expect(refusalsOf(await connectMeter(line, { replyMs: 7, readingMs: 9 }))).toEqual([
      `the meter: found no answer to *IDN?, expected the meter’s name. ${HELP}`,
    ])
    expect(waited.filter((ms) => ms === 7)).toHaveLength(10)
    const { line: silent, waited: once } = stubborn(() => undefined)
    await connectMeter(silent, { replyMs: 7, readingMs: 9 })
    expect(once).toEqual([20, 7, 20, 7])
  })

  test('a reading may take 8 s, and a queue is emptied of 40 errors at most', async () => {
    const answers: Record<string, string> = {
      '*IDN?': 'Bench Works,DM-1,0,1',
      'SYST:ERR?': '-222,"Data out of range"',
      'MEAS:RES?': '62',
    }
    let isAsked = false
    const waited: number[] = []
    const sent: string[] = []
    const met = await connectMeter({
      send: (text) => {
        sent.push(text)
        isAsked = true
        return Promise.resolve()
      },
      receive: (ms) => {
        waited.push(ms)
        const answer = isAsked ? answers[sent.at(-1) ?? ''] : undefined
        isAsked = false
        return Promise.resolve(answer)
      },
    })
    if (!met.ok) throw new Error('no meter')
    await met.value.read('ohms')
    expect(sent.filter((text) => text === 'SYST:ERR?')).toHaveLength(40)
    expect(waited.filter((ms) => ms === 8000)).toHaveLength(1)
    // what is no unknown command is not asked in another way
    expect(sent).not.toContain('CONF:RES')
  })
})

describe('a reading', () => {
  const readAs = async (shown: string, quantity: Quantity) => {
    const meter = simulatedMeter()
    const met = await connectMeter(meter.line, { replyMs: 1, readingMs: 1 })
    if (!met.ok) throw new Error('no meter')
    meter.show(shown, shown, shown)
    const read = await met.value.read(quantity)
    return read.ok ? read.value : read.faults.map(sayFault).join()
  }
  const CHARGED = 'The rail may still be charged: let it drain, then read again.'

  // the meter's own zero: under 0.5 Ω and 2 mV below zero (stated, no source)
  test.each<[string, Quantity, object | string]>([
    ['-0.49', 'ohms', { kind: 'value', value: 0 }],
    ['-0.5', 'ohms', `the meter: found -0.5 Ω, expected a resistance. ${CHARGED}`],
    ['-0.0019', 'diode', { kind: 'value', value: 0 }],
    ['-0.002', 'diode', `the meter: found -0.002 V, expected a diode reading. ${CHARGED}`],
    ['0', 'ohms', { kind: 'value', value: 0 }],
    ['-12', 'volts', { kind: 'value', value: -12 }],
    ['9.9E37', 'volts', { kind: 'open' }],
    ['-9.9E37', 'volts', { kind: 'open' }],
    ['-9.9E37', 'ohms', `the meter: found less than it can show, expected a resistance. ${CHARGED}`],
    ['-9.9E37', 'diode', `the meter: found less than it can show, expected a diode reading. ${CHARGED}`],
    ['> 62', 'ohms', { kind: 'value', value: 62 }],
    ['>62', 'ohms', { kind: 'value', value: 62 }],
  ])('%s in %s', async (shown, quantity, expected) => expect(await readAs(shown, quantity)).toEqual(expected))

  // SCPI-1999: command errors are -100 to -199
  test.each([
    ['-99', false],
    ['-100', true],
    ['-199', true],
    ['-200', false],
    ['100', false],
  ])('after error %s is asked for by CONF and READ?: %s', async (number, isAsked) => {
    const meter = simulatedMeter({ noMeasure: true, mute: true })
    const met = await connectMeter(meter.line, { replyMs: 1, readingMs: 1 })
    if (!met.ok) throw new Error('no meter')
    meter.fail(`${number},"x"`)
    // an error beside an answer: silence alone would be asked again
    const line = {
      send: (text: string) => meter.line.send(text === 'MEAS:RES?' ? '*IDN?' : text),
      receive: meter.line.receive,
    }
    const other = await connectMeter(line, { replyMs: 1, readingMs: 1 })
    if (!other.ok) throw new Error('no meter')
    await other.value.read('ohms')
    expect(meter.heard.includes('CONF:RES')).toBe(isAsked)
  })

  test('that does not come is said, with the question', async () => {
    let last = ''
    let isFresh = false
    const met = await connectMeter(
      {
        send: (text) => {
          last = text
          isFresh = true
          return Promise.resolve()
        },
        receive: () => {
          const answer = isFresh && last === '*IDN?' ? 'Bench Works,DM-1,0,1' : undefined
          isFresh = false
          return Promise.resolve(answer)
        },
      },
      { replyMs: 1, readingMs: 1 },
    )
    if (!met.ok) throw new Error('no meter')
    expect(refusalsOf(await met.value.read('volts'))).toEqual([
      'the meter: found no answer to READ?, expected a reading. Look at the cable, and read again.',
    ])
  })

  test('over a line that is gone says so', async () => {
    const gone = await connectMeter({
      send: () => Promise.reject(new Error('unplugged')),
      receive: () => Promise.resolve(undefined),
    })
    expect(refusalsOf(gone)).toEqual([
      'the meter: found a line that is gone (unplugged), expected an open line. Plug it in and connect again.',
    ])
  })
})

describe('numbers', () => {
  test.each([
    ['8e37', { kind: 'value', value: 8e37 }],
    ['1e38', { kind: 'over' }],
    ['-1e38', { kind: 'under' }],
    ['-OL', { kind: 'over' }],
    ['0L', { kind: 'over' }],
    ['.OL', { kind: 'over' }],
    ['O.L.', { kind: 'over' }],
    ['OVERLOAD', { kind: 'over' }],
    ['overl', { kind: 'over' }],
    ['62,OL', { kind: 'value', value: 62 }],
    ['OL,62', { kind: 'over' }],
    ['62,abc', undefined],
    ['OLD', undefined],
    ['COOL', undefined],
    ['overlook', undefined],
    ['62.', { kind: 'value', value: 62 }],
    ['6.2 E+01', { kind: 'value', value: 62 }],
    ['a62', undefined],
    ['62a', undefined],
    ['1e1234', undefined],
  ])('%s', (text, number) => expect(meterNumber(text)).toEqual(number))
})

describe('names and errors', () => {
  test('a name has its fields apart, without quotes; 0 and nothing are unknown', () => {
    expect(readIdentity('Bench Works, DM-1 ,"77", 1.02 , B')).toEqual({
      maker: 'Bench Works',
      model: 'DM-1',
      serial: '77',
      firmware: '1.02, B',
      words: 'Bench Works DM-1, serial 77',
    })
    expect(readIdentity('Bench Works,0,,')).toEqual({
      maker: 'Bench Works',
      model: '0',
      serial: undefined,
      firmware: undefined,
      words: 'Bench Works',
    })
    expect(readIdentity('0,DM-1,0,0')?.words).toBe('DM-1')
    expect(readIdentity('12,34')).toBeUndefined()
    expect(readIdentity('6.2e1')).toBeUndefined()
    expect(readIdentity('6.2e1x')?.words).toBe('6.2e1x')
  })

  test.each([
    [" -113 , 'Undefined header' ", { number: -113, text: 'Undefined header' }],
    ['-113,', { number: -113, text: 'no text' }],
    ['12345,a,b', { number: 12_345, text: 'a,b' }],
    ['123456,a', undefined],
    ['x-113,a', undefined],
    ['-113 a', undefined],
  ])('%s is an error of the queue, or none', (reply, trouble) => expect(readTrouble(reply)).toEqual(trouble))
})
