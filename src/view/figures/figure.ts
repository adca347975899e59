/** A number on the screen that can say how it was worked out: which one it is, and of what. */
import type { Station } from '../../case/index.ts'
import type { LineName, Phase, Quantity, ShortAnswer } from '../../measure/index.ts'

/** What each kind of number is of: enough to find its inputs in the case. */
interface Subjects {
  readonly 'part-chance': { readonly ref: string }
  readonly story: { readonly sentence: string }
  readonly remainder: object
  readonly 'part-cost': { readonly ref: string }
  readonly 'list-cost': object
  /** `way` is empty for the one that is proposed. */
  readonly proposal: { readonly way: string }
  readonly check: { readonly check: string; readonly at: string }
  readonly reach: { readonly of: string }
  readonly 'spill-extent': { readonly mark: string }
  readonly 'spill-place': object
  readonly pressed: { readonly mark: string }
  readonly errors: object
  readonly 'step-minutes': { readonly n: number }
  readonly 'step-cost': { readonly n: number }
  readonly 'plan-minutes': object
  readonly 'plan-cost': object
  readonly 'plan-harm': object
  readonly 'plan-works': object
  readonly worth: object
  readonly order: object
  readonly setting: { readonly n: number }
  readonly recipe: { readonly n: number }
  readonly cracks: object
  readonly 'joint-peak': { readonly ref: string; readonly n: number }
  readonly 'body-peak': { readonly ref: string }
  readonly 'neighbour-peak': { readonly ref: string; readonly n: number }
  readonly 'energy-balance': object
  readonly verdict: { readonly line: LineName; readonly quantity: Quantity; readonly phase: Phase }
  readonly short: { readonly answer: ShortAnswer; readonly ref: string | undefined }
  /** How many error-free runs it is asked for; undefined is the number as it stands. */
  readonly bound: { readonly runs: number | undefined }
  readonly quote: object
  readonly limit: object
  readonly bill: object
  readonly 'shop-share': { readonly words: string; readonly hits: number; readonly tries: number }
  readonly calibration: { readonly parts: number; readonly error: number }
  readonly 'shop-figure': {
    readonly name: string
    readonly shipped: string
    readonly seen: string
    readonly weight: string
  }
  readonly 'learnt-map': { readonly rows: number; readonly fits: number }
  readonly 'photo-fit': { readonly points: number; readonly missMm: number }
}

export type FigureKind = keyof Subjects
export type FigureOf<Kind extends FigureKind> = { readonly kind: Kind } & Subjects[Kind]
export type Figure = { [Kind in FigureKind]: FigureOf<Kind> }[FigureKind]

/** Something that goes into a figure, with its value in this case. */
export interface FigureInput {
  readonly name: string
  readonly value: string
}

/** What stands of a figure wherever it is shown. */
export interface FigureRule {
  readonly title: string
  readonly at: readonly Station[]
  readonly formula: string
  /** What goes in, by name. */
  readonly from: readonly string[]
  /** Author, title and year; or `from memory`, or `common practice, no source`. */
  readonly source: string
  /** What the figure can't know. */
  readonly limit: string
}
