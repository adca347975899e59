/** Readings for tests, short to write. */
import { type Measurement, type Quantity, readTyped } from '../../src/measure/index.ts'

/** @param typed by line name as people type it; names that begin with S and digits are stages */
export function measured(
  typed: Readonly<Record<string, string>>,
  quantity: Quantity = 'ohms',
  phase: Measurement['phase'] = 'before',
): Measurement[] {
  return Object.entries(typed).map(([name, text]) => {
    const read = readTyped(text, quantity)
    if (!read.ok) throw new Error(`${text} can't be read`)
    const kind = /^S\d+$/.test(name) ? 'stage' : 'rail'
    return { line: { kind, name }, quantity, phase, reading: read.value.reading, typed: text }
  })
}
