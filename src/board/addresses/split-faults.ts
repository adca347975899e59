/** What to say of channel digits that do not split the memory evenly: which digit, why, and what would mend it. */
import { type Fault, joined, say } from '../../base/index.ts'
import type { AddressMapDescription } from '../schema.ts'
import type { Chain } from './columns.ts'
import type { AddressPlan } from './plan.ts'
import { hexOf } from './hex.ts'

/** A mod digit whose gathered bits take a number of values that its modulus does not divide. */
export function coverageFault(
  plan: AddressPlan,
  chain: Chain,
  description: AddressMapDescription,
  pathPrefix: string,
): Fault | undefined {
  const uneven = chain.residues.find(({ values, rest }) => values % rest.modulus !== 0)
  if (uneven === undefined) return undefined
  const { rest, values, evenBlock } = uneven
  if (rest.parent === 0 && evenBlock > 0) {
    return {
      path: `${pathPrefix}.limit`,
      found: description.limit ?? say('nothing, so {end}', { end: hexOf(plan.end) }),
      expected:
        plan.first === 0
          ? say('{evenBlock} times a whole number', { evenBlock: hexOf(evenBlock) })
          : say('{evenBlock} times a whole number, after {first}', {
              evenBlock: hexOf(evenBlock),
              first: hexOf(plan.first),
            }),
      todo: say('Digit {digit} (mod {modulus}) shares equally only in blocks of {evenBlock}; the last is cut.', {
        digit: rest.digit,
        modulus: rest.modulus,
        evenBlock: hexOf(evenBlock),
      }),
    }
  }
  return {
    path: `${pathPrefix}.channel.digits[${rest.digit}]`,
    found: say('bits that take {values} values', { values }),
    expected: say('a number of values that {modulus} divides', { modulus: rest.modulus }),
    todo: say('Gather up to the top of the address, and let limit end the memory at a whole block.'),
  }
}

/** Each digit that is always 0, or the sum of digits before it. */
export function dependenceFaults(plan: AddressPlan, rows: readonly bigint[], pathPrefix: string): Fault[] {
  const order = plan.channel.bits.map((_, i) => i).toReversed()
  const basis: { row: bigint; sumOf: number[] }[] = []
  const faults: Fault[] = []
  for (const i of order) {
    let row = rows[i] ?? 0n
    const sumOf = new Set<number>()
    for (const known of basis) {
      if ((row ^ known.row) >= row) continue
      row ^= known.row
      for (const j of known.sumOf) if (!sumOf.delete(j)) sumOf.add(j)
    }
    if (row === 0n) faults.push(dependenceFault(plan, i, [...sumOf], pathPrefix))
    else {
      basis.push({ row, sumOf: [i, ...sumOf] })
      basis.sort((a, b) => (a.row < b.row ? 1 : -1))
    }
  }
  return faults
}

function dependenceFault(plan: AddressPlan, bit: number, sumOf: readonly number[], pathPrefix: string): Fault {
  const names = sumOf.map((i) => nameOf(plan, i)).toSorted()
  const digit = plan.channel.bits[bit]?.digit ?? 0
  const found =
    names.length === 0
      ? say('{plan} is always 0 below the end of the memory', { plan: nameOf(plan, bit) })
      : names.length === 1
        ? say('{plan} is the same as {names}', { plan: nameOf(plan, bit), names: names[0] })
        : say('{plan} is the sum of {names}', { plan: nameOf(plan, bit), names: joined(names) })
  return {
    path: `${pathPrefix}.channel.digits[${digit}]`,
    found,
    expected: say('digits that are independent of each other'),
    todo: say('As it is, some channels never come up.'),
  }
}

/** `digit 2`, or `digit 2 bit 0` where the digit has several bits. */
function nameOf(plan: AddressPlan, bit: number): string {
  const digit = plan.channel.bits[bit]?.digit ?? 0
  const siblings = plan.channel.bits.flatMap((other, i) => (other.digit === digit ? [i] : []))
  return siblings.length === 1
    ? say('digit {digit}', { digit })
    : say('digit {digit} bit {bit}', { digit, bit: siblings.indexOf(bit) })
}

/**
 * The fault of a memory whose end cuts a block in two, so that the XOR of some channel bits comes out uneven. Bit i
 * of `subset` stands for channel bit i.
 */
export function cutBlockFault(
  plan: AddressPlan,
  subset: number,
  description: AddressMapDescription,
  pathPrefix: string,
): Fault {
  const names = plan.channel.bits.flatMap((_, i) => ((subset >> i) & 1 ? [nameOf(plan, i)] : []))
  return {
    path: `${pathPrefix}.limit`,
    found: description.limit ?? say('nothing, so {end}', { end: hexOf(plan.end) }),
    expected: say('an end where {digits} is as often 1 as 0', { digits: names.toSorted().join(' + ') }),
    todo: say('The memory ends inside of a block that these digits split evenly.'),
  }
}

/** Where each number comes up equally often, a channel's share is how often the order names it. */
export function orderFaults({ channel }: AddressMapDescription, pathPrefix: string): Fault[] {
  const uses = new Map<string, number>()
  for (const id of channel.order) uses.set(id, (uses.get(id) ?? 0) + 1)
  const most = Math.max(...uses.values())
  return [...uses].flatMap(([id, count]) =>
    count === most
      ? []
      : [
          {
            path: `${pathPrefix}.channel.order`,
            found: say('channel {id} {count} times', { id, count }),
            expected: say('{most} times, as another channel', { most }),
          },
        ],
  )
}
