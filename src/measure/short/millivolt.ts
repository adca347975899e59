/** Millivolts as people type them: `12.4`, `12,4m`, `0.0124 V`, `-380 µV`. A bare number is millivolts. */

const PATTERN = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)\s*(v|mv|m|uv|u)?$/
const MOST_MILLIVOLT = 100_000

const FACTORS: Readonly<Record<string, number>> = { v: 1000, mv: 1, m: 1, uv: 0.001, u: 0.001 }

/** `1,200` may be 1.2 or 1200. */
const AMBIGUOUS = /^[+-]?[1-9]\d{0,2},\d{3}\s*(?:mv|m)?$/

/** @returns mV, or undefined where it is no voltage of at most 100 V, or may be two */
export function parseMillivolt(typed: string): number | undefined {
  if (AMBIGUOUS.test(typed.trim().toLowerCase())) return undefined
  const text = typed.trim().toLowerCase().replace(',', '.').replace('−', '-').replaceAll(/[µμ]/g, 'u')
  const match = PATTERN.exec(text)
  if (match === null) return undefined
  const millivolt = Number(match[1]) * (FACTORS[match[2] ?? 'mv'] ?? 1)
  return Math.abs(millivolt) <= MOST_MILLIVOLT ? millivolt : undefined
}
