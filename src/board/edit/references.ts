/** Whatever else in a board names a part: follows it to another ref, or goes with it. */
import { laneIdOf, lanePart } from '../lanes.ts'
import type { BoardDescription, ChannelDescription, LaneDescription, Part, Rail } from '../schema.ts'
import { lanesOfPart } from './placing.ts'

/** The board with a part under another ref everywhere: parts, rails, probe points, lanes, core regions, words of reports. */
export function withRef(board: BoardDescription, from: string, to: string): BoardDescription {
  const other = (ref: string): string => (ref === from ? to : ref)
  const lanes = new Map(lanesOfPart(board, from).map((id) => [id, `${to}${id.slice(from.length)}`]))
  const meant = (id: string): string => lanes.get(id) ?? other(id)
  return withNames(
    {
      ...withAddressNames(board, other),
      parts: board.parts.map((part) => renamedPart(part, other, lanes)),
      rails: board.rails.map((rail) => railWith(rail, other)),
      memory: {
        channels: board.memory.channels.map((channel) => ({
          ...channel,
          part: other(channel.part),
          lanes: channel.lanes.map((lane) => renamedLane(lane, other, lanes)),
        })),
      },
    },
    (meaning) => (typeof meaning === 'string' ? meant(meaning) : meaning.map(meant)),
  )
}

/** The core may draw a region that is called by the id of its lane. */
function renamedPart(part: Part, other: (ref: string) => string, lanes: ReadonlyMap<string, string>): Part {
  const ref = other(part.ref)
  const { carriedBy } = part
  if (carriedBy !== undefined) return { ...part, ref, carriedBy: other(carriedBy) }
  if (part.kind !== 'core' || part.regions?.some(({ name }) => lanes.has(name)) !== true)
    return ref === part.ref ? part : { ...part, ref }
  return {
    ...part,
    ref,
    regions: part.regions.map((region) => ({ ...region, name: lanes.get(region.name) ?? region.name })),
  }
}

function renamedLane(
  lane: LaneDescription,
  other: (ref: string) => string,
  lanes: ReadonlyMap<string, string>,
): LaneDescription {
  const { part, coreRegion } = lane
  return {
    ...lane,
    ...(part === undefined ? {} : { part: other(part) }),
    ...(coreRegion === undefined ? {} : { coreRegion: lanes.get(coreRegion) ?? coreRegion }),
  }
}

const railWith = (rail: Rail, other: (ref: string) => string): Rail => ({
  ...rail,
  stages: rail.stages.map(other),
  feeds: rail.feeds.map(other),
  branches: rail.branches.map((branch) => ({ ...branch, feeds: branch.feeds.map(other) })),
  points: rail.points.map((point) => (point.part === undefined ? point : { ...point, part: other(point.part) })),
})

/**
 * The board without some parts, and without what speaks of them: their place in rails, their probe points and lanes, and
 * words of reports for those. An address map stays: which channel it lacks is for the check to say.
 */
export function withoutRefs(board: BoardDescription, gone: ReadonlySet<string>): BoardDescription {
  const channels = board.memory.channels.flatMap((channel) => channelWithout(channel, gone))
  const left: BoardDescription = {
    ...board,
    parts: board.parts.filter(({ ref }) => !gone.has(ref)).map((part) => withoutCarrier(part, gone)),
    rails: board.rails.map((rail) => railWithout(rail, gone)),
    memory: { channels },
  }
  const known = new Set([
    ...channels.flatMap(({ id, part, lanes }) => [id, part, ...lanes.flatMap((lane) => lane.part ?? [])]),
    ...channels.flatMap((channel) => channel.lanes.map((lane) => laneIdOf(lanePart(channel, lane), lane))),
  ])
  return withNames(left, (meaning) => {
    if (typeof meaning === 'string') return known.has(meaning) ? meaning : undefined
    return meaning.every((id) => known.has(id)) ? meaning : undefined
  })
}

function withoutCarrier(part: Part, gone: ReadonlySet<string>): Part {
  const { carriedBy, ...alone } = part
  return carriedBy !== undefined && gone.has(carriedBy) ? alone : part
}

function channelWithout(channel: ChannelDescription, gone: ReadonlySet<string>): ChannelDescription | [] {
  const stays = channel.lanes.filter((lane) => !gone.has(lanePart(channel, lane)))
  if (stays.length === channel.lanes.length && !gone.has(channel.part)) return channel
  const [first] = stays
  if (first === undefined) return []
  return { ...channel, part: gone.has(channel.part) ? lanePart(channel, first) : channel.part, lanes: stays }
}

/** Without parts that it feeds or that make it; branches that feed nothing any more go too. */
export function railWithout(rail: Rail, gone: ReadonlySet<string>): Rail {
  const stays = (ref: string): boolean => !gone.has(ref)
  return {
    ...rail,
    stages: rail.stages.filter(stays),
    feeds: rail.feeds.filter(stays),
    branches: rail.branches
      .map((branch) => ({ ...branch, feeds: branch.feeds.filter(stays) }))
      .filter(({ feeds }) => feeds.length > 0),
    points: rail.points.filter(({ part }) => part === undefined || stays(part)),
  }
}

/** Labels of addresses, and the parts whose channels stand in a guessed order, under other refs. */
function withAddressNames(board: BoardDescription, other: (ref: string) => string): BoardDescription {
  const { addressMap, labelledAddresses } = board
  const guessed = addressMap?.channel.orderGuessed
  const meant = (label: string): string => (label.startsWith('!') ? `!${other(label.slice(1))}` : other(label))
  return {
    ...board,
    ...(addressMap === undefined || guessed === undefined
      ? {}
      : { addressMap: { ...addressMap, channel: { ...addressMap.channel, orderGuessed: guessed.map(other) } } }),
    ...(labelledAddresses === undefined
      ? {}
      : { labelledAddresses: labelledAddresses.map(({ address, label }) => ({ address, label: meant(label) })) }),
  }
}

type Meaning = string | string[]

/** Words of reports with other meanings; a name that means nothing any more goes. */
function withNames(board: BoardDescription, change: (meaning: Meaning) => Meaning | undefined): BoardDescription {
  if (board.reportWords === undefined) return board
  return {
    ...board,
    reportWords: board.reportWords.map((words) => {
      if (words.names === undefined) return words
      const names = Object.entries(words.names).flatMap(([name, meaning]) => {
        const next = change(meaning)
        return next === undefined ? [] : [[name, next] as const]
      })
      return { ...words, names: Object.fromEntries(names) }
    }),
  }
}
