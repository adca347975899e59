/** How failing rows spread over a part's array: from the sampled addresses to rows, columns and single addresses. */
import { say } from '../../base/index.ts'
import type { AddressMap, PlacedPart } from '../../board/index.ts'
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
  /** Rows and columns that the report could have hit in each of the board's channels. */
  readonly covered: readonly { readonly rows: number; readonly columns: number }[]
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
  const numbers = new Int32Array(PROBES)
  map.decodeChannels(addresses, numbers)
  const ids = counter.counts.model.channels.map((channel) => channel.id)
  const boardChannel = map.channelIds.map((id) => ids.indexOf(id))
  const places: number[][] = ids.map(() => [])
  for (const [i, number] of numbers.entries()) places[boardChannel[number] ?? NOT_MAPPED]?.push(i)
  const { row, bank, column } = decode(map, addresses)
  const covered = places.map((own) => {
    const of = (all: Int32Array): Int32Array => Int32Array.from(own, (i) => all[i] ?? NOT_MAPPED)
    const banks = of(bank)
    return { rows: hitCells(hitsOf(of(row), banks, 1)), columns: hitCells(hitsOf(of(column), banks, 1)) }
  })
  return { covered, boardChannel, bytes }
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
  const mostRows: CellCount[] = []
  const mostColumns: CellCount[] = []
  const mostAddresses: CellCount[] = []
  let sampled = 0
  let failingRows = 0
  let distinct = 0
  for (const channel of channels) {
    const addresses = counter.reservoirs.sample(channel)
    const weight = (counter.reservoirs.offered[channel] ?? 0) / Math.max(1, addresses.length)
    const cells = decode(map, addresses)
    const id = model.channels[channel]?.id ?? part.ref
    sampled += addresses.length
    failingRows += counter.reservoirs.offered[channel] ?? 0
    const single = hitsOf(addresses, undefined, weight)
    distinct += hitCells(single)
    keepMost(mostAddresses, single, (_, address) => say('address 0x{address}', { address: address.toString(16) }))
    keepMost(mostRows, hitsOf(cells.row, cells.bank, weight), cellName(id, 'row'))
    keepMost(mostColumns, hitsOf(cells.column, cells.bank, weight), cellName(id, 'column'))
  }
  if (sampled === 0) return undefined
  const numbers = probes.boardChannel.filter((channel) => channels.includes(channel)).length
  const share = numbers / Math.max(1, probes.boardChannel.length)
  return {
    failingRows,
    sampled,
    addresses: distinct,
    coveredWords: Math.max(1, Math.round((probes.bytes * share) / WORD_BYTES)),
    mostRows,
    mostColumns,
    mostAddresses,
    coveredRows: sumOver(channels, (channel) => probes.covered[channel]?.rows),
    coveredColumns: sumOver(channels, (channel) => probes.covered[channel]?.columns),
  }
}

const sumOver = (channels: readonly number[], of: (channel: number) => number | undefined): number =>
  channels.reduce((sum, channel) => sum + (of(channel) ?? 0), 0)

const NOT_MAPPED = -1

/** Failures of one channel's cells by bank (-1 where there is none) and number. */
type Hits = ReadonlyMap<number, ReadonlyMap<number, number>>

function hitsOf(numbers: Float64Array | Int32Array, banks: Int32Array | undefined, weight: number): Hits {
  const hits = new Map<number, Map<number, number>>()
  for (let i = 0; i < numbers.length; i++) {
    const number = numbers[i] ?? NOT_MAPPED
    if (number < 0) continue
    const bank = banks?.[i] ?? NOT_MAPPED
    let ofBank = hits.get(bank)
    if (ofBank === undefined) {
      ofBank = new Map()
      hits.set(bank, ofBank)
    }
    ofBank.set(number, (ofBank.get(number) ?? 0) + weight)
  }
  return hits
}

const hitCells = (hits: Hits): number => [...hits.values()].reduce((sum, ofBank) => sum + ofBank.size, 0)

const cellName =
  (channel: string, kind: 'row' | 'column') =>
  (bank: number, number: number): string =>
    bank < 0
      ? say('channel {channel} {kind, select, row {row} other {column}} 0x{number}', {
          channel,
          kind,
          number: number.toString(16),
        })
      : say('channel {channel} bank {bank} {kind, select, row {row} other {column}} 0x{number}', {
          channel,
          bank,
          kind,
          number: number.toString(16),
        })

/** Puts cells among those with the most failures, most first, then by name; only what may be kept gets a name. */
function keepMost(most: CellCount[], hits: Hits, nameOf: (bank: number, number: number) => string): void {
  for (const [bank, ofBank] of hits) {
    for (const [number, errors] of ofBank) {
      const last = most.length < MOST_SHOWN ? undefined : most[MOST_SHOWN - 1]
      if (last !== undefined && errors < last.errors) continue
      const cell = { name: nameOf(bank, number), errors }
      if (last !== undefined && !isBefore(cell, last)) continue
      const at = most.findIndex((other) => isBefore(cell, other))
      most.splice(at < 0 ? most.length : at, 0, cell)
      if (most.length > MOST_SHOWN) most.pop()
    }
  }
}

const isBefore = (a: CellCount, b: CellCount): boolean =>
  a.errors > b.errors || (a.errors === b.errors && a.name < b.name)
