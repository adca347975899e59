/** Bits of rows with addresses, counted many at a time, come to what they come to one by one. */
import { fc, test } from '@fast-check/vitest'
import { describe, expect } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import { SHIPPED, shippedBoard } from '../support/read-board.ts'
import { countsOf, csv, mustRead, slowTally, type WordRow } from './support.ts'

/** The same board with channels so many times as wide. */
function widened(model: BoardModel, times: number): BoardModel {
  const channels = model.channels.map((channel) => ({ ...channel, bitCount: channel.bitCount * times }))
  const lanes = model.lanes.map((lane) => ({
    ...lane,
    firstBit: lane.firstBit * times,
    bitCount: lane.bitCount * times,
  }))
  return {
    ...model,
    channels,
    lanes,
    channelById: new Map(channels.map((channel) => [channel.id, channel])),
    laneById: new Map(lanes.map((lane) => [lane.id, lane])),
  }
}

/** The same board with each lane as two of half its bits. */
function halved(model: BoardModel): BoardModel {
  const halves = ['low', 'high'] as const
  const lanes = model.lanes.flatMap((lane) =>
    halves.map((half, i) => {
      const bitCount = lane.bitCount / 2
      return { ...lane, id: `${lane.id} ${half}`, firstBit: lane.firstBit + i * bitCount, bitCount }
    }),
  )
  const channels = model.channels.map((channel) => ({
    ...channel,
    lanes: channel.lanes.flatMap((id) => halves.map((half) => `${id} ${half}`)),
  }))
  return {
    ...model,
    channels,
    lanes,
    channelById: new Map(channels.map((channel) => [channel.id, channel])),
    laneById: new Map(lanes.map((lane) => [lane.id, lane])),
  }
}

const boards: [string, BoardModel][] = [
  ...SHIPPED.map((name): [string, BoardModel] => [name, shippedBoard(name)]),
  ['channels of 64 bits', widened(shippedBoard('splice-6'), 2)],
  ['channels of 128 bits', widened(shippedBoard('splice-6'), 4)],
  ['channels of eight lanes', halved(shippedBoard('cleat-10'))],
  ['channels of 12 bits', widened(shippedBoard('hitch-12'), 0.75)],
]

/** Words over a stretch of memory that all channels share, a few of them bad in many bits. */
function rowsOf(seed: number, count: number, step: bigint): WordRow[] {
  const random = seededRandom(seed)
  const word = (): bigint => (BigInt(random.whole(2 ** 32)) << 32n) | BigInt(random.whole(2 ** 32))
  return Array.from({ length: count }, () => {
    const expected = word()
    const few = (1n << BigInt(random.whole(64))) | (random.next() < 0.3 ? 1n << BigInt(random.whole(64)) : 0n)
    const difference = random.next() < 0.5 ? word() : few
    return { address: BigInt(random.whole(2 ** 18)) * step, expected, actual: expected ^ difference }
  })
}

describe.each(boards)('%s', (_, model) => {
  test.prop([fc.integer({ min: 0, max: 2 ** 31 }), fc.constantFrom(1n, 2n, 4n, 8n, 16n)], { seed: 9, numRuns: 3 })(
    'words at any byte, hundreds for each channel, a full batch of them and some more',
    async (seed, step) => {
      const rows = rowsOf(seed, 4400, step)
      const told = slowTally(model, rows)
      for (const mayCompile of [false, true]) {
        const { tally } = await mustRead(csv(rows, 16), model, { mayCompile, pieceBytes: 1 << 20 })
        expect(countsOf(tally)).toEqual(told)
      }
    },
  )
})

test('a row that counts for more than one is that many rows', async () => {
  const model = shippedBoard('cleat-10')
  const rows = rowsOf(3, 60, 4n)
  const times = rows.map((_, i) => 1 + (i % 5))
  const lines = rows.map(
    ({ address, expected, actual }, i) =>
      `0x${address.toString(16)},0x${expected.toString(16)},0x${actual.toString(16)},${times[i]}`,
  )
  const { tally } = await mustRead(`address,expected,actual,count\n${lines.join('\n')}\n`, model)
  const written = rows.flatMap((row, i) => Array.from({ length: times[i] ?? 0 }, () => row))
  expect(countsOf(tally)).toEqual(slowTally(model, written))
})
