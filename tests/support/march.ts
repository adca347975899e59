/**
 * A memory with planted faults behind a board's address map, and a walk of March C- over part of it. March C- (van de
 * Goor, "Testing Semiconductor Memories", 1991; after Marinescu 1982) is
 * {⇕(w0); ⇑(r0,w1); ⇑(r1,w0); ⇓(r0,w1); ⇓(r1,w0); ⇕(r0)}; the background here is the word of all zeros or all ones.
 */
import type { Random } from '../../src/base/index.ts'
import { type AddressMap, type BoardModel, compileAddressMap, type Lane } from '../../src/board/index.ts'

/** How the faulty bits read: always 1, always 0, or either by chance. */
export type Reading = 'high' | 'low' | 'random'

export type PlantedFault =
  | { readonly kind: 'lane'; readonly lane: string; readonly reads: Reading }
  | { readonly kind: 'channel'; readonly channel: string; readonly reads: Reading }
  | { readonly kind: 'line'; readonly lane: string; readonly bit: number; readonly reads: 'high' | 'low' }
  /** Rows of one bank of one die in which each cell has lost its charge with this chance, and reads 0. */
  | {
      readonly kind: 'rows'
      readonly channel: string
      readonly bank: number
      readonly rows: readonly number[]
      readonly cellShare: number
    }
  /** Now and then one bit of a read is wrong, anywhere in these parts. */
  | { readonly kind: 'sparse'; readonly parts: readonly string[]; readonly perRead: number }

/** The words that are walked: at `from`, `from + stride`, … below `end`; all in bytes, multiples of 4. */
export interface WalkedRange {
  readonly from: number
  readonly end: number
  readonly stride: number
}

export interface MarchError {
  /** Place of the element in March C-, from 1. */
  readonly element: number
  readonly address: number
  readonly expected: number
  readonly actual: number
}

const ONES = 0xffffffff
type Operation = 'r0' | 'r1' | 'w0' | 'w1'

const MARCH_C_MINUS: readonly { readonly order: 'up' | 'down'; readonly operations: readonly Operation[] }[] = [
  { order: 'up', operations: ['w0'] },
  { order: 'up', operations: ['r0', 'w1'] },
  { order: 'up', operations: ['r1', 'w0'] },
  { order: 'down', operations: ['r0', 'w1'] },
  { order: 'down', operations: ['r1', 'w0'] },
  { order: 'up', operations: ['r0'] },
]

/** Walks March C- and lists each read that came back wrong, in the order of the walk. */
export function marchErrors(
  model: BoardModel,
  faults: readonly PlantedFault[],
  range: WalkedRange,
  random: Random,
): MarchError[] {
  const addresses: number[] = []
  for (let address = range.from; address < range.end; address += range.stride) addresses.push(address)
  const stored = new Uint32Array(addresses.length)
  const read = faultyRead(model, faults, random)
  const errors: MarchError[] = []
  for (const [index, { order, operations }] of MARCH_C_MINUS.entries()) {
    for (let step = 0; step < addresses.length; step++) {
      const word = order === 'up' ? step : addresses.length - 1 - step
      const address = addresses[word] ?? 0
      for (const operation of operations) {
        const value = operation.endsWith('1') ? ONES : 0
        if (operation.startsWith('w')) {
          stored[word] = value
          continue
        }
        const actual = read(address, stored[word] ?? 0)
        if (actual !== value) errors.push({ element: index + 1, address, expected: value, actual })
      }
    }
  }
  return errors
}

interface Place {
  readonly channel: string
  readonly bank: number
  readonly row: number
}

/** What is wrong with one word: given what is stored, what comes back. */
type Corrupt = (stored: number) => number

/** A read through all faults. What is wrong with a word's cells is settled when it is first read. */
function faultyRead(
  model: BoardModel,
  faults: readonly PlantedFault[],
  random: Random,
): (address: number, stored: number) => number {
  const map = mapOf(model)
  const corruptions = new Map<number, readonly Corrupt[]>()
  return (address, stored) => {
    let corrupt = corruptions.get(address)
    if (corrupt === undefined) {
      const decoded = map.decode(address)
      if (decoded === undefined) throw new Error(`address 0x${address.toString(16)} is not mapped`)
      const place = { channel: decoded.channel, bank: decoded.bank ?? -1, row: decoded.row ?? -1 }
      corrupt = faults.flatMap((fault) => corruptionOf(model, fault, address, place, random))
      corruptions.set(address, corrupt)
    }
    return corrupt.reduce((word, change) => change(word), stored)
  }
}

export function mapOf(model: BoardModel): AddressMap {
  if (model.addressMap === undefined) throw new Error(`${model.name} has no address map`)
  const map = compileAddressMap(model.addressMap)
  if (!map.ok) throw new Error(JSON.stringify(map.faults))
  return map.value
}

function corruptionOf(
  model: BoardModel,
  fault: PlantedFault,
  address: number,
  place: Place,
  random: Random,
): Corrupt[] {
  const channel = model.channelById.get(place.channel)
  if (channel === undefined) return []
  switch (fault.kind) {
    case 'lane':
    case 'line': {
      const lane = laneOf(model, fault.lane)
      if (lane.channel !== place.channel) return []
      const first = fault.kind === 'line' ? lane.firstBit + fault.bit : lane.firstBit
      const count = fault.kind === 'line' ? 1 : lane.bitCount
      return [stuck(bitsOfWord(address, channel.bitCount, first, count), fault.reads, random)]
    }
    case 'channel':
      return fault.channel === place.channel ? [stuck(ONES, fault.reads, random)] : []
    case 'rows': {
      if (fault.channel !== place.channel || fault.bank !== place.bank || !fault.rows.includes(place.row)) return []
      let lost = 0
      for (let bit = 0; bit < 32; bit++) if (random.next() < fault.cellShare) lost |= 1 << bit
      return [stuck(lost, 'low', random)]
    }
    default:
      if (!channel.parts.some((part) => fault.parts.includes(part))) return []
      return [(word) => (random.next() < fault.perRead ? (word ^ (1 << random.whole(32))) >>> 0 : word)]
  }
}

function laneOf(model: BoardModel, id: string): Lane {
  const lane = model.laneById.get(id)
  if (lane === undefined) throw new Error(`${model.name} has no lane ${id}`)
  return lane
}

/** Bit b of the 32-bit word at byte address A is data bit (8·A + b) mod bitCount of its channel. */
export function bitsOfWord(address: number, channelBits: number, first: number, count: number): number {
  let mask = 0
  for (let b = 0; b < 32; b++) {
    const dataBit = ((address % channelBits) * 8 + b) % channelBits
    if (dataBit >= first && dataBit < first + count) mask |= 1 << b
  }
  return mask >>> 0
}

function stuck(mask: number, reads: Reading, random: Random): Corrupt {
  if (reads === 'high') return (word) => (word | mask) >>> 0
  if (reads === 'low') return (word) => (word & ~mask) >>> 0
  return (word) => ((word & ~mask) | (random.whole(2 ** 32) & mask)) >>> 0
}
