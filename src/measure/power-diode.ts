/** What diode mode adds to the judge of power: it never forbids by itself, because only ohms say how low a line is. */
import { lineKey, lineWithKind } from './line-key.ts'
import { measuredReason, type PowerReason } from './power-reason.ts'
import type { LineVerdict } from './verdict.ts'
import type { VerdictKind } from './verdict-words.ts'

const WEIGHTS: Readonly<Partial<Record<VerdictKind, PowerReason['weight']>>> = {
  short: 'unknown',
  low: 'unknown',
  below: 'unknown',
  'unlike-low': 'unknown',
  unusual: 'note',
  'unlike-high': 'note',
  open: 'note',
  above: 'note',
}

/** A short is said by the ohms alone where they say the same. */
export function diodeReasons(diode: readonly LineVerdict[], ohms: readonly LineVerdict[]): PowerReason[] {
  const shorts = new Set(ohms.flatMap(({ line, verdict }) => (verdict.kind === 'short' ? [lineKey(line.line)] : [])))
  return diode.flatMap(({ line, verdict, measurement }) => {
    const weight = WEIGHTS[verdict.kind]
    if (measurement === undefined || weight === undefined) return []
    if (verdict.kind === 'short' && shorts.has(lineKey(line.line))) return []
    return [
      measuredReason(weight, `${lineWithKind(line.line)} in diode mode, ${verdict.word}: ${verdict.sentence}`, [
        line.line,
      ]),
    ]
  })
}
