/** One entry of the catalogue: the rule of a figure, and its inputs with the values that they have in a case. */
import type { FigureInput, FigureKind, FigureOf, FigureRule } from './figure.ts'
import type { Known } from './known.ts'

export interface FigureEntry<Kind extends FigureKind> extends FigureRule {
  /** Of what this one is: stands behind the title. Left out where the title says it. */
  readonly subject?: (figure: FigureOf<Kind>) => string
  /** Of the case on the desk. */
  readonly inputs?: (figure: FigureOf<Kind>, known: Known) => readonly FigureInput[]
  /** That the number brought with it, whatever lies on the desk. */
  readonly carried?: (figure: FigureOf<Kind>) => readonly FigureInput[]
}

export type EntriesOf<Kind extends FigureKind> = { readonly [K in Kind]: FigureEntry<K> }

/** An input, or none where the case does not have it. */
export const given = (name: string, value: string | undefined): FigureInput[] =>
  value === undefined || value === '' ? [] : [{ name, value }]
