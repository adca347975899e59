/** What an address map may say, beyond its schema: each digit by itself, and the range of addresses. */
import { say } from '../../base/index.ts'
import type { Fault } from '../../base/index.ts'
import type { AddressMapDescription, Digit } from '../schema.ts'
import { hexOf } from './hex.ts'

export interface DigitPlace {
  readonly digit: Digit
  /** JSON path of the digit. */
  readonly path: string
}

/** Faults of one digit: a mask that is zero, bits at or above `addressBits`, high below low, a bit gathered twice. */
export function checkDigit({ digit, path }: DigitPlace, addressBits: number): Fault[] {
  if (digit.kind === 'xor') return checkMask(digit.mask, `${path}.mask`, addressBits)
  if (digit.kind === 'field') return checkStretch(digit, path, addressBits)
  const faults = digit.bits.flatMap((stretch, i) => checkStretch(stretch, `${path}.bits[${i}]`, addressBits))
  return faults.length > 0 ? faults : checkTwice(digit, path, addressBits)
}

function checkMask(mask: string, path: string, addressBits: number): Fault[] {
  const value = BigInt(mask)
  if (value === 0n) return [{ path, found: mask, expected: say('at least one bit') }]
  if (value >> BigInt(addressBits) !== 0n)
    return [{ path, found: mask, expected: say('only bits below {addressBits}, the address’s bits', { addressBits }) }]
  return []
}

interface Stretch {
  readonly low: number
  readonly high?: number | undefined
}

function checkStretch({ low, high }: Stretch, path: string, addressBits: number): Fault[] {
  if (low >= addressBits)
    return [
      {
        path: `${path}.low`,
        found: String(low),
        expected: say('a bit below {addressBits}, the address’s bits', { addressBits }),
      },
    ]
  if (high === undefined) return []
  if (high < low) return [{ path: `${path}.high`, found: String(high), expected: say('at least low, {low}', { low }) }]
  if (high >= addressBits)
    return [
      {
        path: `${path}.high`,
        found: String(high),
        expected: say('a bit below {addressBits}, the address’s bits', { addressBits }),
      },
    ]
  return []
}

function checkTwice(digit: Extract<Digit, { kind: 'mod' }>, path: string, addressBits: number): Fault[] {
  const seen = new Set<number>()
  return digit.bits.flatMap(({ low, high = addressBits - 1 }, i) => {
    const before = seen.size
    for (let bit = low; bit <= high; bit++) seen.add(bit)
    if (seen.size - before === high - low + 1) return []
    return [
      {
        path: `${path}.bits[${i}]`,
        found: say('bits {low} to {high}', { low, high }),
        expected: say('each bit gathered once'),
      },
    ]
  })
}

/** Faults of `subtract` and `limit`: beyond 2^addressBits, or nothing left between them. */
export function checkRange(map: AddressMapDescription, pathPrefix: string): Fault[] {
  const top = 2 ** map.addressBits
  const first = map.subtract === undefined ? 0 : Number(map.subtract)
  const end = map.limit === undefined ? top : Number(map.limit)
  if (end > top) {
    const expected = say('at most {top}, which is 2^addressBits', { top: hexOf(top) })
    return [{ path: `${pathPrefix}.limit`, found: String(map.limit), expected }]
  }
  if (first >= end) {
    const where = map.subtract === undefined ? 'limit' : 'subtract'
    const expected =
      where === 'limit' ? say('more than 0') : say('less than {end}, where the memory ends', { end: hexOf(end) })
    return [{ path: `${pathPrefix}.${where}`, found: String(map[where]), expected }]
  }
  return []
}
