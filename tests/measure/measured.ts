/** Readings for tests, short to write. */
import type { PlacedPad } from '../../src/board/index.ts'
import { type Measurement, type Quantity, readTyped, stagePointSchema } from '../../src/measure/index.ts'

/** @param typed by line as people type it: `VMEM`, or a point of a stage such as `S4 pwm`; `S4` alone is its inductor, as in older cases */
export function measured(
  typed: Readonly<Record<string, string>>,
  quantity: Quantity = 'ohms',
  phase: Measurement['phase'] = 'before',
): Measurement[] {
  return Object.entries(typed).map(([name, text]) => {
    const read = readTyped(text, quantity)
    if (!read.ok) throw new Error(`${text} can't be read`)
    return { line: lineOf(name), quantity, phase, reading: read.value.reading, typed: text }
  })
}

export function lineOf(text: string): Measurement['line'] {
  const [, ref, point] = /^(S\d+)(?: (.+))?$/.exec(text) ?? []
  if (ref === undefined) return { kind: 'rail', name: text }
  return { kind: 'stage', name: ref, ...(point === undefined ? {} : { point: stagePointSchema.parse(point) }) }
}

/** A pad of 1 mm on a net, where only that counts. */
export const padOn = (net: string, number = '1', x = 0): PlacedPad => ({
  number,
  at: { x, y: 0 },
  widthMm: 1,
  lengthMm: 1,
  rotationDeg: 0,
  round: false,
  net,
  signal: undefined,
})
