/** What the last cold reading of each line says about it: towards a short, open, or fine. */
import type { BoardModel } from '../board/index.ts'
import type { GoodReadings, LineName, Measurement } from './schema.ts'

export type LineState = 'low' | 'open' | 'fine'

export interface LineStates {
  readonly rails: ReadonlyMap<string, LineState>
  readonly stages: ReadonlyMap<string, LineState>
}

export const lineKey = ({ kind, name }: LineName): string => `${kind} ${name}`

/** Lines without a cold reading before the work, or without a range to hold it against, are in neither map. */
export function lineStates(
  model: BoardModel,
  measurements: readonly Measurement[],
  _goodReadings: readonly GoodReadings[],
): LineStates {
  const rails = new Map<string, LineState>()
  for (const { line, quantity, phase, reading } of measurements) {
    if (line.kind !== 'rail' || quantity !== 'ohms' || phase !== 'before') continue
    const range = model.rails.find((rail) => rail.name === line.name)?.ohmsToGround
    if (reading.kind !== 'value') rails.set(line.name, reading.kind === 'open' ? 'open' : 'low')
    else if (range !== undefined) rails.set(line.name, reading.value < range.lowOhm ? 'low' : 'fine')
  }
  return { rails, stages: new Map() }
}
