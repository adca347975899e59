/** What diode mode adds to the judge of power: it never forbids by itself, because only ohms say how low a line is. */
import { lineKey } from './line-key.ts'
import { type PowerReason, reasonOf } from './power-reason.ts'
import type { LineVerdict } from './verdict.ts'

/** A short is said by the ohms alone where they say the same. */
export function diodeReasons(diode: readonly LineVerdict[], ohms: readonly LineVerdict[]): PowerReason[] {
  const shorts = new Set(ohms.flatMap(({ line, verdict }) => (verdict.kind === 'short' ? [lineKey(line.line)] : [])))
  return diode.flatMap((each) =>
    each.verdict.kind === 'short' && shorts.has(lineKey(each.line.line)) ? [] : reasonOf(each),
  )
}
