/**
 * Faults planted behind the address map, and the signature each must give. Which signals serve which bits, and so which
 * fault shows how, is derived from JEDEC graphics memory (JESD212 for one channel a package, JESD250 for two): DQ per
 * bit; DBI, EDC, and so a byte; command and address per channel; clock, reset and supply per package; a row per bank.
 * The rows are walked by hand here; no source gives thresholds, those are our stated assumptions.
 */
import { describe, expect, test } from 'vitest'
import { type PartTally, type SignatureKind, THRESHOLDS } from '../../src/report/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import { seededRandom } from '../../src/base/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { slowDecode } from '../support/slow-address-map.ts'
import { addressesIn, csv, mustRead, type WordRow } from './support.ts'

const twoChannels = shippedBoard('hitch-12')
const oneChannel = shippedBoard('splice-6')

type Read = (expected: bigint, address: bigint) => bigint

/** What a test of these addresses reports: writes a pattern and its complement, and lists what reads back otherwise. */
function walk(addresses: readonly bigint[], readBack: Read): WordRow[] {
  return addresses.flatMap((address) =>
    [0n, 0xffffffffn, 0x55555555n, 0xaaaaaaaan]
      .map((expected) => ({ address, expected, actual: readBack(expected, address) }))
      .filter((row) => row.expected !== row.actual),
  )
}

async function partOf(model: BoardModel, rows: readonly WordRow[], ref: string): Promise<PartTally> {
  const { tally } = await mustRead(csv(rows), model)
  const part = tally.parts.find((candidate) => candidate.ref === ref)
  if (part === undefined) throw new Error(`no ${ref}`)
  return part
}

/** Word addresses of the channels, anywhere in the memory. */
function spread(model: BoardModel, channels: readonly string[], count = 600, seed = 9): bigint[] {
  const map = model.addressMap
  if (map?.limit === undefined) throw new Error('the board has no address map with a limit')
  const random = seededRandom(seed)
  const words = Number(map.limit) / 4
  const found: bigint[] = []
  while (found.length < count) {
    const address = BigInt(random.whole(words)) * 4n
    if (channels.includes(slowDecode(map, address)?.channel ?? '')) found.push(address)
  }
  return found
}

/** In a 32-bit word of a 16-bit channel each data bit comes twice, in two beats. */
const bothBeats = (mask: bigint): bigint => mask | (mask << 16n)

describe('a package of two channels', () => {
  const [A, both] = [['CH4'], ['CH4', 'CH5']]
  const cases: [string, readonly string[], Read, SignatureKind, string, 'high' | 'low' | 'both'][] = [
    ['one DQ open, floating to the termination level', A, (w) => w | bothBeats(0x8n), 'line', 'U13.A0 bit 3', 'high'],
    ['one DQ shorted to ground', A, (w) => w & ~bothBeats(0x800n), 'line', 'U13.A1 bit 3', 'low'],
    ['two DQ bridged, low wins', A, bridge, 'line', 'U13.A0 bit 0 and U13.A0 bit 1', 'low'],
    ['one byte inverted now and then', A, (w) => w ^ bothBeats(0xffn), 'byte', 'U13.A0', 'both'],
    ['one byte open', A, (w) => w | bothBeats(0xff00n), 'byte', 'U13.A1', 'high'],
    ['command bus of a channel', A, (w, a) => w ^ noise(a), 'channel', 'CH4', 'both'],
    ['clock, reset or supply of the package', both, (w, a) => w ^ noise(a), 'package', 'U13', 'both'],
  ]
  test.each(cases)('%s', async (_, channels, readBack, kind, where, stuck) => {
    const part = await partOf(twoChannels, walk(spread(twoChannels, channels), readBack), 'U13')
    expect(part.signature).toMatchObject({ kind, where, stuck })
    expect(part.signature.numbers.length).toBeGreaterThan(0)
    expect(part.signature.sentence).toContain('U13')
  })
  test('the same byte of both channels is still a byte: its siblings are clean', async () => {
    const rows = walk(spread(twoChannels, both), (w) => w | bothBeats(0xffn))
    expect((await partOf(twoChannels, rows, 'U13')).signature).toMatchObject({ kind: 'byte', where: 'U13.A0, U13.B0' })
  })
  test('parts without errors are clean, and all lanes in reach have passed', async () => {
    const part = await partOf(
      twoChannels,
      walk(spread(twoChannels, A), (w) => w | 1n),
      'U11',
    )
    expect(part.signature.kind).toBe('clean')
    expect(part.channels.every((channel) => channel.lanes.every((lane) => lane.state === 'pass'))).toBe(true)
  })
})

