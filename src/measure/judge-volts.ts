/** A voltage under power, held against nominal and tolerance; a core's by what the card does. */
import { isOfCore, rule } from './practice.ts'
import type { MeasuringLine } from './reference.ts'
import { sayRange, sayVolts, STATE_WORDS } from './say.ts'
import type { PoweredState, Reading } from './schema.ts'
import { type Verdict, verdictOf } from './verdict-words.ts'

/** @param state what the card did meanwhile, where it was noted */
export function judgeVolts(line: MeasuringLine, reading: Reading, state: PoweredState | undefined): Verdict {
  const { reference, nominalV } = line
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
  if (value < 0) return verdictOf('below-zero', `${said} is below zero: the probes may be swapped. Read it again.`)
  if (isOfCore(line.use) && nominalV !== undefined) {
    if (value > rule('coreNeverAbove') * nominalV) {
      return verdictOf('above', `${said} is more than a core is given in any state: take the power off.`)
    }
    if (from === 'hint') return besideWindow(value, nominalV, state)
  }
  const under = low !== undefined && value < low
  const over = high !== undefined && value > high
  if (from === 'hint') return verdictOf(under || over ? 'unusual' : 'usual', `${said}; ${words}. A hint only.`)
  if (under) return verdictOf('below', `${said} is below ${range}.`)
  return over ? verdictOf('above', `${said} is above ${range}.`) : verdictOf('in-range', `${said} is within ${range}.`)
}

/** The controller moves the core's voltage with its load, so that no window of the trade's habit fails a reading. */
function besideWindow(volt: number, nominalV: number, state: PoweredState | undefined): Verdict {
  const said = sayVolts(volt)
  const [low, high] = coreWindow(nominalV, state)
  const when = state === undefined ? 'idle or under load' : STATE_WORDS[state]
  const isInside = volt >= low && volt <= high
  const sentence = `${said}; expected ${when}: ${sayRange(low, high, 'volts')} (common practice, no source).`
  return verdictOf(isInside ? 'usual' : 'unusual', isInside ? sentence : `${sentence} Hold it against a good card.`)
}

/** In volts; both states together where nobody said which. */
export function coreWindow(nominalV: number, state: PoweredState | undefined): readonly [number, number] {
  const low = rule(state === 'load' ? 'coreLoadLow' : 'coreIdleLow')
  const high = rule(state === 'idle' ? 'coreIdleHigh' : 'coreLoadHigh')
  return [Number((low * nominalV).toPrecision(3)), Number((high * nominalV).toPrecision(3))]
}
