/** A voltage under power, held against nominal and tolerance; a core's by what the card does. */
import { say } from '../base/index.ts'
import { isOfCore, rule } from './practice.ts'
import type { MeasuringLine } from './reference.ts'
import { sayRange, sayVolts, STATE_WORDS } from './say.ts'
import type { PoweredState, Reading } from './schema.ts'
import { type Verdict, verdictOf } from './verdict-words.ts'

/** @param state what the card did meanwhile, where it was noted */
export function judgeVolts(line: MeasuringLine, reading: Reading, state: PoweredState | undefined): Verdict {
  const { reference, nominalV } = line
  if (reading.kind === 'short') return verdictOf('no-voltage', say('Said to be a short: take the power off.'))
  if (reading.kind === 'open') return verdictOf('above', say('Beyond the meter; {words}.', { words: reference.words }))
  const { value } = reading
  const said = sayVolts(value)
  if (nominalV !== undefined && Math.abs(value) < rule('noVoltageBelow') * nominalV) {
    return verdictOf('no-voltage', say('{said}: the rail is not on; {words}.', { said, words: reference.words }))
  }
  const { from, low, high, span, source, words } = reference
  const range = `${span} (${source})`
  if (from === 'none') return verdictOf('no-range', `${said}: ${words}.`)
  if (value < 0)
    return verdictOf('below-zero', say('{said} is below zero: the probes may be swapped. Read it again.', { said }))
  if (isOfCore(line.use) && nominalV !== undefined) {
    if (value > rule('coreNeverAbove') * nominalV) {
      return verdictOf('above', say('{said} is more than a core is given in any state: take the power off.', { said }))
    }
    if (from === 'hint') return besideWindow(value, nominalV, state)
  }
  const under = low !== undefined && value < low
  const over = high !== undefined && value > high
  if (from === 'hint')
    return verdictOf(under || over ? 'unusual' : 'usual', say('{said}; {words}. A hint only.', { said, words }))
  if (under) return verdictOf('below', say('{said} is below {range}.', { said, range }))
  return over
    ? verdictOf('above', say('{said} is above {range}.', { said, range }))
    : verdictOf('in-range', say('{said} is within {range}.', { said, range }))
}

/** The controller moves the core's voltage with its load, so that no window of the trade's habit fails a reading. */
function besideWindow(volt: number, nominalV: number, state: PoweredState | undefined): Verdict {
  const said = sayVolts(volt)
  const [low, high] = coreWindow(nominalV, state)
  const when = state === undefined ? say('idle or under load') : STATE_WORDS[state]
  const isInside = volt >= low && volt <= high
  const sentence = say('{said}; expected {when}: {low} (common practice, no source).', {
    said,
    when,
    low: sayRange(low, high, 'volts'),
  })
  return verdictOf(
    isInside ? 'usual' : 'unusual',
    isInside ? sentence : say('{sentence} Hold it against a good card.', { sentence }),
  )
}

/** In volts; both states together where nobody said which. */
export function coreWindow(nominalV: number, state: PoweredState | undefined): readonly [number, number] {
  const low = rule(state === 'load' ? 'coreLoadLow' : 'coreIdleLow')
  const high = rule(state === 'idle' ? 'coreIdleHigh' : 'coreLoadHigh')
  return [Number((low * nominalV).toPrecision(3)), Number((high * nominalV).toPrecision(3))]
}
