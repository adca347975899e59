/** A bench meter that speaks SCPI, simulated by its characters on the line, with the quirks of real ones. */
import type { MeterLine } from '../../src/measure/index.ts'

export interface MeterQuirks {
  readonly idn?: string
  readonly ending?: string
  /** Sends back what it is told before it answers. */
  readonly echo?: boolean
  /** Knows `CONF` and `READ?` only. */
  readonly noMeasure?: boolean
  /** Has no error queue: silent at `SYST:ERR?`. */
  readonly noQueue?: boolean
  readonly emptyQueue?: string
  /** Says nothing to questions that it does not know, nor has an error for them. */
  readonly mute?: boolean
  /** Lines that lie in its output before anybody asked. */
  readonly leftOver?: readonly string[]
  /** Answers that are missed before the first that comes. */
  readonly asleepFor?: number
}

export interface SimulatedMeter {
  readonly line: MeterLine
  /** What the display shows, in the meter's own spelling. */
  show: (ohms: string, volts?: string, diode?: string) => void
  /** Puts an error in its queue. */
  fail: (error: string) => void
  /** The cable is pulled. */
  pull: () => void
  readonly heard: readonly string[]
}

/** Long and short forms of IEEE 488.2 and SCPI-1999: only the capitals are needed. */
const FORMS = {
  idn: /^\*IDN\?$/i,
  error: /^:?SYST(?:EM)?:ERR(?:OR)?(?::NEXT)?\?$/i,
  measureOhms: /^:?MEAS(?:URE)?(?::SCAL(?:AR)?)?:RES(?:ISTANCE)?\?$/i,
  measureVolts: /^:?MEAS(?:URE)?(?::SCAL(?:AR)?)?:VOLT(?:AGE)?(?::DC)?\?$/i,
  /** Not in the core of SCPI-1999, but common: from memory. */
  measureDiode: /^:?MEAS(?:URE)?(?::SCAL(?:AR)?)?:DIOD(?:E)?\?$/i,
  configureDiode: /^:?CONF(?:IGURE)?:DIOD(?:E)?$/i,
  configureOhms: /^:?CONF(?:IGURE)?:RES(?:ISTANCE)?$/i,
  configureVolts: /^:?CONF(?:IGURE)?:VOLT(?:AGE)?(?::DC)?$/i,
  read: /^:?READ\?$/i,
} as const

export function simulatedMeter(quirks: MeterQuirks = {}): SimulatedMeter {
  const { idn = 'Bench Works,DM-1,0,1.02', ending = '\n', emptyQueue = '0,"No error"' } = quirks
  const shown = { ohms: '+6.20000000E+01', volts: '+1.35000000E+00', diode: '+5.45000000E-01' }
  const queue: string[] = []
  const heard: string[] = []
  let output = (quirks.leftOver ?? []).map((line) => line + ending).join('')
  let configured: keyof typeof shown = 'volts'
  let asleep = quirks.asleepFor ?? 0
  let pulled = false

  const answer = (text: string): void => {
    if (asleep > 0) asleep--
    else output += text + ending
  }
  const unknown = (): void => {
    if (quirks.mute !== true) queue.push('-113,"Undefined header"')
  }
  const measure = (reading: string): void => {
    if (quirks.noMeasure === true) unknown()
    else answer(reading)
  }
  const hear = (text: string): void => {
    heard.push(text)
    if (quirks.echo === true) output += text + ending
    if (FORMS.idn.test(text)) answer(idn)
    else if (FORMS.error.test(text)) {
      if (quirks.noQueue !== true) answer(queue.shift() ?? emptyQueue)
    } else if (FORMS.measureOhms.test(text)) measure(shown.ohms)
    else if (FORMS.measureVolts.test(text)) measure(shown.volts)
    else if (FORMS.measureDiode.test(text)) measure(shown.diode)
    else if (FORMS.configureDiode.test(text)) configured = 'diode'
    else if (FORMS.configureOhms.test(text)) configured = 'ohms'
    else if (FORMS.configureVolts.test(text)) configured = 'volts'
    else if (FORMS.read.test(text)) answer(shown[configured])
    else unknown()
  }
  const here = <T>(value: T): Promise<T> =>
    pulled ? Promise.reject(new Error('the device has been lost')) : Promise.resolve(value)
  const nextLine = (): string | undefined => {
    const at = output.search(/[\r\n]/)
    if (at < 0) return undefined
    const line = output.slice(0, at)
    output = output.slice(at + 1)
    return line
  }
  return {
    line: {
      send: (text) => here(text).then(hear),
      receive: () => here(nextLine()),
    },
    show: (ohms, volts = shown.volts, diode = shown.diode) => {
      shown.diode = diode
      shown.ohms = ohms
      shown.volts = volts
    },
    fail: (error) => queue.push(error),
    pull: () => {
      pulled = true
    },
    heard,
  }
}
