/** Do channel, row, bank and column together tell every address apart? By rank over GF(2), else by trying all. */
import { type Fault, nullSpace, reducedRows, say } from '../../base/index.ts'
import type { AddressMapDescription } from '../schema.ts'
import { bitLength, type Chain, chainOf, columnsIn, gatheredAt, rowOf } from './columns.ts'
import { bitsRead, MAX_ENUMERATED } from './enumerate.ts'
import { compileAddressMap } from './map.ts'
import { type AddressPlan, CELL_NUMBERS, type NumberPlan, planAddressMap } from './plan.ts'
import { hexOf } from './hex.ts'

export interface OneToOne {
  readonly oneToOne: boolean
  readonly proved: 'by rank' | 'by enumeration' | 'not proved'
  /** Addresses that differ only below this power of two are one cell: no digit reads those bits. */
  readonly cellBytes: number
  readonly faults: readonly Fault[]
}

/**
 * @returns whether no two addresses share channel, row, bank and column, but for the lowest bits that no digit reads;
 * undefined where the map does not give all four, or is faulty by itself
 */
export function proveOneToOne(description: AddressMapDescription, pathPrefix = '$.addressMap'): OneToOne | undefined {
  const planned = planAddressMap(description, pathPrefix)
  if (!planned.ok || CELL_NUMBERS.some((key) => description[key] === undefined)) return undefined
  const plan = planned.value
  const numbers = [plan.channel, ...plan.cells.values()]
  const read = bitsRead(plan, numbers)
  let unread = 0
  while (unread < plan.addressBits && !read.has(unread)) unread++
  const cellBytes = 2 ** unread
  const cells = Math.ceil((plan.end - plan.first) / cellBytes)
  const places = numbers.reduce((product, { radix }) => product * radix, 1)
  if (places < cells) {
    const found = say('{places} places for {cells} addresses of {cellBytes} bytes', { places, cells, cellBytes })
    return refuse('by rank', cellBytes, pathPrefix, found)
  }
  const shared = byRank(plan, numbers, unread)
  if (shared === 'told apart') return { oneToOne: true, proved: 'by rank', cellBytes, faults: [] }
  if (shared !== undefined) return refuse('by rank', cellBytes, pathPrefix, shared)
  return byTrying(plan, description, cellBytes, pathPrefix)
}

function refuse(proved: OneToOne['proved'], cellBytes: number, path: string, found: string): OneToOne {
  const fault: Fault = {
    path,
    found,
    expected: say('channel, row, bank and column that together belong to one address only'),
    todo: say('Look for an address bit that no digit reads, or that one digit repeats.'),
  }
  return { oneToOne: false, proved, cellBytes, faults: [fault] }
}

/**
 * Works out which columns of the last rest the numbers determine. A row whose gathered bits are all known tells as much
 * as its part over that rest; what it tells may make further gathered bits known.
 * @returns `told apart`, a sentence on what is not, or undefined where this does not decide
 */
function byRank(plan: AddressPlan, numbers: readonly NumberPlan[], unread: number): string | undefined {
  const chain = chainOf(plan, plan.rests.length)
  const last = chain.sources.at(-1)
  if (!chain.whole || last === undefined) return undefined
  const rows = numbers.flatMap(({ bits }) => bits.map((bit) => rowOf(bit, chain)))
  const wanted = last.bits.flatMap((column) => (column === undefined || column < unread ? [] : [column]))
  const known = knownColumns(rows, chain)
  if (wanted.every((column) => known.has(column))) return 'told apart'
  if (plan.rests.length > 0) return undefined
  const width = bitLength(last.size - 1)
  const twin = nullSpace(rows, width).find((vector) => vector >> BigInt(unread) !== 0n && vector < BigInt(last.size))
  if (twin === undefined) return undefined
  return say('addresses {first} and {hexOf} in one place', {
    first: hexOf(plan.first),
    hexOf: hexOf(plan.first + Number(twin)),
  })
}

function knownColumns(rows: readonly bigint[], chain: Chain): ReadonlySet<number> {
  const gatheredBy = gatheredAt(chain)
  const known = new Set<number>()
  /** A gathered bit follows from its residue, which is a digit, and the quotient. */
  const follows = (column: number): boolean => {
    const stage = gatheredBy.get(column)
    if (stage === undefined) return known.has(column)
    const kept = chain.residues[stage - 1]?.rest.kept.length ?? 0
    const quotient = chain.sources[stage]?.bits.slice(kept) ?? []
    return quotient.every((part) => part === undefined || follows(part))
  }
  for (let before = -1; before < known.size; ) {
    before = known.size
    const usable = rows.filter((row) => columnsIn(row).every((column) => !gatheredBy.has(column) || follows(column)))
    const overRest = usable.map((row) =>
      columnsIn(row).reduce((sum, column) => (gatheredBy.has(column) ? sum : sum | (1n << BigInt(column))), 0n),
    )
    for (const row of reducedRows(overRest)) {
      const columns = columnsIn(row)
      if (columns.length === 1 && columns[0] !== undefined) known.add(columns[0])
    }
  }
  return known
}

function byTrying(
  plan: AddressPlan,
  description: AddressMapDescription,
  cellBytes: number,
  pathPrefix: string,
): OneToOne {
  const compiled = compileAddressMap(description, pathPrefix)
  const count = Math.ceil((plan.end - plan.first) / cellBytes)
  if (!compiled.ok || count > MAX_ENUMERATED) {
    return { oneToOne: false, proved: 'not proved', cellBytes, faults: [] }
  }
  const addresses = Float64Array.from({ length: count }, (_, i) => plan.first + i * cellBytes)
  const channels = new Int32Array(count)
  const cells = { row: new Int32Array(count), bank: new Int32Array(count), column: new Int32Array(count) }
  compiled.value.decodeChannels(addresses, channels)
  compiled.value.decodeCells(addresses, cells)
  const seen = new Map<string, number>()
  for (let i = 0; i < count; i++) {
    const place = `${channels[i]}/${cells.row[i]}/${cells.bank[i]}/${cells.column[i]}`
    const twin = seen.get(place)
    if (twin !== undefined) {
      const found = say('addresses {one} and {other} in one place', {
        one: hexOf(addresses[twin] ?? 0),
        other: hexOf(addresses[i] ?? 0),
      })
      return refuse('by enumeration', cellBytes, pathPrefix, found)
    }
    seen.set(place, i)
  }
  return { oneToOne: true, proved: 'by enumeration', cellBytes, faults: [] }
}
