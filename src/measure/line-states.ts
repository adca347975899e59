/** What the last cold reading of each line before the work says about it: towards a short, open, or fine. */
import type { BoardModel } from '../board/index.ts'
import { isFarAbove } from './judge-ohms.ts'
import { rule } from './practice.ts'
import type { GoodReadings, Leads, Measurement } from './schema.ts'
import { stageStates } from './stage-states.ts'
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
  open: 'open',
  'in-range': 'fine',
  above: 'fine',
}

/** Lines without a cold reading before the work, or without a range to hold it against, are in neither map. */
export function lineStates(
  model: BoardModel,
  measurements: readonly Measurement[],
  goodReadings: readonly GoodReadings[],
  leads?: Leads,
): LineStates {
  const verdicts = lineVerdicts(model, { measurements, goodReadings, leads }, 'ohms', 'before')
  const rails = new Map<string, LineState>()
  for (const each of verdicts) {
    const { line, measurement, verdict } = each
    const state = STATES[verdict.kind]
    if (line.line.kind !== 'rail' || measurement === undefined || state === undefined) continue
    if (isFarAbove(line, measurement.reading) || (state === 'fine' && isOfLeads(each, leads))) continue
    rails.set(line.line.name, state)
  }
  return { rails, stages: stageStates(verdicts) }
}

/** A rail that reads no more than two leads do by themselves is not known to be fine. */
export function isOfLeads({ line, measurement }: LineVerdict, leads: Leads | undefined): boolean {
  const reading = measurement?.reading
  if (line.line.kind !== 'rail' || reading?.kind !== 'value') return false
  const { kind = 'two-wire', ohm } = leads ?? {}
  return kind === 'two-wire' && reading.value < rule(ohm === undefined ? 'twoWireLeadsOhm' : 'contactOhm')
}
