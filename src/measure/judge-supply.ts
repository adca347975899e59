/** A cold reading at a supply: one before a fuse reads what the rail behind it reads, or the fuse is open. */
import { judgeOhms } from './judge-ohms.ts'
import { rule } from './practice.ts'
import type { MeasuringLine } from './reference.ts'
import { sayOhms } from './say.ts'
import type { Reading } from './schema.ts'
import { type Verdict, verdictOf } from './verdict-words.ts'

const BLOWN = 'Find what blew it before a new one goes in.'

/** @param behind what the rail behind its fuse reads; undefined for a supply of its own, or where the rail is not read */
export function judgeSupply(line: MeasuringLine, reading: Reading, behind: Reading | undefined): Verdict {
  const own = judgeOhms(line, reading)
  if (behind === undefined || own.kind === 'short') return own
  const { rail = 'the rail' } = line
  if (behind.kind !== 'value') return own
  const other = `${rail} behind it, ${sayOhms(behind.value)}`
  if (reading.kind === 'open') return verdictOf('open', `Open, and not as ${other}: the fuse is open. ${BLOWN}`)
  const value = reading.kind === 'value' ? reading.value : 0
  if (value > rule('siblingsMuchAbove') * behind.value) {
    return verdictOf('open', `${sayOhms(value)} is far above ${other}: the fuse is open. ${BLOWN}`)
  }
  return value < rule('farBelowRange') * behind.value
    ? verdictOf('unlike-low', `${sayOhms(value)} is far below ${other}: something leaks before the fuse.`)
    : verdictOf('alike', `${sayOhms(value)}, as ${other}: the fuse joins them.`)
}