describe('a package of one channel', () => {
  test('all bytes: package, since the channel is the package', async () => {
    const rows = walk(spread(oneChannel, ['CH2']), (w, a) => w ^ noise(a))
    const part = await partOf(oneChannel, rows, 'U13')
    expect(part.signature.kind).toBe('package')
  })
  test('one of four bytes', async () => {
    const part = await partOf(
      oneChannel,
      walk(spread(oneChannel, ['CH2']), (w) => w & ~0xff0000n),
      'U13',
    )
    expect(part.signature).toMatchObject({ kind: 'byte', where: 'U13.B2', stuck: 'low' })
  })
})

describe('cells', () => {
  test('one bad row, anywhere in the memory', async () => {
    const rows = walk(alike('row', 300, 0x1_2345_0000n), (w, a) => w ^ noise(a))
    const part = await partOf(twoChannels, rows, 'U13')
    expect(part.signature.kind).toBe('cells')
    expect(part.signature.where).toMatch(/channel CH4 bank \d+ row 0x/)
  })
  test('a few cells, hit again and again', async () => {
    const cells = spread(twoChannels, ['CH4'], 1)
    const rows = Array.from({ length: 10 }, () => walk(cells, (w) => w | 0x10n)).flat()
    expect((await partOf(twoChannels, rows, 'U13')).signature.kind).toBe('cells')
  })
  test('not where the report ends within the first rows: a channel that fails from the first address on', async () => {
    const rows = walk(addressesIn(twoChannels, ['CH4'], 300), (w, a) => w ^ noise(a))
    expect((await partOf(twoChannels, rows, 'U13')).signature.kind).toBe('channel')
  })
})

test('a thin sample of the memory does not make a dead package sparse', async () => {
  const rows = walk(spread(twoChannels, ['CH4', 'CH5'], 60), (w, a) => w ^ noise(a))
  expect((await partOf(twoChannels, rows, 'U13')).signature.kind).toBe('package')
})

describe('sparse', () => {
  const random = seededRandom(5)
  const scattered = (count: number): WordRow[] =>
    spread(twoChannels, ['CH4', 'CH5'], count).map((address) => ({
      address,
      expected: 0n,
      actual: 1n << BigInt(random.whole(32)),
    }))
  test('a hundred single bits all over the package', async () => {
    expect((await partOf(twoChannels, scattered(100), 'U13')).signature.kind).toBe('sparse')
  })
  test(`fewer than ${THRESHOLDS.few} rows, whatever they are`, async () => {
    const rows = scattered(THRESHOLDS.few - 1)
    expect((await partOf(twoChannels, rows, 'U13')).signature.kind).toBe('sparse')
  })
})

test('two parts are told apart', async () => {
  const rows = [
    ...walk(spread(twoChannels, ['CH4']), (w) => w | bothBeats(0xffn)),
    ...walk(spread(twoChannels, ['CH8', 'CH9']), (w, a) => w ^ noise(a)),
  ]
  const { tally } = await mustRead(csv(rows), twoChannels)
  const kinds = tally.parts.filter((part) => part.errors > 0).map((part) => [part.ref, part.signature.kind])
  expect(kinds).toEqual([
    ['U13', 'byte'],
    ['U15', 'package'],
  ])
})

function bridge(word: bigint): bigint {
  const both = word & (word >> 1n) & bothBeats(1n)
  return (word & ~bothBeats(3n)) | both | (both << 1n)
}

/** Some of all bits, by the address. */
function noise(address: bigint): bigint {
  const mixed = (address * 0x9e3779b97f4a7c15n) & ((1n << 64n) - 1n)
  return (mixed >> 32n) | 0x01010101n
}

/** Addresses of one channel that share bank and row (or column) with the first of them. */
function alike(key: 'row' | 'column', count: number, from: bigint): bigint[] {
  const map = twoChannels.addressMap
  if (map === undefined) throw new Error('no map')
  const first = addressesIn(twoChannels, ['CH4'], 1, from)[0] ?? 0n
  const wanted = slowDecode(map, first)
  const step = key === 'row' ? 4n : 0x300n
  const found: bigint[] = []
  for (let address = first; found.length < count && address < first + 0x300_0000n; address += step) {
    const here = slowDecode(map, address)
    if (here?.channel === 'CH4' && here.bank === wanted?.bank && here[key] === wanted?.[key]) found.push(address)
  }
  return found
}
