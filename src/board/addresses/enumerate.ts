/** Proof by counting, where the algebra does not decide: all addresses, less those that differ in unread bits only. */
import type { AddressMap } from './map.ts'
import { columnsIn } from './columns.ts'
import type { AddressPlan, NumberPlan } from './plan.ts'

export const MAX_ENUMERATED = 2 ** 22
const BATCH = 2 ** 14

/** Address bits that the numbers read, directly or through a mod digit. */
export function bitsRead(plan: AddressPlan, numbers: readonly NumberPlan[]): ReadonlySet<number> {
  const read = new Set<number>()
  const through = (source: number, bit: number): void => {
    const rest = plan.rests[source - 1]
    if (rest === undefined) read.add(bit)
    else if (bit < rest.kept.length) through(rest.parent, rest.kept[bit] ?? 0)
    else for (const gathered of rest.gathered) through(rest.parent, gathered)
  }
  for (const { bits, terms } of numbers) {
    for (const { source, mask } of bits) for (const bit of columnsIn(mask)) through(source, bit)
    for (const term of terms) if (term.kind === 'residue') through(term.source, Infinity)
  }
  return read
}

/**
 * Visits one address for each setting of the bits that are read, in batches.
 * @returns false, and visits none, where that would be more than MAX_ENUMERATED addresses
 */
export function visitAddresses(
  plan: AddressPlan,
  read: ReadonlySet<number>,
  visit: (addresses: Float64Array) => void,
): boolean {
  const size = plan.end - plan.first
  let unit = 1
  const weights: number[] = []
  for (let bit = 0; size % (unit * 2) === 0; bit++, unit *= 2) if (read.has(bit)) weights.push(unit)
  const lowSettings = 2 ** weights.length
  const count = (size / unit) * lowSettings
  if (count > MAX_ENUMERATED) return false
  for (let start = 0; start < count; start += BATCH) {
    const batch = new Float64Array(Math.min(BATCH, count - start))
    for (let i = 0; i < batch.length; i++) {
      const index = start + i
      const low = index % lowSettings
      let address = plan.first + ((index - low) / lowSettings) * unit
      for (let k = 0; k < weights.length; k++) if ((low >> k) & 1) address += weights[k] ?? 0
      batch[i] = address
    }
    visit(batch)
  }
  return true
}

/** How often each channel comes up, or undefined where there are too many addresses to count. */
export function countChannels(plan: AddressPlan, map: AddressMap): Float64Array | undefined {
  const counts = new Float64Array(map.channelIds.length)
  const channels = new Int32Array(BATCH)
  const counted = visitAddresses(plan, bitsRead(plan, [plan.channel]), (addresses) => {
    map.decodeChannels(addresses, channels)
    for (let i = 0; i < addresses.length; i++) {
      const channel = channels[i] ?? -1
      counts[channel] = (counts[channel] ?? 0) + 1
    }
  })
  return counted ? counts : undefined
}
