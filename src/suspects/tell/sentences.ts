/** Stories in plain words. */
import { asSentence, joined, say } from '../../base/index.ts'
import { branchOf, isTwoControllers, placeSaid, railOf } from '../causes/places.ts'
import type { CauseAt, CauseKind } from '../result.ts'

const reaching = (cause: CauseAt): string =>
  cause.refs.length === 0 ? '' : say(', reaching {refs}', { refs: joined(cause.refs) })

const PHRASES: Record<CauseKind, (cause: CauseAt) => string> = {
  die: ({ at }) => say('the die of {at} itself is bad', { at: placeSaid(at) }),
  joints: ({ at }) => say('joints under {at} are open', { at: placeSaid(at) }),
  'command-joints': ({ at }) => say('joints of the command group {at} are open', { at }),
  corridor: ({ at }) => say('the tracks of lane {at} are cut or bridged', { at }),
  rail: ({ at }) => say('{at} is out of tolerance', { at: placeSaid(at) }),
  'rail-branch': ({ at }) => branchWords(at),
  'power-stage': ({ at }) => say('power stage {at} is bad', { at }),
  core: ({ at, refs }) =>
    isTwoControllers(at)
      ? say('{at} are bad', { at: coreName(at, refs) })
      : say('{at} is bad', { at: coreName(at, refs) }),
  'core-patch': ({ at }) => say('neighbouring joints under {at} are open', { at: placeSaid(at) }),
  spill: (cause) => say('the reported spill ({at}) did it{cause}', { at: cause.at, cause: reaching(cause) }),
  'unreported-spill': (cause) =>
    say('something that nobody reported was spilled {at}{cause}', { at: cause.at, cause: reaching(cause) }),
  slip: ({ at }) => say('the slip {at} did harm', { at }),
}

/** A cause as a clause without capital and full stop, to stand beside others. */
export const phrase = (cause: CauseAt): string => PHRASES[cause.kind](cause)

/** The core as a whole by its ref; a side or a controller of it by what it is. */
const coreName = (at: string, refs: readonly string[]): string =>
  refs.includes(at) ? say('the core {at}', { at }) : placeSaid(at)

const NAMES: Record<CauseKind, (at: string, refs: readonly string[]) => string> = {
  die: (at) => say('the die of {at}', { at: placeSaid(at) }),
  joints: (at) => say('joints under {at}', { at: placeSaid(at) }),
  'command-joints': (at) => say('command joints {at}', { at }),
  corridor: (at) => say('the tracks of {at}', { at }),
  rail: placeSaid,
  'rail-branch': placeSaid,
  'power-stage': (at) => say('power stage {at}', { at }),
  core: coreName,
  'core-patch': (at) => say('joints under {at}', { at: placeSaid(at) }),
  spill: (at) => say('the reported spill ({at})', { at }),
  'unreported-spill': (at) => say('an unreported spill ({at})', { at }),
  slip: (at) => say('the slip {at}', { at }),
}

/** A cause as a noun. */
export const nameOf = (cause: CauseAt): string => NAMES[cause.kind](cause.at, cause.refs)

/** A supply that is off on one branch. */
function branchWords(at: string): string {
  const branch = branchOf(at)
  return branch === undefined
    ? say('{at} is out of tolerance', { at: placeSaid(at) })
    : say('{at} is out of tolerance on its branch {branch}', { at: placeSaid(railOf(at)), branch })
}

/**
 * A story as one sentence; without causes it says whether anything needs one.
 * @param anythingBad whether there is anything to explain
 */
export function storySentence(causes: readonly CauseAt[], anythingBad: boolean): string {
  if (causes.length === 0) {
    return anythingBad
      ? say('Something that is not in the list of causes.')
      : say('No tested lane fails: nothing needs a cause.')
  }
  const text = causes.map(phrase).reduce((first, next) => say('{first}; and {next}', { first, next }))
  return asSentence(causes.length === 1 ? text : say('{count} faults at once: {text}', { count: causes.length, text }))
}
