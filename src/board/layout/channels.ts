/** Channels and byte lanes: each data ball of a memory with the core ball that its net joins, bit by bit. */
import { someOf, say } from '../../base/index.ts'
import { groupedBy } from '../group.ts'
import type { ChannelDescription, LaneDescription } from '../schema.ts'
import { busNumbers, numbered, type NumberedBits, swapsOf } from './bit-numbers.ts'
import { type MemoryBit, type MemoryPart, type Reach, reachOf } from './memory.ts'
import type { Netlist } from './netlist.ts'
import { type ImportedPart } from './parts.ts'

/** A data bit that reaches the core, with the way that it takes. */
export interface JoinedBit {
  readonly memory: MemoryBit
  readonly core: Reach | undefined
}

export interface JoinedLane extends NumberedBits {
  readonly part: ImportedPart
  readonly name: string
}

const MOST_LANES_SHOWN = 16

/** Lanes with at least one bit that reaches the core; a lane that reaches it nowhere is said and left out. */
export function joinLanes(
  memories: readonly MemoryPart[],
  core: ImportedPart,
  netlist: Netlist,
  untold: string[],
): JoinedLane[] {
  const unjoined: string[] = []
  const lanes = memories.flatMap(({ part, bits }) => {
    const all = bits.map((memory): JoinedBit => ({ memory, core: coreEnd(memory, core, netlist) }))
    const bus = busNumbers(all)
    return [...groupedBy(all, ({ memory }) => memory.lane)].flatMap(([name, joined]) => {
      const id = `${part.part.ref}.${name}`
      if (joined.every((bit) => bit.core === undefined)) {
        unjoined.push(id)
        return []
      }
      return [{ part, name, ...numbered(joined, bus) }]
    })
  })
  sayJoins(lanes, core, unjoined, untold)
  sayNumbers(lanes, core, untold)
  return lanes
}

function sayJoins(
  lanes: readonly JoinedLane[],
  core: ImportedPart,
  unjoined: readonly string[],
  untold: string[],
): void {
  const ref = core.part.ref
  if (unjoined.length > 0)
    untold.push(
      say('No net joins these lanes to the core {ref}, so they are left out: {unjoined}.', {
        ref,
        unjoined: someOf(unjoined, 12),
      }),
    )
  const halfJoined = lanes.filter((lane) => lane.bits.some((bit) => bit.core === undefined))
  if (halfJoined.length > 0)
    untold.push(
      say('Some bits of these lanes reach no ball of {ref}: {halfJoined}.', {
        ref,
        halfJoined: someOf(halfJoined.map(laneId), 12),
      }),
    )
  const sharing = groupedBy(lanes, (lane) =>
    lane.bits
      .map((bit) => bit.core?.end.pad.number ?? '')
      .toSorted()
      .join(' '),
  )
  const shared = [...sharing.values()].filter((group) => group.length > 1)
  if (shared.length > 0)
    untold.push(
      say("{parts} memory parts share data nets of {ref}; which of them answers at an address can't be told.", {
        parts: new Set(shared.flat().map((lane) => lane.part.part.ref)).size,
        ref,
      }),
    )
}

function sayNumbers(lanes: readonly JoinedLane[], core: ImportedPart, untold: string[]): void {
  const { ref } = core.part
  const byMemory = lanes.filter(({ by }) => by === 'memory').map(laneId)
  if (byMemory.length > 0)
    untold.push(
      say(
        'Neither the pins of {ref} nor net names tell data bit numbers, so bits are counted as the memory does in: {byMemory}.',
        { ref, byMemory: someOf(byMemory, 12) },
      ),
    )
  const byNets = lanes.filter(({ by }) => by === 'nets')
  const crossed = byNets.filter((lane) => swapsIn(lane).swaps !== undefined).map(bothNumbers)
  if (byNets.length > 0)
    untold.push(
      say('Net names number the data bits of {lanes, plural, one {# lane} other {# lanes}}.', {
        lanes: byNets.length,
      }),
    )
  if (crossed.length > 0)
    untold.push(
      say("The memory's own DQ numbers beside those of the nets: {crossed}.", {
        crossed: someOf(crossed, MOST_LANES_SHOWN),
      }),
    )
}

/** `U2.L D8 9 10 11 12 13 14 15 on DQ 3 0 1 2 7 5 6 4` */
function bothNumbers(lane: JoinedLane): string {
  return say('{lane} D{numbers} on DQ {bits}', {
    lane: laneId(lane),
    numbers: (lane.numbers ?? []).join(' '),
    bits: lane.bits.map(({ memory }) => memory.bit).join(' '),
  })
}

/** The id that the lane gets on the board: its part's ref and its own name. */
export const laneId = (lane: JoinedLane): string => `${lane.part.part.ref}.${lane.name}`

function coreEnd(memory: MemoryBit, core: ImportedPart, netlist: Netlist): Reach | undefined {
  return reachOf(memory, netlist).find(({ end }) => end.owner === core)
}

/** One channel for each memory part, named after it. */
export function channelsOf(
  lanes: readonly JoinedLane[],
  corridorOf: (lane: JoinedLane) => Pick<LaneDescription, 'corridor' | 'corridorWidthMm'>,
): ChannelDescription[] {
  return [...groupedBy(lanes, (lane) => lane.part)].map(([part, own]) => ({
    id: part.part.ref,
    part: part.part.ref,
    lanes: sortedLanes(own).map((lane) => ({
      name: lane.name,
      bits: lane.bits.map(({ memory, core }) => ({
        memoryBall: memory.pin.pad.number,
        ...(core === undefined ? {} : { coreBall: core.end.pad.number }),
      })),
      ...swapsIn(lane),
      ...corridorOf(lane),
    })),
  }))
}

/** The memory's numbers beside the core's, where they differ. */
function swapsIn({ bits }: JoinedLane): Pick<LaneDescription, 'swaps'> {
  const swaps = swapsOf(bits)
  return swaps === undefined || swaps.every((dq, bit) => dq === bit) ? {} : { swaps }
}

/** In the order of the bytes as core or nets number them, else by name. */
function sortedLanes(lanes: readonly JoinedLane[]): JoinedLane[] {
  const firstOf = ({ numbers }: JoinedLane): number => numbers?.[0] ?? 0
  const told = lanes.every(({ numbers }) => numbers !== undefined)
  return lanes.toSorted((a, b) => (told ? firstOf(a) - firstOf(b) : a.name < b.name ? -1 : a.name > b.name ? 1 : 0))
}
