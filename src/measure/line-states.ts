/** What the last cold reading of each line before the work says about it: towards a short, open, or fine. */
import type { BoardModel } from '../board/index.ts'
import { isFarAbove } from './judge-ohms.ts'
import type { GoodReadings, Measurement } from './schema.ts'
import { type LineVerdict, lineVerdicts } from './verdict.ts'
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
  const verdicts = lineVerdicts(model, { measurements, goodReadings }, 'ohms', 'before')
  for (const each of verdicts) {
    const { line, measurement, verdict } = each
    const state = STATES[verdict.kind]
    if (measurement === undefined || state === undefined) continue
    if (isFarAbove(line, measurement.reading) || isOfOthers(verdicts, each)) continue
    ;(line.line.kind === 'rail' ? rails : stages).set(line.line.name, state)
  }
  return { rails, stages }
}

/**
 * All stages of a rail hang on the same copper by milliohms of inductor, so that a short of any reads as one of all: then
 * it is one finding, that of the rail, and says nothing about this stage beside the others. A stage above its siblings is
 * fine only where one of them is low and so takes the others' middle down.
 */
function isOfOthers(verdicts: readonly LineVerdict[], { line, verdict }: LineVerdict): boolean {
  if (line.line.kind !== 'stage' || line.rail === undefined) return false
  const others = verdicts.filter(
    (each) =>
      each.measurement !== undefined &&
      each.line.line.kind === 'stage' &&
      each.line.rail === line.rail &&
      each.line.line.name !== line.line.name,
  )
  if (verdict.kind === 'unlike-high') return !others.some((each) => STATES[each.verdict.kind] === 'low')
  return verdict.kind === 'short' && others.length > 0 && others.every((each) => each.verdict.kind === 'short')
}
