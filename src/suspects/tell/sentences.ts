/** Stories in plain words. */
import { asSentence, joined } from '../../base/index.ts'
import { branchOf, railOf } from '../causes/places.ts'
import type { CauseAt, CauseKind } from '../result.ts'

const reaching = (cause: CauseAt): string => (cause.refs.length === 0 ? '' : `, reaching ${joined(cause.refs)}`)

const PHRASES: Record<CauseKind, (cause: CauseAt) => string> = {
  die: ({ at }) => `the die of ${at} itself is bad`,
  joints: ({ at }) => `joints under ${at} are open`,
  'command-joints': ({ at }) => `joints of the command group ${at} are open`,
  corridor: ({ at }) => `the tracks of lane ${at} are cut or bridged`,
  rail: ({ at }) => `${at} is out of tolerance`,
  'rail-branch': ({ at }) => branchWords(at),
  'power-stage': ({ at }) => `power stage ${at} is bad`,
  core: ({ at, refs }) => `${coreName(at, refs)} ${at.startsWith('the controllers') ? 'are' : 'is'} bad`,
  'core-patch': ({ at }) => `neighbouring joints under ${at} are open`,
  spill: (cause) => `the reported spill (${cause.at}) did it${reaching(cause)}`,
  'unreported-spill': (cause) => `something that nobody reported was spilled ${cause.at}${reaching(cause)}`,
  slip: ({ at }) => `the slip ${at} did harm`,
}

/** A cause as a clause without capital and full stop, to stand beside others. */
export const phrase = (cause: CauseAt): string => PHRASES[cause.kind](cause)

/** The core as a whole by its ref; a side or a controller of it by what it is. */
const coreName = (at: string, refs: readonly string[]): string => (refs.includes(at) ? `the core ${at}` : at)

const NAMES: Record<CauseKind, (at: string, refs: readonly string[]) => string> = {
  die: (at) => `the die of ${at}`,
  joints: (at) => `joints under ${at}`,
  'command-joints': (at) => `command joints ${at}`,
  corridor: (at) => `the tracks of ${at}`,
  rail: (at) => at,
  'rail-branch': (at) => at,
  'power-stage': (at) => `power stage ${at}`,
  core: coreName,
  'core-patch': (at) => `joints under ${at}`,
  spill: (at) => `the reported spill (${at})`,
  'unreported-spill': (at) => `an unreported spill (${at})`,
  slip: (at) => `the slip ${at}`,
}

/** A cause as a noun. */
export const nameOf = (cause: CauseAt): string => NAMES[cause.kind](cause.at, cause.refs)

/** A supply that is off on one branch. */
function branchWords(at: string): string {
  const branch = branchOf(at)
  return branch === undefined ? `${at} is out of tolerance` : `${railOf(at)} is out of tolerance on its ${branch}`
}

/**
 * A story as one sentence; without causes it says whether anything needs one.
 * @param anythingBad whether there is anything to explain
 */
export function storySentence(causes: readonly CauseAt[], anythingBad: boolean): string {
  if (causes.length === 0) {
    return anythingBad ? 'Something that is not in the list of causes.' : 'No tested lane fails: nothing needs a cause.'
  }
  const text = causes.map(phrase).join('; and ')
  const opening = causes.length === 1 ? '' : `${causes.length} faults at once: `
  const whole = opening + text
  return asSentence(whole)
}
