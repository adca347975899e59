/** How failing rows spread over a part's array: from the sampled addresses to rows, columns and single addresses. */
import type { AddressMap, BoardModel, PlacedPart } from '../../board/index.ts'
import type { CellCount, CellSpread } from '../tally.ts'
import type { WordCounter } from './addressed.ts'

const MOST_SHOWN = 16
const PROBES = 4096
/** A word is taken for 4 bytes when densities are worked out: the usual width of a test's word, no more than a scale. */
const WORD_BYTES = 4

interface CellArrays {
  readonly row: Int32Array
  readonly bank: Int32Array
  readonly column: Int32Array
}

/** Spreads of all parts that have failing rows with addresses, by part ref. */
export function cellSpreads(counter: WordCounter, map: AddressMap): Map<string, CellSpread> {
  const { model } = counter.counts
  const probes = probe(counter, map)
  const spreads = new Map<string, CellSpread>()
  for (const part of model.memories) {
    const channels = model.channels.flatMap((channel, i) => (channel.parts.includes(part.ref) ? [i] : []))
    const spread = spreadOf(part, channels, counter, map, probes)
    if (spread !== undefined) spreads.set(part.ref, spread)
  }
  return spreads
}

interface Probes {
  readonly channels: Int32Array
  readonly cells: CellArrays
  /** Index into the board's channels of each number of the map. */
  readonly boardChannel: readonly number[]
  readonly bytes: number
}

/** Addresses spread evenly over what the report covers, decoded, to see how many rows and columns it could have hit. */
function probe(counter: WordCounter, map: AddressMap): Probes {
  const first = map.firstAddress
  const bytes = Math.max(0, counter.highestAddress - first + WORD_BYTES)
  const addresses = new Float64Array(PROBES)
  for (let i = 0; i < PROBES; i++) {
    // Steps of the golden section, so that probes keep no rhythm with the interleave.
    addresses[i] = first + Math.floor(((i * 0.618_033_988_749_895) % 1) * bytes)
  }
  const channels = new Int32Array(PROBES)
  map.decodeChannels(addresses, channels)
  const ids = counter.counts.model.channels.map((channel) => channel.id)
  return { channels, cells: decode(map, addresses), boardChannel: map.channelIds.map((id) => ids.indexOf(id)), bytes }
}

function decode(map: AddressMap, addresses: Float64Array): CellArrays {
  const cells = {
    row: new Int32Array(addresses.length).fill(-1),
    bank: new Int32Array(addresses.length).fill(-1),
    column: new Int32Array(addresses.length).fill(-1),
  }
  map.decodeCells(addresses, cells)
  return cells
}

function spreadOf(
  part: PlacedPart,
  channels: readonly number[],
  counter: WordCounter,
  map: AddressMap,
  probes: Probes,
): CellSpread | undefined {
  const { model } = counter.counts
  const rows = new Map<string, number>()
  const columns = new Map<string, number>()
  const single = new Map<string, number>()
  let sampled = 0
  let failingRows = 0
  for (const channel of channels) {
    const addresses = counter.reservoirs.sample(channel)
    const weight = (counter.reservoirs.offered[channel] ?? 0) / Math.max(1, addresses.length)
    const cells = decode(map, addresses)
    const id = model.channels[channel]?.id ?? part.ref
    sampled += addresses.length
    failingRows += counter.reservoirs.offered[channel] ?? 0
    for (const [i, address] of addresses.entries()) {
      add(single, `address 0x${address.toString(16)}`, weight)
      const { row, column } = cellNames(id, cells, i)
      if (row !== undefined) add(rows, row, weight)
      if (column !== undefined) add(columns, column, weight)
    }
  }
  if (sampled === 0) return undefined
  const numbers = probes.boardChannel.filter((channel) => channels.includes(channel)).length
  const share = numbers / Math.max(1, probes.boardChannel.length)
  return {
    failingRows,
    sampled,
    addresses: single.size,
    coveredWords: Math.max(1, Math.round((probes.bytes * share) / WORD_BYTES)),
    mostRows: most(rows),
    mostColumns: most(columns),
    mostAddresses: most(single),
    ...coverage(channels, model, probes),
  }
}

function coverage(
  channels: readonly number[],
  model: BoardModel,
  probes: Probes,
): { coveredRows: number; coveredColumns: number } {
  const rows = new Set<string>()
  const columns = new Set<string>()
  for (let i = 0; i < PROBES; i++) {
    const channel = probes.boardChannel[probes.channels[i] ?? -1] ?? -1
    if (!channels.includes(channel)) continue
    const { row, column } = cellNames(model.channels[channel]?.id ?? '', probes.cells, i)
    if (row !== undefined) rows.add(row)
    if (column !== undefined) columns.add(column)
  }
  return { coveredRows: rows.size, coveredColumns: columns.size }
}

function cellNames(channel: string, cells: CellArrays, i: number): { row?: string; column?: string } {
  const row = cells.row[i] ?? -1
  const column = cells.column[i] ?? -1
  const bank = cells.bank[i] ?? -1
  const where = bank < 0 ? `channel ${channel}` : `channel ${channel} bank ${bank}`
  return {
    ...(row < 0 ? {} : { row: `${where} row 0x${row.toString(16)}` }),
    ...(column < 0 ? {} : { column: `${where} column 0x${column.toString(16)}` }),
  }
}

const add = (counts: Map<string, number>, name: string, weight: number): void => {
  counts.set(name, (counts.get(name) ?? 0) + weight)
}

/** The names with the most failures, most first. */
function most(counts: ReadonlyMap<string, number>): CellCount[] {
  return [...counts]
    .map(([name, errors]) => ({ name, errors }))
    .toSorted((a, b) => b.errors - a.errors || (a.name < b.name ? -1 : 1))
    .slice(0, MOST_SHOWN)
}
