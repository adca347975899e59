/** What a report says was tested: of what it does not name nothing is known, and nothing is called clean. */
import { say } from '../../base/index.ts'
import type { PartTally, Tally } from '../../report/index.ts'

const lanesOf = (part: PartTally) => part.channels.flatMap((channel) => channel.lanes)

export const isUntested = (part: PartTally): boolean =>
  part.errors === 0 && lanesOf(part).every((lane) => lane.state === 'untested')

/** Whether anything at all was read of it: a lane that passed or failed, or errors that were placed. */
export const saysSomething = (tally: Tally): boolean => tally.parts.some((part) => !isUntested(part))

/** `1,432 errors`, `no errors`, `no errors, 2 of 8 lanes untested`, `untested`. */
export function errorWords(part: PartTally): string {
  if (isUntested(part)) return say('untested')
  const lanes = lanesOf(part)
  const untested = lanes.filter((lane) => lane.state === 'untested').length
  const errors =
    part.errors === 0
      ? errorlessWords(part)
      : say('{errors, plural, one {# error} other {# errors}}', { errors: part.errors })
  return untested === 0
    ? errors
    : say('{errors}, {untested} of {length, plural, one {# lane} other {# lanes}} untested', {
        errors,
        untested,
        length: lanes.length,
      })
}

/** A report may call a lane failing without counting. */
const errorlessWords = (part: PartTally): string => {
  const failing = lanesOf(part).filter((lane) => lane.state === 'fail').length
  return failing === 0
    ? say('no errors')
    : say('{failing, plural, one {# lane} other {# lanes}} {failing, plural, one {fails} other {fail}}', { failing })
}
