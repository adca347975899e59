/** The address map at work: from physical addresses to channels, rows, banks and columns. */
import { good, type Result } from '../../base/index.ts'
import type { AddressMapDescription } from '../schema.ts'
import { type BulkKernel, bulkKernel } from './bulk-kernels.ts'
import { CELL_NUMBERS, type CellNumber, planAddressMap } from './plan.ts'
import { numberReader, spreadOf } from './sources.ts'

export interface DecodedAddress {
  /** Index into `channelIds`. */
  readonly channelIndex: number
  readonly channel: string
  readonly row?: number
  readonly bank?: number
  readonly column?: number
}

/** Arrays to be filled, each at least as long as the addresses; those left out are not computed. */
export interface CellArrays {
  readonly row?: Int32Array
  readonly bank?: Int32Array
  readonly column?: Int32Array
}

export interface AddressMap {
  readonly channelIds: readonly string[]
  /** First mapped address and first beyond. */
  readonly firstAddress: number
  readonly endAddress: number
  /** How many values row, bank and column take; undefined where the map does not give them. */
  readonly cellCounts: { readonly row?: number; readonly bank?: number; readonly column?: number }
  /** Undefined below `subtract`, at or beyond `limit`, and for anything but a whole number. */
  readonly decode: (address: number | bigint) => DecodedAddress | undefined
  /** Fills `out[i]` with the channel index of `addresses[i]`, or -1 where unmapped. Addresses are whole numbers. */
  readonly decodeChannels: (addresses: Float64Array, out: Int32Array) => void
  /** Fills the arrays given with row, bank and column of each address, or -1 where unmapped or not in the map. */
  readonly decodeCells: (addresses: Float64Array, cells: CellArrays) => void
}

/**
 * Makes a decoder from a description.
 *
 * A = address - subtract; an `xor` digit is the parity of (source AND mask), a `field` digit the source bits low to
 * high, a `mod` digit n mod m of the gathered source bits, ascending, lowest first. After a mod digit, `rest` is
 * (n div m) above the source bits that it did not gather; before any, it is A. The digits of a number are read as one
 * mixed-radix number, first most significant. Rows, banks and columns each start from the rest of the channel digits.
 * @returns the map, or every fault of the description (see `planAddressMap`)
 */
export function compileAddressMap(description: AddressMapDescription, pathPrefix = '$.addressMap'): Result<AddressMap> {
  const planned = planAddressMap(description, pathPrefix)
  if (!planned.ok) return planned
  const plan = planned.value
  const channelIds = description.channel.order
  const spread = spreadOf(plan)
  const readChannel = numberReader(plan.channel, spread)
  const readers = new Map<CellNumber, () => number>()
  for (const [key, number] of plan.cells) readers.set(key, numberReader(number, spread))
  const size = plan.end - plan.first

  const decode = (address: number | bigint): DecodedAddress | undefined => {
    const offset = Number(address) - plan.first
    if (!(offset >= 0 && offset < size && Number.isInteger(offset))) return undefined
    spread.set(offset)
    const channelIndex = readChannel()
    const channel = channelIds[channelIndex]
    if (channel === undefined) return undefined
    const cells: { row?: number; bank?: number; column?: number } = {}
    for (const [key, read] of readers) cells[key] = read()
    return { channelIndex, channel, ...cells }
  }

  const kernels = new Map<CellNumber, BulkKernel>()
  for (const [key, number] of plan.cells) kernels.set(key, bulkKernel(plan, number))
  const decodeCells = (addresses: Float64Array, cells: CellArrays): void => {
    for (const key of CELL_NUMBERS) {
      const out = cells[key]
      const kernel = kernels.get(key)
      if (out === undefined) continue
      if (kernel === undefined) out.fill(-1, 0, addresses.length)
      else kernel(addresses, out)
    }
  }

  const cellCounts: { row?: number; bank?: number; column?: number } = {}
  for (const [key, { radix }] of plan.cells) cellCounts[key] = radix
  return good({
    channelIds,
    firstAddress: plan.first,
    endAddress: plan.end,
    cellCounts,
    decode,
    decodeChannels: bulkKernel(plan, plan.channel),
    decodeCells,
  })
}
