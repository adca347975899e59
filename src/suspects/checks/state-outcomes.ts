/** How surely each state of a shared variable leaves each asked observation good: what was merged, by its mean. */
import type { Item, ListedVariable, SpillVariable } from '../network/cause.ts'
import type { ReducedVariable } from '../sum/states.ts'

/** Row by state, column by asked observation: Π (1 - q). */
export interface StateOutcomes {
  readonly columns: number
  readonly good: Float64Array
}

/**
 * @param column by observation: its column, or -1 where it is not asked
 * @param written the variable before its states were reduced
 */
export function stateOutcomes(
  written: ListedVariable | SpillVariable,
  reduced: ReducedVariable,
  column: Int32Array,
  columns: number,
): StateOutcomes {
  return 'items' in written
    ? ofSpill(written, reduced, column, columns)
    : { columns, good: ofListed(written, column, columns) }
}

function ofListed({ states }: ListedVariable, column: Int32Array, columns: number): Float64Array {
  const possible = states.filter(({ weight }) => weight > 0)
  const good = new Float64Array(possible.length * columns).fill(1)
  for (const [state, { touches }] of possible.entries()) {
    for (const { finding, q } of touches) {
      const at = column[finding] ?? -1
      if (at >= 0) good[state * columns + at] = (good[state * columns + at] ?? 1) * (1 - q)
    }
  }
  return good
}

function ofSpill(written: SpillVariable, reduced: ReducedVariable, column: Int32Array, columns: number): StateOutcomes {
  const { states, items } = written
  const good = new Float64Array(reduced.states.length * columns)
  const { parts } = reduced
  if (parts === undefined) return { columns, good: good.fill(1) }
  const own = new Float64Array(columns)
  const shown = (list: readonly Item[]) =>
    list.map(({ shows }) =>
      shows.flatMap(({ finding, q }) => ((column[finding] ?? -1) >= 0 ? [{ at: column[finding] ?? 0, q }] : [])),
    )
  const tables = [shown(items.regions), shown(items.corridors), shown(items.areas)]
  for (const [index, { regions, corridors, areas }] of states.entries()) {
    own.fill(1)
    for (const [t, list] of [regions, corridors, areas].entries()) {
      for (const item of list) for (const { at, q } of tables[t]?.[item] ?? []) own[at] = (own[at] ?? 1) * (1 - q)
    }
    for (let bite = 0; bite < parts.bites; bite++) {
      const part = index * parts.bites + bite
      const state = parts.stateOf[part] ?? 0
      const whole = reduced.states[state]?.weight ?? 0
      const share = whole > 0 ? (parts.weight[part] ?? 0) / whole : 0
      for (let at = 0; at < columns; at++) {
        good[state * columns + at] = (good[state * columns + at] ?? 0) + share * (own[at] ?? 1)
      }
    }
  }
  return { columns, good }
}
