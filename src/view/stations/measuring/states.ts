/** What the two measuring stations hold and still lack. */
import { someOf, say } from '../../../base/index.ts'
import type { BoardModel } from '../../../board/index.ts'
import { type Case, usualPhase } from '../../../case/index.ts'
import { isAsked, lastReadings } from '../../../measure/index.ts'
import { powerJudgementOf, verdictsOf } from '../../stores/measuring.ts'
import type { Held } from '../entry.ts'

/** @param model without it only the readings are counted */
export function coldMeasuring(present: Case, model?: BoardModel): Held {
  const phase = usualPhase(present)
  const cold = lastReadings(present.measurements, 'ohms', phase).size
  const again = phase === 'after' ? say(' after the work') : ''
  if (cold === 0) {
    return phase === 'after'
      ? {
          state: 'empty',
          words: say('nothing measured after the work'),
          lacks: say('measure again before any power'),
        }
      : { state: 'empty', words: say('nothing measured yet'), lacks: say('measure before any power') }
  }
  if (model === undefined)
    return { state: 'partly', words: say('{cold} measured{again}', { cold, again }), lacks: undefined }
  const { verdict, missing } = powerJudgementOf(model, present, phase)
  const asked = verdictsOf(model, present, 'ohms', phase).filter(({ line }) => isAsked(line))
  const read = asked.filter(({ measurement }) => measurement !== undefined).length
  const words = say('{read} of {length, plural, one {# line} other {# lines}}{again}', {
    read,
    length: asked.length,
    again,
  })
  const lacking =
    missing.length === 0
      ? undefined
      : say('lacks {missing}', {
          missing: someOf(
            missing.map(({ name }) => name),
            2,
          ),
        })
  const lacks = verdict === 'not-safe' ? say('not safe to power') : lacking
  return { state: lacks === undefined ? 'done' : 'partly', words, lacks }
}

export function poweredMeasuring({ measurements, powerUps, powered, benchMachine }: Case): Held {
  const volts = measurements.filter(({ quantity }) => quantity === 'volts').length
  const answers = [powered.enumerates, powered.picture, powered.otherOutput]
  const seen = answers.filter((answer) => answer !== 'unknown').length + (benchMachine?.before === undefined ? 0 : 1)
  if (volts === 0 && powerUps.length === 0 && seen === 0) {
    return { state: 'empty', words: say('not powered here yet'), lacks: undefined }
  }
  const held = [
    ...(powerUps.length === 0
      ? []
      : [powerUps.length === 1 ? say('powered once') : say('powered {length} times', { length: powerUps.length })]),
    ...(volts === 0 ? [] : [say('{volts} measured', { volts })]),
  ]
  const lacks =
    powerUps.length === 0 ? say('lacks that power was given') : volts === 0 ? say('lacks voltages') : undefined
  return {
    state: lacks === undefined && seen > 0 ? 'done' : 'partly',
    words: held.length === 0 ? say('looked at') : held.join(', '),
    lacks: lacks ?? (seen === 0 ? say('lacks what the host sees') : undefined),
  }
}
