/** The words that a simulated test walks: a fair sample of each channel, with the rows of the array that they lie in. */
import type { Random } from '../../base/index.ts'
import { type AddressMap, type BoardModel, compileAddressMap } from '../../board/index.ts'

export interface Walk {
  readonly addresses: Float64Array
  /** Index into `BoardModel.channels`. */
  readonly channel: Int32Array
  /** Bank and row in one number; -1 where the map does not give them. */
  readonly row: Float64Array
}

const WORDS_PER_CHANNEL = 96
/** Words of a walk stand in runs, so that each row that is met is met several times. */
const RUN_WORDS_PER_CHANNEL = 8
const RUN_STEP_BYTES = 256
const ROW_STEP = 2 ** 20

const maps = new WeakMap<BoardModel, AddressMap>()

/** The board's address map, compiled once for each board. Throws where it has none or one that does not compile. */
export function mapOf(model: BoardModel): AddressMap {
  const known = maps.get(model)
  if (known !== undefined) return known
  if (model.addressMap === undefined) throw new Error(`${model.name} has no address map`)
  const map = compileAddressMap(model.addressMap)
  if (!map.ok) throw new Error(`the address map of ${model.name} is not usable`)
  maps.set(model, map.value)
  return map.value
}

/** Runs of neighbouring words at places spread over the whole memory, shifted by chance. */
export function drawWalk(model: BoardModel, random: Random): Walk {
  const map = mapOf(model)
  const channels = map.channelIds.length
  const runWords = RUN_WORDS_PER_CHANNEL * channels
  const runs = Math.round(WORDS_PER_CHANNEL / RUN_WORDS_PER_CHANNEL)
  const size = map.endAddress - map.firstAddress
  const addresses = new Float64Array(runs * runWords)
  for (let run = 0; run < runs; run++) {
    const from = Math.floor(((run + random.next() * 0.8) * size) / runs / 256) * 256
    for (let word = 0; word < runWords; word++)
      addresses[run * runWords + word] = map.firstAddress + from + word * RUN_STEP_BYTES
  }
  return placed(model, map, addresses)
}

function placed(model: BoardModel, map: AddressMap, addresses: Float64Array): Walk {
  const index = new Int32Array(addresses.length)
  const row = new Int32Array(addresses.length).fill(-1)
  const bank = new Int32Array(addresses.length).fill(-1)
  map.decodeChannels(addresses, index)
  map.decodeCells(addresses, {
    ...(map.cellCounts.row === undefined ? {} : { row }),
    ...(map.cellCounts.bank === undefined ? {} : { bank }),
  })
  const indexOf = new Map(model.channels.map(({ id }, i) => [id, i]))
  const channel = index.map((i) => indexOf.get(map.channelIds[i] ?? '') ?? -1)
  const rows = Float64Array.from(row, (value, i) => (value < 0 ? -1 : (bank[i] ?? 0) * ROW_STEP + value))
  return { addresses, channel, row: rows }
}

/** Rows that the walk meets in some channels, each with how many words. */
export function rowsMet(walk: Walk, channels: ReadonlySet<number>): Map<number, number> {
  const met = new Map<number, number>()
  for (let word = 0; word < walk.row.length; word++) {
    const row = walk.row[word] ?? -1
    if (row < 0 || !channels.has(walk.channel[word] ?? -1)) continue
    met.set(row, (met.get(row) ?? 0) + 1)
  }
  return met
}
