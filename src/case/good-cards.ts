/** What the shop's own good cards say about a board: the last reading of every line, one value a card. */
import type { GoodReadings, Measurement } from '../measure/index.ts'
import type { Case } from './schema.ts'

/**
 * @param cards cases of one board; those not marked as good cards count for nothing
 * @returns ohms and volts by line in the order in which they were met; readings without a figure (open, short) are left out
 */
export function goodReadingsOf(cards: readonly Pick<Case, 'goodCard' | 'measurements'>[]): GoodReadings[] {
  const byLine = new Map<string, GoodReadings>()
  for (const { goodCard, measurements } of cards) {
    if (!goodCard) continue
    for (const [key, { line, quantity, reading }] of lastOfEachLine(measurements)) {
      if (reading.kind !== 'value' || reading.value < 0) continue
      const known = byLine.get(key)
      if (known === undefined) byLine.set(key, { line, quantity, values: [reading.value] })
      else if (known.values.length < MAX_VALUES) known.values.push(reading.value)
    }
  }
  return [...byLine.values()]
}

/** As many as the case file's schema takes. */
const MAX_VALUES = 1000

function lastOfEachLine(measurements: readonly Measurement[]): Map<string, Measurement> {
  const last = new Map<string, Measurement>()
  for (const measurement of measurements) {
    last.set(`${measurement.quantity} ${measurement.line.kind} ${measurement.line.name}`, measurement)
  }
  return last
}
