/** What the shop's own good cards say about a board: the last reading of every line, one value a card. */
import { type GoodReadings, lineKey, type Measurement } from '../measure/index.ts'
import type { Case } from './schema.ts'

/** What of a case the ranges learn from. */
export interface CardReadings extends Pick<Case, 'goodCard' | 'measurements'> {
  readonly outcome?: Case['handBack']['outcome']
}

/**
 * What of a case counts for the shop's figures: its readings, whether it is a good card, and its outcome where there
 * is one.
 */
export const cardReadingsOf = ({ goodCard, measurements, handBack: { outcome } }: Case): CardReadings =>
  outcome === undefined ? { goodCard, measurements } : { goodCard, measurements, outcome }

/**
 * @param cards cases of one board: those marked as good cards count whole, repaired ones with their readings after the
 *   work, others for nothing
 * @returns ohms and volts by line in the order in which they were met; readings without a figure (open, short) are left out
 */
export function goodReadingsOf(cards: readonly CardReadings[]): GoodReadings[] {
  const byLine = new Map<string, GoodReadings>()
  for (const { goodCard, measurements: all, outcome } of cards) {
    if (!goodCard && outcome !== 'repaired') continue
    const measurements = goodCard ? all : all.filter(({ phase }) => phase === 'after')
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
    last.set(`${measurement.quantity} ${lineKey(measurement.line)}`, measurement)
  }
  return last
}
