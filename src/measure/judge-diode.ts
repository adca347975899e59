/** A cold reading in diode mode, red on ground: held against good cards, the board’s own range and siblings; by itself it tells little. */
import { say } from '../base/index.ts'
import { judgeAgainst } from './judge-range.ts'
import { besideSiblings } from './judge-siblings.ts'
import { isOfCore, rule, usualPointOf } from './practice.ts'
import type { MeasuringLine } from './reference.ts'
import { sayMillivolts } from './say.ts'
import type { Reading } from './schema.ts'
import { type Verdict, verdictOf } from './verdict-words.ts'

/** @param siblings of the same point at the other stages of the rail */
export function judgeDiode(line: MeasuringLine, reading: Reading, siblings: readonly Reading[]): Verdict {
  if (reading.kind === 'short') return verdictOf('short', say('Said to be a short, without a figure.'))
  const isStage = line.line.kind === 'stage'
  const isRanged = line.reference.from === 'learnt' || line.reference.from === 'board'
  if (reading.kind === 'value') {
    const { value } = reading
    if (!isStage && isOfCore(line.use) && !isRanged) return ofCore(value)
    if (value <= shortV(line)) {
      return verdictOf(
        'short',
        say('{value}: next to nothing, as a short reads. Read it in ohms.', { value: sayMillivolts(value) }),
      )
    }
    if (isRanged) return besideRange(line, reading, siblings)
  }
  if (isStage) return besidePins(line, reading, siblings)
  if (reading.kind === 'open') {
    return verdictOf(
      'open',
      say('Nothing conducts from ground to it: no contact, or it is cut from its load. Look at the probe.'),
    )
  }
  return verdictOf(
    'no-range',
    say('{value}: a good card of this board gives it a reference.', { value: sayMillivolts(reading.value) }),
  )
}

const ofCore = (volt: number): Verdict =>
  verdictOf(
    'no-range',
    say('{volt}: a core reads next to nothing in diode mode. Read it in ohms.', { volt: sayMillivolts(volt) }),
  )

/** What the meter's current drops over a resistance at short level; a meter shows whole millivolts. */
function shortV({ line, usual }: MeasuringLine): number {
  const ofPoint = line.point === undefined ? undefined : usualPointOf(line.point)?.shortBelowOhm
  return (ofPoint ?? usual?.shortBelowOhm ?? rule('anyRailAtLeastOhm')) * rule('diodeTestA')
}

function besideRange(
  line: MeasuringLine,
  reading: Extract<Reading, { kind: 'value' }>,
  siblings: readonly Reading[],
): Verdict {
  const ranged = judgeAgainst(line, reading.value, sayMillivolts)
  if (ranged.kind !== 'in-range' || siblings.length === 0) return ranged
  const beside = besideSiblings(line, reading, siblings)
  return beside.kind === 'alike' ? ranged : beside
}

/** Without siblings the clamp of a pin is known by what is usual, which passes nothing and fails nothing. */
function besidePins(line: MeasuringLine, reading: Reading, siblings: readonly Reading[]): Verdict {
  const beside = besideSiblings(line, reading, siblings)
  const { point } = line.line
  if (beside.kind !== 'no-range' || reading.kind !== 'value' || point === 'driver') return beside
  const [low, high] = [rule('pinDiodeLowV'), rule('pinDiodeHighV')]
  const usual = say('usual at a pin: {low} to {high} (common practice, no source)', {
    low: sayMillivolts(low).replace(/ .*/, ''),
    high: sayMillivolts(high),
  })
  const isUsual = reading.value >= low && reading.value <= high
  return verdictOf(isUsual ? 'usual' : 'unusual', `${sayMillivolts(reading.value)}; ${usual}.`)
}
