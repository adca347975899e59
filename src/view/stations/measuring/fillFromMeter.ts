/** A reading of the bench meter goes into the field of a line, and the focus on to the next. */
import { type MeasuringLine, type Phase, typedReading } from '../../../measure/index.ts'
import { enterReading } from './measure.ts'
import { readMeter } from './meter.ts'
import type { Desk } from '../../stores/desk.ts'
import { stepFrom } from './fieldOrder.ts'

export async function fillFromMeter(
  desk: Desk,
  field: HTMLInputElement,
  { line, quantity }: Pick<MeasuringLine, 'line' | 'quantity'>,
  phase: Phase,
): Promise<void> {
  const taken = await readMeter(desk, quantity)
  if (taken === undefined) return
  const { reading, meter } = taken
  enterReading(desk, {
    line,
    quantity,
    phase,
    reading,
    typed: typedReading(reading, quantity),
    meter: meter.slice(0, 200),
  })
  if (document.activeElement === field) stepFrom(field, 1)
}
