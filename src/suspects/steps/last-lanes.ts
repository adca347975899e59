/** How each lane stands by the newest run that tested it. */
import type { Findings, LaneState } from '../result.ts'

/** @returns by lane id; a lane that no run tested is untested */
export function lastLanes({ lanes, rounds = [] }: Findings): ReadonlyMap<string, LaneState> {
  const last = new Map(lanes)
  for (const round of rounds) for (const [lane, state] of round.lanes) if (state !== 'untested') last.set(lane, state)
  return last
}
