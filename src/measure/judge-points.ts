/** A cold reading at a point of a power stage: a short by what is usual there, else held against good cards and siblings. */
import { say } from '../base/index.ts'
import type { StagePoint } from './schema.ts'
import { judgeAgainst } from './judge-range.ts'
import { besideSiblings } from './judge-siblings.ts'
import { rule, usualPointOf } from './practice.ts'
import type { MeasuringLine } from './reference.ts'
import { sayOhms } from './say.ts'
import type { Reading } from './schema.ts'
import { type Verdict, verdictOf } from './verdict-words.ts'

/** @param siblings of the same point at the other stages of the rail */
export function judgePoint(line: MeasuringLine, reading: Reading, siblings: readonly Reading[]): Verdict {
  const { point = 'switch' } = line.line
  const meaning = MEANINGS[point]
  if (reading.kind === 'short')
    return verdictOf('short', say('Said to be a short, without a figure. {low}', { low: meaning.low }))
  const shortBelow = shortBelowOhm(line, point)
  if (reading.kind === 'value' && reading.value < shortBelow) {
    return verdictOf(
      'short',
      say('{value} is less than {limit}: a short. {low}', {
        value: sayOhms(reading.value),
        limit: sayOhms(shortBelow),
        low: meaning.low,
      }),
    )
  }
  if (reading.kind === 'value' && line.reference.from === 'learnt') {
    const ranged = judgeAgainst(line, reading.value, sayOhms)
    if (ranged.kind !== 'in-range' || siblings.length === 0) return ranged
    // What good cards read may be wide, what stages of one card read is not.
    const beside = besideSiblings(line, reading, siblings)
    return beside.kind === 'alike' ? ranged : withMeaning(beside, point)
  }
  const beside = besideSiblings(line, reading, siblings)
  return beside.kind === 'no-range' ? againstHabit(reading, point, beside) : withMeaning(beside, point)
}

function shortBelowOhm({ usual }: MeasuringLine, point: StagePoint): number {
  if (point === 'switch') return usual?.shortBelowOhm ?? rule('anyRailAtLeastOhm')
  return usualPointOf(point)?.shortBelowOhm ?? rule('anyRailAtLeastOhm')
}

/** Without siblings only what is usual is left, which passes nothing and fails nothing. */
function againstHabit(reading: Reading, point: StagePoint, otherwise: Verdict): Verdict {
  const habit = usualPointOf(point)
  if (habit?.lowOhm === undefined || (reading.kind === 'open' && point !== 'input')) return otherwise
  const { lowOhm, words, source } = habit
  const usual = say('usual at the {words}: above {lowOhm} ({source})', {
    words,
    lowOhm: sayOhms(lowOhm),
    source,
  })
  if (reading.kind !== 'value')
    return verdictOf('usual', say('Open: the high-side switch lets nothing through; {usual}.', { usual }))
  return verdictOf(reading.value < lowOhm ? 'unusual' : 'usual', `${sayOhms(reading.value)}; ${usual}.`)
}

const withMeaning = (verdict: Verdict, point: StagePoint): Verdict => {
  const more = verdict.kind === 'unlike-low' ? MEANINGS[point].low : verdict.kind === 'open' ? MEANINGS[point].open : ''
  return more === '' ? verdict : { ...verdict, sentence: `${verdict.sentence} ${more}` }
}

/** What low and open speak of at each point. */
const MEANINGS: Readonly<Record<StagePoint, { readonly low: string; readonly open: string }>> = {
  input: {
    low: say('The high-side switch may be shorted: with power the input would go straight to the rail.'),
    open: say('Its own input feed may be open.'),
  },
  switch: {
    low: say(
      'The windings join all switch nodes, so that it points at no stage: look at the contact, and read the rail.',
    ),
    open: say('Its winding or a joint of it may be open.'),
  },
  driver: { low: say('The driver pulls its supply down.'), open: say('The feed of the driver may be open.') },
  enable: {
    low: say('The pin may be blown, and the stage stays off.'),
    open: say('The joint or the track of the pin may be open.'),
  },
  pwm: {
    low: say('The pin may be blown, and the stage with it.'),
    open: say('The joint or the track of the pin may be open.'),
  },
}
