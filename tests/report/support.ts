/** Reports for tests: rows with known content, written in many ways, and a slow tally of their own to compare with. */
import type { Fault, Result } from '../../src/base/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import { type ReadOptions, type ReadReport, readReport, type Tally } from '../../src/report/index.ts'
import { slowDecode } from '../support/slow-address-map.ts'

export interface WordRow {
  readonly address: bigint
  readonly expected: bigint
  readonly actual: bigint
}

/** Bytes in pieces of the given size. */
export async function* pieces(bytes: Uint8Array, size = 1000): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size)
}

export const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text)

export function utf16(text: string, order: 'little' | 'big'): Uint8Array {
  const bytes = new Uint8Array(text.length * 2)
  const view = new DataView(bytes.buffer)
  for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), order === 'little')
  return bytes
}

export function read(
  content: string | Uint8Array,
  model: BoardModel,
  options: Omit<ReadOptions, 'model'> & { pieceBytes?: number } = {},
): Promise<Result<ReadReport>> {
  const bytes = typeof content === 'string' ? utf8(content) : content
  const { pieceBytes = 1000, ...rest } = options
  return readReport(pieces(bytes, pieceBytes), { model, ...rest })
}

export async function mustRead(...args: Parameters<typeof read>): Promise<ReadReport> {
  const result = await read(...args)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

export const hex = (value: bigint | number, digits = 8): string => value.toString(16).padStart(digits, '0')

/** Comma-separated with headings. */
export function csv(rows: readonly WordRow[], digits = 8): string {
  const lines = rows.map((row) => `0x${hex(row.address)},0x${hex(row.expected, digits)},0x${hex(row.actual, digits)}`)
  return `address,expected,actual\n${lines.join('\n')}\n`
}

/** The first `count` word addresses (multiples of 4 from `from` on) that lie in one of the channels. */
export function addressesIn(model: BoardModel, channels: readonly string[], count: number, from = 0n): bigint[] {
  const map = model.addressMap
  if (map === undefined) throw new Error('the board has no address map')
  const found: bigint[] = []
  for (let address = from; found.length < count; address += 4n) {
    if (channels.includes(slowDecode(map, address)?.channel ?? '')) found.push(address)
  }
  return found
}

export interface SlowCounts {
  readonly lanes: Map<string, number>
  /** By lane id and bit: `U13.A0/3`. */
  readonly high: Map<string, number>
  readonly low: Map<string, number>
  unmapped: number
}

const add = (map: Map<string, number>, key: string): void => void map.set(key, (map.get(key) ?? 0) + 1)

/**
 * What the rows come to, bit by bit with BigInt, from the words of design section 6 and the slow address map: bit b of
 * the word at byte address A is channel data bit (8·A + b) mod the channel's width.
 */
export function slowTally(model: BoardModel, rows: readonly WordRow[]): SlowCounts {
  const counts: SlowCounts = { lanes: new Map(), high: new Map(), low: new Map(), unmapped: 0 }
  for (const row of rows) {
    const id = model.addressMap === undefined ? undefined : slowDecode(model.addressMap, row.address)?.channel
    const channel = id === undefined ? undefined : model.channelById.get(id)
    if (channel === undefined) {
      counts.unmapped++
      continue
    }
    const hit = new Set<string>()
    for (let b = 0n; b < 64n; b++) {
      const read1 = (row.actual >> b) & 1n
      if (((row.expected >> b) & 1n) === read1) continue
      const bit = Number((row.address * 8n + b) % BigInt(channel.bitCount))
      for (const laneId of channel.lanes) {
        const lane = model.laneById.get(laneId)
        if (lane === undefined || bit < lane.firstBit || bit >= lane.firstBit + lane.bitCount) continue
        hit.add(laneId)
        add(read1 === 1n ? counts.high : counts.low, `${laneId}/${bit - lane.firstBit}`)
      }
    }
    for (const lane of hit) add(counts.lanes, lane)
  }
  return counts
}

/** The same numbers out of a tally. */
export function countsOf(tally: Tally): SlowCounts {
  const counts: SlowCounts = { lanes: new Map(), high: new Map(), low: new Map(), unmapped: tally.rows.unmapped }
  for (const lane of tally.parts.flatMap((part) => part.channels.flatMap((channel) => channel.lanes))) {
    if (lane.errors > 0) counts.lanes.set(lane.id, lane.errors)
    for (const [bit, count] of lane.high.entries()) if (count > 0) counts.high.set(`${lane.id}/${bit}`, count)
    for (const [bit, count] of lane.low.entries()) if (count > 0) counts.low.set(`${lane.id}/${bit}`, count)
  }
  return counts
}

/** The faults of a result that must have failed. */
export function faultsOf(result: Result<unknown>): readonly Fault[] {
  if (result.ok) throw new Error('it was read')
  return result.faults
}

/** All lines are accounted for. */
export function linesAddUp({ tally, lines }: ReadReport): boolean {
  const { read: good, unreadable, unmapped, skipped } = tally.rows
  return good + unreadable + unmapped + skipped === lines
}
