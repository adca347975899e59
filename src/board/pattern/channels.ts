/** Channels and lanes of packages in a ring: which lanes of which package belong to which channel. */
import type { ChannelDescription } from '../schema.ts'
import { channelLanes, memoryKinds, outlineNamed, type PatternPackage } from './memory-kinds.ts'

/** A package on the front and, where the card has both sides, the one behind it. */
export interface PackagePair {
  readonly front: string
  readonly back?: string | undefined
}

/** Channels in the order of the packages, `CH0` onwards. */
export function ringChannels(name: PatternPackage, pairs: readonly PackagePair[]): ChannelDescription[] {
  const kind = memoryKinds[name]
  const lanes = channelLanes(outlineNamed(name))
  const shared = kind.halves
  const unnamed = pairs.flatMap(({ front, back }) => {
    if (back === undefined) return plainChannels(front, lanes)
    if (shared !== undefined) return sharedChannels(front, back, shared, lanes.length)
    return [...plainChannels(front, lanes), ...plainChannels(back, lanes)]
  })
  return joinedChannels(unnamed, kind.packagesPerChannel).map((channel, i) => ({ id: `CH${i}`, ...channel }))
}

type Unnamed = Omit<ChannelDescription, 'id'>

const plainChannels = (part: string, channels: readonly (readonly string[])[]): Unnamed[] =>
  channels.map((lanes) => ({ part, lanes: lanes.map((name) => ({ name })) }))

/**
 * Two packages back to back, each with half its bytes in use. With two channels a package, the first channel has its byte 0
 * from the front's A and its byte 1 from the back's B, the second the other way round, so that the pair looks like one
 * package (JEDEC JESD250D, GDDR6, 2023, x8 mode; from memory). With one channel a package, both give their half to it.
 */
function sharedChannels(front: string, back: string, halves: readonly [string, string], channels: number): Unnamed[] {
  const [one, other] = halves
  if (channels === 1) {
    const lanes = [front, back].flatMap((part) => halves.map((name) => ({ name, part })))
    return [{ part: front, lanes }]
  }
  return [
    [front, back],
    [back, front],
  ].map(([first, second]) => ({
    part: front,
    lanes: [
      { name: one, part: first },
      { name: other, part: second },
    ],
  }))
}

/** So many neighbours to a channel, where their command lines are one net; the last channel may have fewer. */
function joinedChannels(channels: readonly Unnamed[], together: number): Unnamed[] {
  if (together === 1) return [...channels]
  const joined: Unnamed[] = []
  for (let i = 0; i < channels.length; i += together) {
    const members = channels.slice(i, i + together)
    const [first] = members
    if (first === undefined) continue
    const lanes = members.flatMap(({ part, lanes: own }) => own.map((lane) => ({ ...lane, part })))
    joined.push({ part: first.part, lanes })
  }
  return joined
}
