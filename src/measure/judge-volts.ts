/** A voltage under power, held against nominal and tolerance. */
import type { MeasuringLine } from './lines.ts'
import { rule } from './practice.ts'
import { sayVolts } from './say.ts'
import type { Reading } from './schema.ts'
import { type Verdict, verdictOf } from './verdict-words.ts'

export function judgeVolts({ reference, nominalV }: MeasuringLine, reading: Reading): Verdict {
  if (reading.kind === 'short') return verdictOf('no-voltage', 'Said to be a short: take the power off.')
  if (reading.kind === 'open') return verdictOf('above', `Beyond the meter; ${reference.words}.`)
  const { value } = reading
  const said = sayVolts(value)
  if (nominalV !== undefined && Math.abs(value) < rule('noVoltageBelow') * nominalV) {
    return verdictOf('no-voltage', `${said}: the rail is not on; ${reference.words}.`)
  }
  const { from, low, high, span, source, words } = reference
  const range = `${span} (${source})`
  if (from === 'none') return verdictOf('no-range', `${said}: ${words}.`)
  const under = low !== undefined && value < low
  const over = high !== undefined && value > high
  if (from === 'hint') return verdictOf(under || over ? 'unusual' : 'usual', `${said}; ${words}. A hint only.`)
  if (value < 0) return verdictOf('below', `${said} is below zero: the probes may be swapped; ${range}.`)
  if (under) return verdictOf('below', `${said} is below ${range}.`)
  return over ? verdictOf('above', `${said} is above ${range}.`) : verdictOf('in-range', `${said} is within ${range}.`)
}
