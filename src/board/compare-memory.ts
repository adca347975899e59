/** What of channels and lanes changed between two versions of a board, in sentences. */
import { someOf } from '../base/index.ts'
import { laneIdOf, lanePart, regionNameOf } from './lanes.ts'
import type { BoardDescription, LaneDescription } from './schema.ts'

interface LaneAt {
  readonly channel: string
  /** Its place among the lanes of its channel, from 0. */
  readonly place: number
  readonly region: string
  readonly balls: string
  readonly corridor: string
}

/** @param newRef later refs of parts that were renamed; a rename alone changes no lane */
export function compareMemory(
  before: BoardDescription,
  after: BoardDescription,
  newRef: ReadonlyMap<string, string>,
): string[] {
  const [earlier, later] = [lanesAt(before, newRef), lanesAt(after, new Map())]
  const added = [...later.keys()].filter((id) => !earlier.has(id))
  const gone = [...earlier.keys()].filter((id) => !later.has(id))
  const both = [...later].flatMap(([id, is]) => {
    const was = earlier.get(id)
    return was === undefined ? [] : [{ id, was, is }]
  })
  const having = (differs: (was: LaneAt, is: LaneAt) => boolean): string[] =>
    both.filter(({ was, is }) => differs(was, is)).map(({ id }) => id)
  return [
    ...say(added, 'is a new lane', 'are new lanes'),
    ...say(gone, 'is no lane any more', 'are no lanes any more'),
    ...say(
      having((was, is) => was.channel !== is.channel),
      'belongs to another channel',
      'belong to other channels',
    ),
    ...say(
      having((was, is) => was.channel === is.channel && was.place !== is.place),
      'carries other data bits of its channel',
      'carry other data bits of their channel',
    ),
    ...say(
      having((was, is) => was.region !== is.region),
      'ends in another region',
      'end in other regions',
    ),
    ...say(
      having((was, is) => was.balls !== is.balls),
      'is on other balls',
      'are on other balls',
    ),
    ...say(
      having((was, is) => was.corridor !== is.corridor),
      'has another corridor',
      'have other corridors',
    ),
  ]
}

const say = (ids: readonly string[], one: string, many: string): string[] =>
  ids.length === 0 ? [] : [`${someOf(ids, 6)} ${ids.length === 1 ? one : many}.`]

function lanesAt(board: BoardDescription, newRef: ReadonlyMap<string, string>): Map<string, LaneAt> {
  const lanes = new Map<string, LaneAt>()
  for (const channel of board.memory.channels)
    for (const [place, lane] of channel.lanes.entries()) {
      const part = lanePart(channel, lane)
      const ref = newRef.get(part) ?? part
      lanes.set(laneIdOf(ref, lane), { channel: channel.id, place, ...endsOf(lane) })
    }
  return lanes
}

const endsOf = (lane: LaneDescription): Pick<LaneAt, 'region' | 'balls' | 'corridor'> => ({
  region: `${regionNameOf(lane)} ${lane.coreRegion ?? ''}`,
  balls: JSON.stringify([lane.bits, lane.swaps]),
  corridor: JSON.stringify([lane.corridor, lane.corridorWidthMm]),
})
