/** What the last readings of each line before the work say about it: towards a short, open, or fine. */
import type { BoardModel } from '../board/index.ts'
import { isFarAbove } from './judge-ohms.ts'
import { bringUpOf } from './order.ts'
import { rule } from './practice.ts'
import type { GoodReadings, Leads, Measurement } from './schema.ts'
import { stageStates } from './stage-states.ts'
import { type LineVerdict, lineVerdicts } from './verdict.ts'
import { saysOf } from './verdict-words.ts'

export type LineState = 'low' | 'open' | 'fine'

export interface LineStates {
  readonly rails: ReadonlyMap<string, LineState>
  readonly stages: ReadonlyMap<string, LineState>
}

/** Lines without a reading before the work, or without a range to hold it against, are in neither map. */
export function lineStates(
  model: BoardModel,
  measurements: readonly Measurement[],
  goodReadings: readonly GoodReadings[],
  leads?: Leads,
): LineStates {
  const measured = { measurements, goodReadings, leads }
  const ohms = lineVerdicts(model, measured, 'ohms', 'before')
  const diode = lineVerdicts(model, measured, 'diode', 'before')
  const rails = new Map<string, LineState>()
  for (const each of ohms) {
    const state = stateOf(each)
    if (state === undefined || isFarAbove(each.line, each.measurement?.reading)) continue
    if (state === 'fine' && isOfLeads(each, leads)) continue
    rails.set(each.line.line.name, state)
  }
  for (const each of diode) {
    const { name } = each.line.line
    const state = stateOf(each)
    // good cards in diode mode say more than the trade's habit in ohms, a short less than any ohms
    const isSharper = each.line.reference.from === 'learnt' && isByHabit(ohms, name)
    if (state !== undefined && (!rails.has(name) || (isSharper && state !== 'fine'))) rails.set(name, state)
  }
  for (const [name, state] of statesUnderPower(model, lineVerdicts(model, measured, 'volts', 'before'))) {
    if (!rails.has(name) || (state !== 'fine' && rails.get(name) === 'fine')) rails.set(name, state)
  }
  return { rails, stages: stageStates([...ohms, ...diode]) }
}

/**
 * The first rail that did not come up is open or low, however well it reads cold; those after it tell nothing. One within
 * its own tolerance under power is fine.
 */
function statesUnderPower(model: BoardModel, volts: readonly LineVerdict[]): Map<string, LineState> {
  const { order = [], first } = bringUpOf(model, volts) ?? {}
  const states = new Map<string, LineState>()
  for (const { rail, verdict } of order) if (verdict.verdict.kind === 'in-range') states.set(rail, 'fine')
  if (first !== undefined) states.set(first.rail, first.state === 'missing' ? 'open' : 'low')
  return states
}

const stateOf = ({ line, measurement, verdict }: LineVerdict): LineState | undefined =>
  line.line.kind === 'rail' && measurement !== undefined ? saysOf(verdict.kind) : undefined

const isByHabit = (ohms: readonly LineVerdict[], rail: string): boolean =>
  ohms.some(({ line }) => line.line.kind === 'rail' && line.line.name === rail && line.reference.isHabit)

/** A rail that reads no more than two leads do by themselves is not known to be fine. */
export function isOfLeads({ line, measurement }: LineVerdict, leads: Leads | undefined): boolean {
  const reading = measurement?.reading
  if (line.line.kind !== 'rail' || reading?.kind !== 'value') return false
  const { kind = 'two-wire', ohm } = leads ?? {}
  return kind === 'two-wire' && reading.value < rule(ohm === undefined ? 'twoWireLeadsOhm' : 'contactOhm')
}
