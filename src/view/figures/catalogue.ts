/** The one catalogue of figures: Help lists its rules, a number on the screen shows its own with the values here. */
import type { Station } from '../../case/index.ts'
import type { EntriesOf } from './entry.ts'
import { heatEntries } from './entries/heat.ts'
import { measuringEntries } from './entries/measuring.ts'
import { planEntries } from './entries/plan.ts'
import { proofEntries } from './entries/proof.ts'
import { shopEntries } from './entries/shop.ts'
import { spillEntries } from './entries/spill.ts'
import { suspectsEntries } from './entries/suspects.ts'
import type { FigureInput, FigureKind, FigureOf, FigureRule } from './figure.ts'
import type { Known } from './known.ts'

const catalogue: EntriesOf<FigureKind> = {
  ...measuringEntries,
  ...spillEntries,
  ...suspectsEntries,
  ...planEntries,
  ...heatEntries,
  ...proofEntries,
  ...shopEntries,
}

export interface Explained extends FigureRule {
  readonly inputs: readonly FigureInput[]
}

/** How a figure was worked out, with the values that its inputs have in this case, where one lies on the desk. */
export function explain<Kind extends FigureKind>(figure: FigureOf<Kind>, known: Known | undefined): Explained {
  const { subject, inputs, carried, ...rule } = catalogue[figure.kind]
  const of = subject?.(figure) ?? ''
  return {
    ...rule,
    title: of === '' ? rule.title : `${of}: ${rule.title}`,
    inputs: [...(carried?.(figure) ?? []), ...(known === undefined ? [] : (inputs?.(figure, known) ?? []))],
  }
}

/** The rules of all figures, by station in the order of the visit. */
export const figureRules: readonly FigureRule[] = Object.values(catalogue)

export const figureRulesAt = (station: Station): readonly FigureRule[] =>
  figureRules.filter(({ at }) => at.includes(station))
