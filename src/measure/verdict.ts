/** A verdict for every line of the measuring sheet: its last reading held against its reference. */
import { say } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import { judgeDiode } from './judge-diode.ts'
import { judgeOhms } from './judge-ohms.ts'
import { judgePoint } from './judge-points.ts'
import { besideSiblings } from './judge-siblings.ts'
import { judgeSupply } from './judge-supply.ts'
import { judgeVolts } from './judge-volts.ts'
import { lineKey } from './line-key.ts'
import { type MeasuringLine, measuringLines } from './lines.ts'
import type { GoodReadings, Leads, LineName, Measurement, Phase, Quantity, Reading, Supply } from './schema.ts'
import { type Verdict, verdictOf } from './verdict-words.ts'

export { type Verdict, type VerdictKind, verdictKinds, type VerdictShape } from './verdict-words.ts'

export interface Measured {
  readonly measurements: readonly Measurement[]
  readonly goodReadings: readonly GoodReadings[]
  readonly leads?: Leads | undefined
  /** That the user named, beside those that the board shows. */
  readonly supplies?: readonly Supply[] | undefined
}

export interface LineVerdict {
  readonly line: MeasuringLine
  /** The last reading of that phase. */
  readonly measurement: Measurement | undefined
  readonly verdict: Verdict
}

/** One entry a line of the sheet, in its order. Readings of lines that the board lacks are passed over. */
export function lineVerdicts(model: BoardModel, measured: Measured, quantity: Quantity, phase: Phase): LineVerdict[] {
  const given = lastReadings(measured.measurements, quantity, phase)
  const last = quantity === 'ohms' ? withoutLeads(given, measured.leads) : given
  const lines = measuringLines(model, quantity, measured.goodReadings, measured.supplies)
  return lines.map((line) => {
    const measurement = last.get(lineKey(line.line))
    if (measurement === undefined) return { line, measurement, verdict: notMeasured(line) }
    return { line, measurement, verdict: judged(line, measurement, siblingsOf(lines, line, last)) }
  })
}

/** What two touching probes read is no part of a rail. */
function withoutLeads(
  readings: ReadonlyMap<string, Measurement>,
  leads: Leads | undefined,
): ReadonlyMap<string, Measurement> {
  const { kind = 'two-wire', ohm = 0 } = leads ?? {}
  if (kind !== 'two-wire' || ohm === 0) return readings
  return new Map(
    [...readings].map(([key, each]) => {
      const { reading } = each
      return reading.kind === 'value'
        ? [key, { ...each, reading: { kind: 'value', value: Math.max(0, reading.value - ohm) } as const }]
        : [key, each]
    }),
  )
}

/** By key of the line: the last reading that counts. */
export function lastReadings(
  measurements: readonly Measurement[],
  quantity: Quantity,
  phase: Phase,
): ReadonlyMap<string, Measurement> {
  const own = measurements.filter((each) => each.quantity === quantity && each.phase === phase)
  return new Map(own.map((each) => [lineKey(each.line), each]))
}

const notMeasured = (line: MeasuringLine): Verdict =>
  verdictOf('not-measured', say('Not measured yet; {words}.', { words: line.reference.words }))

function judged(line: MeasuringLine, { reading, state }: Measurement, siblings: readonly Reading[]): Verdict {
  const isStage = line.line.kind === 'stage'
  if (line.quantity === 'diode') return judgeDiode(line, reading, siblings)
  if (line.quantity === 'ohms' && line.line.kind === 'supply') return judgeSupply(line, reading, siblings[0])
  if (line.quantity === 'ohms') return isStage ? judgePoint(line, reading, siblings) : judgeOhms(line, reading)
  return isStage ? besideSiblings(line, reading, siblings) : judgeVolts(line, reading, state)
}

/** Readings of the same point at the other stages of the rail; of a supply, that of the rail behind its fuse. */
function siblingsOf(
  lines: readonly MeasuringLine[],
  { line, rail, isApart }: MeasuringLine,
  last: ReadonlyMap<string, Measurement>,
): Reading[] {
  if (rail === undefined || line.kind === 'rail') return []
  if (line.kind === 'supply') return isApart === true ? [] : [...readingsOf({ kind: 'rail', name: rail }, last)]
  return lines.flatMap((each) => {
    if (each.line.point !== line.point || each.rail !== rail || each.line.name === line.name) return []
    return readingsOf(each.line, last)
  })
}

function readingsOf(line: LineName, last: ReadonlyMap<string, Measurement>): Reading[] {
  const reading = last.get(lineKey(line))?.reading
  return reading === undefined ? [] : [reading]
}
