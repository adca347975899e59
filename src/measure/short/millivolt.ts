/** Millivolts as people type them: `12.4`, `12,4m`, `0.0124 V`, `-380 µV`. A bare number is millivolts. */
import { readTypedNumber } from '../../base/index.ts'

const PATTERN = /^([^a-z]*(?:\de[+-]?\d+)?)\s*(v|mv|m|uv|u)?$/
const MOST_MILLIVOLT = 100_000

const FACTORS: Readonly<Record<string, number>> = { v: 1000, mv: 1, m: 1, uv: 0.001, u: 0.001 }

/**
 * A comma is always a decimal one: meters show millivolts with three decimals, and thousands of them are no drop along copper.
 * @returns mV, or undefined where it is no voltage of at most 100 V
 */
export function parseMillivolt(typed: string): number | undefined {
  const match = PATTERN.exec(typed.trim().toLowerCase().replaceAll(/[µμ]/g, 'u'))
  const number = readTypedNumber(match?.[1] ?? '', { neverThousands: true })
  if (!number.ok) return undefined
  const millivolt = number.value * (FACTORS[match?.[2] ?? 'mv'] ?? 1)
  return Math.abs(millivolt) <= MOST_MILLIVOLT ? millivolt : undefined
}
