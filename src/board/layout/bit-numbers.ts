/** The numbers of data bits: by the core's pins, else by the names of nets, else as the memory counts. */
import type { JoinedBit } from './channels.ts'
import { alternativesOf } from './signals.ts'

const BYTE = 8

/** Data bits in the order of the lane, and who numbers them: the core's pins, the names of the nets, or the memory. */
type NumberedBy = 'core' | 'nets' | 'memory'

/** Number of the data bit that a core pin's function names last: `PS_DDR_DQ22` is 22. */
function coreBitOf(bit: JoinedBit): number | undefined {
  for (const name of alternativesOf(bit.core?.end.pad.signal ?? '')) {
    const found = /(?:^|[^A-Z])(?:DQ|D|MD)[_]?(\d{1,3})(?:[_A-Z]*)$/.exec(name)
    if (found) return Number(found[1])
  }
  return undefined
}

/** Number that a data net bears last: `/DDR3_DQ22_R` and `/mem/SDQ[22]` are 22. The core's own net goes first. */
function netBitOf({ memory, core }: JoinedBit): number | undefined {
  for (const net of [core?.end.pad.net, memory.pin.pad.net]) {
    const name = (net ?? '').split('/').at(-1)?.toUpperCase() ?? ''
    const found = [
      ...name.matchAll(/(?:^|[^A-Z])(?:[A-Z]{0,4}DQ(?:[_.-]?[AB])?|[A-Z]?D|[A-Z]{0,3}DATA)[_.-]?\[?(\d{1,3})(?!\d)/g),
    ].at(-1)
    if (found) return Number(found[1])
  }
  return undefined
}

export interface NumberedBits {
  readonly bits: readonly JoinedBit[]
  readonly by: NumberedBy
  /** By core or nets, in the order of the bits; undefined where only the memory counts. */
  readonly numbers: readonly number[] | undefined
}

export type BusNumbers = ReadonlyMap<JoinedBit, number>

/**
 * Numbers of a whole bus of several bytes whose nets bear one name and a number each, whatever the name: `TVRAM0` to
 * `TVRAM31`; none where names differ or a number repeats.
 */
export function busNumbers(bits: readonly JoinedBit[]): BusNumbers {
  const numbers = new Map<JoinedBit, number>()
  const stems = new Set<string>()
  for (const bit of bits) {
    const found = /^(.*?[^0-9])(\d{1,3})(?:[\]_][^0-9]*)?$/.exec((bit.core?.end.pad.net ?? '').split('/').at(-1) ?? '')
    if (found === null) return new Map()
    stems.add(found[1] ?? '')
    numbers.set(bit, Number(found[2]))
  }
  const isBus = stems.size === 1 && numbers.size > BYTE && new Set(numbers.values()).size === numbers.size
  return isBus ? numbers : new Map()
}

/** The core's pins number the bits, else the names of the nets where they number a whole byte, else the memory. */
export function numbered(bits: readonly JoinedBit[], bus: BusNumbers): NumberedBits {
  const byCore = orderedBy(bits, coreBitOf)
  if (byCore) return { ...byCore, by: 'core' }
  const byNets = orderedBy(bits, netBitOf) ?? orderedBy(bits, (bit) => bus.get(bit))
  if (byNets) return { ...byNets, by: 'nets' }
  return { bits: bits.toSorted((a, b) => a.memory.bit - b.memory.bit), by: 'memory', numbers: undefined }
}

/** Bits by their numbers, where these are all told, differ and lie within one byte. */
function orderedBy(
  bits: readonly JoinedBit[],
  numberOf: (bit: JoinedBit) => number | undefined,
): Pick<NumberedBits, 'bits' | 'numbers'> | undefined {
  const numbers = new Map(bits.map((bit) => [bit, numberOf(bit)]))
  const values = [...numbers.values()].flatMap((value) => value ?? [])
  if (new Set(values).size !== bits.length) return undefined
  if (new Set(values.map((value) => Math.floor(value / BYTE))).size !== 1) return undefined
  const ordered = bits.toSorted((a, b) => (numbers.get(a) ?? 0) - (numbers.get(b) ?? 0))
  return { bits: ordered, numbers: values.toSorted((a, b) => a - b) }
}

/** The memory's own number of each bit, where these count the lane's bits from 0. */
export function swapsOf(bits: readonly JoinedBit[]): number[] | undefined {
  const own = bits.map(({ memory }) => memory.bit)
  const isWhole = own.length > 1 && own.toSorted((a, b) => a - b).every((bit, i) => bit === i)
  return isWhole ? own : undefined
}
