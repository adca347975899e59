/** A value against a range that passes or fails it. */
import { say } from '../base/index.ts'
import { rule } from './practice.ts'
import type { MeasuringLine } from './reference.ts'
import { type Verdict, verdictOf } from './verdict-words.ts'

/** @param inWords the value with its unit, for the sentence */
export function judgeAgainst(
  { reference: { low, high, span, source }, usual, line, quantity }: MeasuringLine,
  value: number,
  inWords: (value: number) => string,
): Verdict {
  const range = `${span} (${source})`
  if (low !== undefined && value < low) {
    const suspicious = line.kind === 'stage' || quantity !== 'ohms' ? undefined : usual?.suspiciousBelowOhm
    const far = value < (suspicious ?? low * rule('farBelowRange'))
    return verdictOf(
      far ? 'low' : 'below',
      far
        ? say('{value} is far below {range}.', { value: inWords(value), range })
        : say('{value} is below {range}.', { value: inWords(value), range }),
    )
  }
  if (high !== undefined && value > high)
    return verdictOf('above', say('{value} is above {range}.', { value: inWords(value), range }))
  return verdictOf('in-range', say('{value} is within {range}.', { value: inWords(value), range }))
}
