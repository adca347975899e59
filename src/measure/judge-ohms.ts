/** A cold resistance to ground, held against the line's reference, and a stage against its siblings. */
import type { MeasuringLine } from './lines.ts'
import { rule } from './practice.ts'
import { sayOhms } from './say.ts'
import type { Reading } from './schema.ts'
import { type Verdict, verdictOf } from './verdict-words.ts'

const CORE = 'A core rail reads low by nature: compare it with a good card and with its stages.'

/** @param siblings ohms of the other stages of the same rail, as far as they were measured */
export function judgeOhms(line: MeasuringLine, reading: Reading, siblings: readonly number[]): Verdict {
  const verdict = judged(line, reading, siblings)
  return line.use === 'core' ? { ...verdict, sentence: `${verdict.sentence} ${CORE}` } : verdict
}

function judged(line: MeasuringLine, reading: Reading, siblings: readonly number[]): Verdict {
  if (reading.kind === 'short') return verdictOf('short', 'Said to be a short, without a figure.')
  if (reading.kind === 'open') {
    return verdictOf(
      'open',
      'Beyond the meter: no way to ground, or no contact. Look at the probe, then measure again.',
    )
  }
  const { value } = reading
  if (countsAsShort(line, value)) {
    return verdictOf('short', `${sayOhms(value)} is less than ${sayOhms(shortBelow(line))}: a short.`)
  }
  const { from, low, high, span, source, words } = line.reference
  const range = `${span} (${source})`
  if (from === 'siblings') return besideSiblings(line, value, siblings)
  if (from === 'none') return verdictOf('no-range', `${sayOhms(value)}: ${words}.`)
  if (from === 'hint') return againstUsual(value, low, high, words)
  if (low !== undefined && value < low) {
    const far = value < (line.usual?.suspiciousBelowOhm ?? low / 2)
    return verdictOf(far ? 'low' : 'below', `${sayOhms(value)} is ${far ? 'far ' : ''}below ${range}.`)
  }
  if (high !== undefined && value > high) return verdictOf('above', `${sayOhms(value)} is above ${range}.`)
  const inRange = verdictOf('in-range', `${sayOhms(value)} is within ${range}.`)
  if (line.line.kind !== 'stage' || siblings.length === 0) return inRange
  // What good cards read may be wide, what stages of one card read is not.
  const beside = besideSiblings(line, value, siblings)
  return beside.kind === 'alike' ? inRange : beside
}

/** So far above its range that the unit may have slipped, the probe may stand beside the point, or the rail may be cut. */
export function isFarAbove({ reference: { high } }: MeasuringLine, reading: Reading): boolean {
  return reading.kind === 'value' && high !== undefined && reading.value > rule('muchAboveRange') * high
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
    `${sayOhms(ohm)}; ${words}. A hint only: hold it against a good card of this board.`,
  )
}

function besideSiblings({ rail }: MeasuringLine, ohm: number, siblings: readonly number[]): Verdict {
  const middle = medianOf(siblings)
  if (middle === undefined) return verdictOf('no-range', `${sayOhms(ohm)}: no other stage of ${rail} is measured yet.`)
  const others = `${sayOhms(middle)}, ${siblings.length === 1 ? 'its sibling' : `the median of its ${siblings.length} siblings`}`
  const near = Math.max(rule('siblingsLeastOhm'), rule('siblingsWithin') * middle)
  if (Math.abs(ohm - middle) <= near) return verdictOf('alike', `${sayOhms(ohm)} is near ${others}.`)
  if (ohm < middle) return verdictOf('unlike-low', `${sayOhms(ohm)} is below ${others}.`)
  return middle > 0 && ohm > rule('siblingsMuchAbove') * middle
    ? verdictOf('open', `${sayOhms(ohm)} is far above ${others}: no longer joined to ${rail}.`)
    : verdictOf('unlike-high', `${sayOhms(ohm)} is above ${others}.`)
}

function medianOf(values: readonly number[]): number | undefined {
  const sorted = values.toSorted((a, b) => a - b)
  const upper = sorted[Math.floor(sorted.length / 2)]
  const lower = sorted[Math.ceil(sorted.length / 2) - 1]
  return upper === undefined || lower === undefined ? undefined : (upper + lower) / 2
}
