/** What was measured before the work beside what was measured after it, line by line. */
import type { BoardModel } from '../../board/index.ts'
import { lineKey, type LineName, type Measurement, type Phase, type Quantity } from '../../measure/index.ts'

export interface MeasuredLine {
  readonly line: LineName
  readonly quantity: Quantity
  /** The last reading of each phase; one of them at least is there. */
  readonly before: Measurement | undefined
  readonly after: Measurement | undefined
}

/** Lines with a reading, in the board's order (rails, then stages), ohms before diode mode before volts; lines that the board lacks last. */
export function measuredBeforeAfter(model: BoardModel, measurements: readonly Measurement[]): MeasuredLine[] {
  const last = new Map<string, Measurement>()
  const found = new Map<string, LineName>()
  for (const measurement of measurements) {
    last.set(keyOf(measurement.line, measurement.quantity, measurement.phase), measurement)
    found.set(lineKey(measurement.line), measurement.line)
  }
  const onBoard = [
    ...model.rails.map(({ name }) => `rail ${name}`),
    ...model.parts.flatMap(({ kind, ref }) => (kind === 'power-stage' ? [`stage ${ref}`] : [])),
  ]
  const placeOf = ({ kind, name }: LineName): number => {
    const place = onBoard.indexOf(`${kind} ${name}`)
    return place < 0 ? onBoard.length : place
  }
  const lines = [...found.values()].toSorted((a, b) => placeOf(a) - placeOf(b))
  return lines.flatMap((line) =>
    (['ohms', 'diode', 'volts'] as const).flatMap((quantity) => {
      const before = last.get(keyOf(line, quantity, 'before'))
      const after = last.get(keyOf(line, quantity, 'after'))
      return before === undefined && after === undefined ? [] : [{ line, quantity, before, after }]
    }),
  )
}

const keyOf = (line: LineName, quantity: Quantity, phase: Phase): string => `${lineKey(line)} ${quantity} ${phase}`
