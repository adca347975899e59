/** What the proof station holds and still lacks. */
import { say } from '../../../base/index.ts'
import type { Case, Proof } from '../../../case/index.ts'
import type { Held } from '../entry.ts'

/** @param proof left out while nothing is worked out: only whether there are runs is told */
export function proofState({ reports }: Pick<Case, 'reports'>, proof?: Proof): Held {
  const retests = reports.filter(({ run }) => run === 'retest').length
  if (retests === 0) return { state: 'empty', words: say('not tested again yet'), lacks: undefined }
  if (proof === undefined || !proof.tested)
    return {
      state: 'partly',
      words: say('{retests, plural, one {# run} other {# runs}} after the work', { retests }),
      lacks: say('none of them read'),
    }
  const lacks = lackOf(proof)
  return { state: lacks === undefined ? 'done' : 'partly', words: heldWords(proof), lacks }
}

function heldWords({ fresh, still, notTold, untested, lanes, passes }: Proof): string {
  const failing = fresh.length + still.length + notTold.length
  if (failing === 0 && untested.length === lanes.length) return say('nothing tested again yet')
  if (failing > 0)
    return say(
      '{failing, plural, one {# lane} other {# lanes}} {failing, plural, one {fails} other {fail}} after the work',
      { failing },
    )
  return passes.clean === 0
    ? say('no error seen')
    : say('{clean, plural, one {# run} other {# runs}} without an error', { clean: passes.clean })
}

function lackOf({ fresh, still, notTold, untested, passes }: Proof): string | undefined {
  if (fresh.length > 0)
    return fresh.length === 1 ? say('one of them is new') : say('{length} of them are new', { length: fresh.length })
  if (still.length + notTold.length > 0) return say('errors remain')
  if (untested.length > 0)
    return say('{length, plural, one {# lane} other {# lanes}} not tested again', { length: untested.length })
  return passes.clean === 0 ? say('note how many runs') : undefined
}
