/** The kinds of verdict that a reading can get: each with its word and its shape, so that no colour is needed. */

export const verdictKinds = [
  'not-measured',
  'short',
  'low',
  'below',
  'in-range',
  'above',
  'open',
  'alike',
  'unlike-low',
  'unlike-high',
  'usual',
  'unusual',
  'no-voltage',
  'below-zero',
  'no-range',
] as const
export type VerdictKind = (typeof verdictKinds)[number]

/** Names of shapes; the screen has a drawing for each. */
export type VerdictShape =
  | 'ring'
  | 'cross'
  | 'far-down'
  | 'down'
  | 'tick'
  | 'up'
  | 'gap'
  | 'unequal'
  | 'wave'
  | 'question'

export interface Verdict {
  readonly kind: VerdictKind
  readonly word: string
  readonly shape: VerdictShape
  /** What was held against what. */
  readonly sentence: string
}

const LOOKS: Readonly<Record<VerdictKind, readonly [string, VerdictShape]>> = {
  'not-measured': ['not measured', 'ring'],
  short: ['short', 'cross'],
  low: ['low', 'far-down'],
  below: ['below the range', 'down'],
  'in-range': ['in range', 'tick'],
  above: ['above the range', 'up'],
  open: ['open', 'gap'],
  alike: ['like its siblings', 'tick'],
  'unlike-low': ['below its siblings', 'unequal'],
  'unlike-high': ['above its siblings', 'unequal'],
  usual: ['as is usual', 'wave'],
  unusual: ['not as usual', 'wave'],
  'no-voltage': ['no voltage', 'cross'],
  'below-zero': ['below zero', 'question'],
  'no-range': ['no reference', 'question'],
}

export function verdictOf(kind: VerdictKind, sentence: string): Verdict {
  const [word, shape] = LOOKS[kind]
  return { kind, word, shape, sentence }
}
