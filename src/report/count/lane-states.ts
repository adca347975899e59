/** Which lanes a tally calls failing, passing or untested. */
import type { Tally } from '../tally.ts'

/**
 * The state of every lane by its id.
 *
 * Assumptions: a report with addresses is of a test of the whole memory, so a lane without errors passed if the address
 * map reaches its channel; a report with labels speaks only of the lanes, channels and parts that it lists, and an error
 * that it places in a channel or a part alone puts all of their lanes in doubt.
 */
export function laneStates(tally: Tally): Map<string, 'fail' | 'pass' | 'untested'> {
  const states = new Map<string, 'fail' | 'pass' | 'untested'>()
  for (const part of tally.parts) {
    for (const channel of part.channels) for (const lane of channel.lanes) states.set(lane.id, lane.state)
  }
  return states
}
