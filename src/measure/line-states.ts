/** What the last cold reading of each line before the work says about it: towards a short, open, or fine. */
import type { BoardModel } from '../board/index.ts'
import type { GoodReadings, Measurement } from './schema.ts'
import { lineVerdicts } from './verdict.ts'
import type { VerdictKind } from './verdict-words.ts'

export type LineState = 'low' | 'open' | 'fine'

export interface LineStates {
  readonly rails: ReadonlyMap<string, LineState>
  readonly stages: ReadonlyMap<string, LineState>
}

/** Kinds that are not here say nothing: a hint neither passes nor fails, and what has no range can't be held to it. */
const STATES: Readonly<Partial<Record<VerdictKind, LineState>>> = {
  short: 'low',
  low: 'low',
  below: 'low',
  'unlike-low': 'low',
  open: 'open',
  'in-range': 'fine',
  above: 'fine',
  alike: 'fine',
  'unlike-high': 'fine',
}

/** Lines without a cold reading before the work, or without a range to hold it against, are in neither map. */
export function lineStates(
  model: BoardModel,
  measurements: readonly Measurement[],
  goodReadings: readonly GoodReadings[],
): LineStates {
  const rails = new Map<string, LineState>()
  const stages = new Map<string, LineState>()
  for (const { line, measurement, verdict } of lineVerdicts(model, { measurements, goodReadings }, 'ohms', 'before')) {
    const state = STATES[verdict.kind]
    if (measurement === undefined || state === undefined) continue
    ;(line.line.kind === 'rail' ? rails : stages).set(line.line.name, state)
  }
  return { rails, stages }
}
