/** From the channels of a board description to lanes and channels: bits, balls and the names of their regions. */
import type { Channel, Lane } from './model.ts'
import type { PackageOutline, PackageRegion } from './package-outline.ts'
import type { BoardDescription, ChannelDescription, LaneDescription, Part } from './schema.ts'

/** Bits of a lane that neither the board nor a package tells: lanes are bytes. */
const BYTE_BITS = 8

/**
 * Ref of the memory part that serves a lane: its own where it names one, as with two packages on a channel, else the
 * channel's.
 */
export const lanePart = (channel: ChannelDescription, lane: LaneDescription): string => lane.part ?? channel.part
/** `U2.L`: the id of a lane, from its part's ref and its name. */
export const laneIdOf = (part: string, lane: LaneDescription): string => `${part}.${lane.name}`
/** Name of the memory's region that serves the lane: its own name unless the board gives another. */
export const regionNameOf = (lane: LaneDescription): string => lane.memoryRegion ?? lane.name

/** The core region that a lane uses where the board does not name one. */
const derivedCoreRegionName = (laneId: string): string => laneId

/** Whether a part has joints with the board itself; a stack on the core's substrate comes off with the core alone. */
export const standsOnBoard = ({ description }: { readonly description: Part }): boolean =>
  description.carriedBy === undefined

/** Those of the memories that stand on the substrate of this core and come off with it. */
export const stacksOn = <Memory extends { readonly description: Part }>(
  { memories }: { readonly memories: readonly Memory[] },
  core: string,
): Memory[] => memories.filter(({ description }) => description.carriedBy === core)

export interface LanesAndChannels {
  readonly lanes: readonly Lane[]
  readonly channels: readonly Channel[]
}

/** All lanes of the board in the order of its channels. A lane whose part is missing is left out. */
export function lanesOf(
  description: BoardDescription,
  partByRef: ReadonlyMap<string, Part>,
  outlines: ReadonlyMap<string, PackageOutline>,
): LanesAndChannels {
  const core = description.parts.find((part) => part.kind === 'core')
  const lanes: Lane[] = []
  const channels = description.memory.channels.map((channel): Channel => {
    let bitCount = 0
    const own: Lane[] = []
    for (const described of channel.lanes) {
      const part = partByRef.get(lanePart(channel, described))
      if (part === undefined) continue
      const patch = packageRegion(part, regionNameOf(described), outlines)
      const coreRef = part.carriedBy === undefined ? core?.ref : undefined
      const lane = laneOf(channel, described, part.ref, patch, bitCount, coreRef)
      bitCount += lane.bitCount
      own.push(lane)
    }
    lanes.push(...own)
    const parts = [...new Set([channel.part, ...own.map((lane) => lane.part)])].filter((ref) => partByRef.has(ref))
    return { id: channel.id, lanes: own.map((lane) => lane.id), parts, bitCount }
  })
  return { lanes, channels }
}

function packageRegion(
  part: Part,
  name: string,
  outlines: ReadonlyMap<string, PackageOutline>,
): PackageRegion | undefined {
  if (part.package === undefined) return undefined
  return outlines.get(part.package)?.regions.find((region) => region.name === name)
}

function laneOf(
  channel: ChannelDescription,
  described: LaneDescription,
  partRef: string,
  patch: PackageRegion | undefined,
  firstBit: number,
  coreRef: string | undefined,
): Lane {
  const id = laneIdOf(partRef, described)
  const bitCount =
    described.bits?.length ?? patch?.dq?.length ?? patch?.bitCount ?? described.swaps?.length ?? BYTE_BITS
  const bits = Array.from({ length: bitCount }, (_, bit) => bit)
  return {
    id,
    name: described.name,
    channel: channel.id,
    part: partRef,
    firstBit,
    bitCount,
    memoryRegion: `${partRef}/${regionNameOf(described)}`,
    coreRegion: coreRef === undefined ? undefined : `${coreRef}/${described.coreRegion ?? derivedCoreRegionName(id)}`,
    memoryBalls: bits.map((bit) => described.bits?.[bit]?.memoryBall ?? patch?.dq?.[described.swaps?.[bit] ?? bit]),
    coreBalls: bits.map((bit) => described.bits?.[bit]?.coreBall),
  }
}
