/** A bench meter that speaks SCPI-1999 over a line that is handed in: who it is, and one reading at a time. */
import { bad, type Fault, good, type Result, showValue, say } from '../../base/index.ts'
import type { Quantity, Reading } from '../schema.ts'
import { ask, clearLine, type MeterLine } from './line.ts'
import { type MeterNumber, meterNumber } from './numbers.ts'
import { type MeterIdentity, type MeterTrouble, readIdentity, readTrouble } from './replies.ts'

export interface Meter {
  readonly identity: MeterIdentity
  /** One reading. Refuses, with a sentence each: silence, garbage, not a number, a negative resistance, its own errors. */
  readonly read: (quantity: Quantity) => Promise<Result<Reading>>
}

export interface MeterTimes {
  readonly replyMs: number
  /** A slow range may take long to settle. */
  readonly readingMs: number
}

const TIMES: MeterTimes = { replyMs: 1500, readingMs: 8000 }

/** Asks `*IDN?`, twice where the first question met a meter that was still waking up. */
export async function connectMeter(line: MeterLine, times: MeterTimes = TIMES): Promise<Result<Meter>> {
  return guarded(async () => {
    let reply: string | undefined
    for (let i = 0; i < 2; i++) {
      await clearLine(line)
      reply = await ask(line, '*IDN?', times.replyMs)
      const identity = reply === undefined ? undefined : readIdentity(reply)
      if (identity !== undefined) return good({ identity, read: reader(line, times) })
    }
    return refused(
      reply === undefined ? say('no answer to *IDN?') : showValue(reply),
      say('the meter’s name'),
      say('Look at cable, baud rate and whether remote control is switched on at the meter.'),
    )
  })
}

const DIRECT: Readonly<Record<Quantity, string>> = {
  ohms: 'MEAS:RES?',
  diode: 'MEAS:DIOD?',
  volts: 'MEAS:VOLT:DC?',
}
const CONFIGURE: Readonly<Record<Quantity, string>> = {
  ohms: 'CONF:RES',
  diode: 'CONF:DIOD',
  volts: 'CONF:VOLT:DC',
}

/** `MEAS:…?` first; a meter that does not know it is configured and asked `READ?`, from then on at once. */
function reader(line: MeterLine, { replyMs, readingMs }: MeterTimes): Meter['read'] {
  let knowsDirect = true
  const direct = (quantity: Quantity): Promise<Attempt> => attempt(line, DIRECT[quantity], readingMs, replyMs)
  const configured = async (quantity: Quantity): Promise<Attempt> => {
    await line.send(CONFIGURE[quantity])
    await clearLine(line)
    return attempt(line, 'READ?', readingMs, replyMs)
  }
  return (quantity) =>
    guarded(async () => {
      await clearLine(line)
      if (knowsDirect) {
        const first = await direct(quantity)
        if (first.number !== undefined || !isUnknownCommand(first)) return answerOf(first, quantity)
        knowsDirect = false
      }
      return answerOf(await configured(quantity), quantity)
    })
}

interface Attempt {
  readonly question: string
  readonly reply: string | undefined
  readonly number: MeterNumber | undefined
  readonly troubles: readonly MeterTrouble[]
}

async function attempt(line: MeterLine, question: string, readingMs: number, replyMs: number): Promise<Attempt> {
  const reply = await ask(line, question, readingMs)
  const troubles = await drainTroubles(line, replyMs)
  return { question, reply, number: reply === undefined ? undefined : meterNumber(reply), troubles }
}

/** The queue holds the oldest first; asked until it says that it is empty. */
async function drainTroubles(line: MeterLine, replyMs: number): Promise<MeterTrouble[]> {
  const troubles: MeterTrouble[] = []
  for (let i = 0; i < LONGEST_QUEUE; i++) {
    const reply = await ask(line, 'SYST:ERR?', replyMs)
    const trouble = reply === undefined ? undefined : readTrouble(reply)
    if (trouble === undefined || trouble === 'none') break
    troubles.push(trouble)
  }
  return troubles
}

const LONGEST_QUEUE = 40

/** Command errors of SCPI-1999 are -100 to -199; a meter that answers nothing and has no queue may not know it either. */
const isUnknownCommand = ({ reply, troubles }: Attempt): boolean =>
  reply === undefined || troubles.some(({ number }) => number <= -100 && number > -200)

function answerOf({ question, reply, number, troubles }: Attempt, quantity: Quantity): Result<Reading> {
  const said = troubles.map(({ number: code, text }) => `${code}, ${text}`).join('; ')
  if (troubles.length > 0)
    return refused(say('its error {said}', { said }), say('a reading'), say('Look at what the meter shows.'))
  if (reply === undefined)
    return refused(
      say('no answer to {question}', { question }),
      say('a reading'),
      say('Look at the cable, and read again.'),
    )
  if (number === undefined)
    return refused(showValue(reply), say('a number'), say('Look at baud rate and cable, then read again.'))
  if (number.kind === 'no-number') return refused(say('9.91E37: it says that this is no number'), say('a reading'))
  if (number.kind === 'over') return good({ kind: 'open' })
  if (number.kind === 'under') {
    if (quantity === 'volts') return good({ kind: 'open' })
    return refused(say('less than it can show'), EXPECTED[quantity], CHARGED)
  }
  if (quantity === 'volts' || number.value >= 0) return good({ kind: 'value', value: number.value })
  if (number.value > -LEAST_CHARGE[quantity]) return good({ kind: 'value', value: 0 })
  return refused(`${number.value} ${quantity === 'ohms' ? 'Ω' : 'V'}`, EXPECTED[quantity], CHARGED)
}

const CHARGED = say('The rail may still be charged: let it drain, then read again.')

/** So little below zero, in ohms and in volts, is the meter's own zero. */
const LEAST_CHARGE = { ohms: 0.5, diode: 0.002 } as const
const EXPECTED = { ohms: say('a resistance'), diode: say('a diode reading') } as const

const refused = (found: string, expected: string, todo?: string): Result<never> => {
  const fault: Fault = { path: 'the meter', found, expected }
  return bad(todo === undefined ? fault : { ...fault, todo })
}

/** A line that is gone is a fault like others. */
async function guarded<T>(work: () => Promise<Result<T>>): Promise<Result<T>> {
  try {
    return await work()
  } catch (reason) {
    const found = reason instanceof Error ? reason.message : String(reason)
    return refused(
      say('a line that is gone ({found})', { found }),
      say('an open line'),
      say('Plug it in and connect again.'),
    )
  }
}
