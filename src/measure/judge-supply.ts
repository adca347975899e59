/** A cold reading at a supply: one before a fuse reads what the rail behind it reads, or the fuse is open. */
import { say } from '../base/index.ts'
import { judgeOhms } from './judge-ohms.ts'
import { rule } from './practice.ts'
import type { MeasuringLine } from './reference.ts'
import { sayOhms } from './say.ts'
import type { Reading } from './schema.ts'
import { type Verdict, verdictOf } from './verdict-words.ts'

const BLOWN = say('Find what blew it before a new one goes in.')

/** @param behind what the rail behind its fuse reads; undefined for a supply of its own, or where the rail is not read */
export function judgeSupply(line: MeasuringLine, reading: Reading, behind: Reading | undefined): Verdict {
  const own = judgeOhms(line, reading)
  if (behind === undefined || own.kind === 'short') return own
  const { rail = say('the rail') } = line
  if (behind.kind !== 'value') return own
  const other = say('{rail} behind it, {value}', { rail, value: sayOhms(behind.value) })
  if (reading.kind !== 'value')
    return verdictOf('open', say('Open, and not as {other}: the fuse is open. {blown}', { other, blown: BLOWN }))
  const { value } = reading
  if (value > rule('siblingsMuchAbove') * behind.value) {
    return verdictOf(
      'open',
      say('{value} is far above {other}: the fuse is open. {blown}', { value: sayOhms(value), other, blown: BLOWN }),
    )
  }
  return value < rule('farBelowRange') * behind.value
    ? verdictOf(
        'unlike-low',
        say('{value} is far below {other}: something leaks before the fuse.', { value: sayOhms(value), other }),
      )
    : verdictOf('alike', say('{value}, as {other}: the fuse joins them.', { value: sayOhms(value), other }))
}
