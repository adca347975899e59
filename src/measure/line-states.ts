/** What the last cold reading of each line before the work says about it: towards a short, open, or fine. */
import type { BoardModel } from '../board/index.ts'
import { isFarAbove } from './judge-ohms.ts'
import { rule } from './practice.ts'
import type { GoodReadings, Leads, Measurement } from './schema.ts'
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
  leads?: Leads,
): LineStates {
  const rails = new Map<string, LineState>()
  const stages = new Map<string, LineState>()
  const verdicts = lineVerdicts(model, { measurements, goodReadings, leads }, 'ohms', 'before')
  for (const each of verdicts) {
    const { line, measurement, verdict } = each
    const state = STATES[verdict.kind]
    if (measurement === undefined || state === undefined) continue
    if (isFarAbove(line, measurement.reading) || isOfOthers(verdicts, each)) continue
    if (state === 'fine' && isOfLeads(each, leads)) continue
    ;(line.line.kind === 'rail' ? rails : stages).set(line.line.name, state)
  }
  return { rails, stages }
}

/** A rail that reads no more than two leads do by themselves is not known to be fine. */
export function isOfLeads({ line, measurement }: LineVerdict, leads: Leads | undefined): boolean {
  const reading = measurement?.reading
  if (line.line.kind !== 'rail' || reading?.kind !== 'value') return false
  const { kind = 'two-wire', ohm } = leads ?? {}
  return kind === 'two-wire' && reading.value < rule(ohm === undefined ? 'twoWireLeadsOhm' : 'contactOhm')
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
