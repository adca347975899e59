/** A cold resistance to ground, held against the rail's reference. */
import { say } from '../base/index.ts'
import { judgeAgainst } from './judge-range.ts'
import { isOfCore, rule } from './practice.ts'
import type { MeasuringLine } from './reference.ts'
import { sayOhms } from './say.ts'
import type { Reading } from './schema.ts'
import { type Verdict, verdictOf } from './verdict-words.ts'

const CORE = say('A core rail reads low by nature: compare it with a good card of this board.')

/**
 * Expects a reading in ohms. A short counts before any range, what is only usual is a hint, and a line that only its
 * siblings could judge gets no range here. A core rail is said to read low by nature.
 */
export function judgeOhms(line: MeasuringLine, reading: Reading): Verdict {
  const verdict = judged(line, reading)
  return isOfCore(line.use) ? { ...verdict, sentence: `${verdict.sentence} ${CORE}` } : verdict
}

function judged(line: MeasuringLine, reading: Reading): Verdict {
  if (reading.kind === 'short') return verdictOf('short', say('Said to be a short, without a figure.'))
  if (reading.kind === 'open') {
    return verdictOf(
      'open',
      say('Beyond the meter: no way to ground, or no contact. Look at the probe, then measure again.'),
    )
  }
  const { value } = reading
  if (countsAsShort(line, value)) {
    return verdictOf(
      'short',
      say('{value} is less than {limit}: a short.', { value: sayOhms(value), limit: sayOhms(shortBelow(line)) }),
    )
  }
  const { from, low, high, words } = line.reference
  if (from === 'none' || from === 'siblings') return verdictOf('no-range', `${sayOhms(value)}: ${words}.`)
  return from === 'hint' ? againstUsual(value, low, high, words) : judgeAgainst(line, value, sayOhms)
}

/** So far above its range that the unit may have slipped, the probe may stand beside the point, or the rail may be cut. */
export function isFarAbove({ reference: { high } }: MeasuringLine, reading: Reading | undefined): boolean {
  return reading?.kind === 'value' && high !== undefined && reading.value > rule('muchAboveRange') * high
}

/** What is inside of a range of this board is none, whatever is usual; a flat zero always is. */
function countsAsShort(line: MeasuringLine, ohm: number): boolean {
  if (ohm === 0) return true
  const { from, low } = line.reference
  const inside = (from === 'board' || from === 'learnt') && low !== undefined && ohm >= low
  return !inside && ohm < shortBelow(line)
}

const shortBelow = ({ usual }: MeasuringLine): number => usual?.shortBelowOhm ?? rule('anyRailAtLeastOhm')

/** A hint passes nothing and fails nothing. */
function againstUsual(ohm: number, low: number | undefined, high: number | undefined, words: string): Verdict {
  const inside = (low === undefined || ohm >= low) && (high === undefined || ohm <= high)
  return verdictOf(
    inside ? 'usual' : 'unusual',
    say('{ohm}; {words}. A hint only: hold it against a good card of this board.', { ohm: sayOhms(ohm), words }),
  )
}
