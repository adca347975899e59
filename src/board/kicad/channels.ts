/** Channels and byte lanes: each data ball of a memory with the core ball that its net joins, bit by bit. */
import { someOf } from '../../base/index.ts'
import { groupedBy } from '../group.ts'
import type { ChannelDescription, LaneDescription } from '../schema.ts'
import { type MemoryBit, type MemoryPart, type Reach, reachOf } from './memory.ts'
import type { Netlist } from './netlist.ts'
import { type ImportedPart } from './parts.ts'
import { alternativesOf } from './signals.ts'

/** A data bit that reaches the core, with the way that it takes. */
export interface JoinedBit {
  readonly memory: MemoryBit
  readonly core: Reach | undefined
}

export interface JoinedLane {
  readonly part: ImportedPart
  readonly name: string
  /** In the order of the lane's bits. */
  readonly bits: readonly JoinedBit[]
}

/** Lanes with at least one bit that reaches the core; a lane that reaches it nowhere is said and left out. */
export function joinLanes(
  memories: readonly MemoryPart[],
  core: ImportedPart,
  netlist: Netlist,
  untold: string[],
): JoinedLane[] {
  const unjoined: string[] = []
  const unordered: string[] = []
  const lanes = memories.flatMap(({ part, bits }) => {
    const byLane = groupedBy(bits, (bit) => bit.lane)
    return [...byLane].flatMap(([name, own]) => {
      const joined = own.map((memory) => ({ memory, core: coreEnd(memory, core, netlist) }))
      const id = `${part.part.ref}.${name}`
      if (joined.every((bit) => bit.core === undefined)) {
        unjoined.push(id)
        return []
      }
      const ordered = inCoreOrder(joined)
      if (ordered === undefined) unordered.push(id)
      return [{ part, name, bits: ordered ?? joined.toSorted((a, b) => a.memory.bit - b.memory.bit) }]
    })
  })
  sayJoins(lanes, core, unjoined, unordered, untold)
  return lanes
}

function sayJoins(
  lanes: readonly JoinedLane[],
  core: ImportedPart,
  unjoined: readonly string[],
  unordered: readonly string[],
  untold: string[],
): void {
  const ref = core.part.ref
  if (unjoined.length > 0)
    untold.push(`No net joins these lanes to the core ${ref}, so they are left out: ${someOf(unjoined, 12)}.`)
  if (unordered.length > 0)
    untold.push(
      `The pins of ${ref} don't tell data bit numbers, so bits are counted as the memory does in: ${someOf(unordered, 12)}.`,
    )
  const halfJoined = lanes.filter((lane) => lane.bits.some((bit) => bit.core === undefined))
  if (halfJoined.length > 0)
    untold.push(`Some bits of these lanes reach no ball of ${ref}: ${someOf(halfJoined.map(laneId), 12)}.`)
  const sharing = groupedBy(lanes, (lane) =>
    lane.bits
      .map((bit) => bit.core?.end.pad.number ?? '')
      .toSorted()
      .join(' '),
  )
  const shared = [...sharing.values()].filter((group) => group.length > 1)
  if (shared.length > 0)
    untold.push(
      `${new Set(shared.flat().map((lane) => lane.part.part.ref)).size} memory parts share data nets of ${ref}; which of them answers at an address can't be told.`,
    )
}

export const laneId = (lane: JoinedLane): string => `${lane.part.part.ref}.${lane.name}`

function coreEnd(memory: MemoryBit, core: ImportedPart, netlist: Netlist): Reach | undefined {
  return reachOf(memory, netlist).find(({ end }) => end.owner === core)
}

/** Number of the data bit that a core pin's function names last: `PS_DDR_DQ22` is 22. */
function coreBitOf(bit: JoinedBit): number | undefined {
  for (const name of alternativesOf(bit.core?.end.pad.signal ?? '')) {
    const found = /(?:^|[^A-Z])(?:DQ|D|MD)[_]?(\d{1,3})(?:[_A-Z]*)$/.exec(name)
    if (found) return Number(found[1])
  }
  return undefined
}

/** Bits in the core's order, where its pins number all of them within one byte; undefined where they don't. */
function inCoreOrder(bits: readonly JoinedBit[]): JoinedBit[] | undefined {
  const numbers = new Map(bits.map((bit) => [bit, coreBitOf(bit)]))
  const values = [...numbers.values()].flatMap((value) => (value === undefined ? [] : [value]))
  if (new Set(values).size !== bits.length) return undefined
  const bytes = new Set(values.map((value) => Math.floor(value / 8)))
  if (bytes.size !== 1) return undefined
  return bits.toSorted((a, b) => (numbers.get(a) ?? 0) - (numbers.get(b) ?? 0))
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
      ...corridorOf(lane),
    })),
  }))
}

/** In the order of the core's bytes where its pins number them, else by name. */
function sortedLanes(lanes: readonly JoinedLane[]): JoinedLane[] {
  const firstBit = (lane: JoinedLane): number | undefined => {
    const first = lane.bits[0]
    return first === undefined ? undefined : coreBitOf(first)
  }
  const told = lanes.every((lane) => firstBit(lane) !== undefined && inCoreOrder(lane.bits) !== undefined)
  return lanes.toSorted((a, b) =>
    told ? (firstBit(a) ?? 0) - (firstBit(b) ?? 0) : a.name < b.name ? -1 : a.name > b.name ? 1 : 0,
  )
}
