/** A reason for or against power: one sentence, its weight, and the lines that it speaks of. */
import type { LineName } from './schema.ts'

export interface PowerReason {
  /** `against` makes it not safe, `unknown` not known; a `note` changes nothing. */
  readonly weight: 'against' | 'unknown' | 'note'
  readonly sentence: string
  /** Whether it is about what was measured, or about the card: what happened to it and what lies on it. */
  readonly about: 'measured' | 'card'
  readonly lines: readonly LineName[]
}

export const measuredReason = (
  weight: PowerReason['weight'],
  sentence: string,
  lines: readonly LineName[] = [],
): PowerReason => ({ weight, about: 'measured', sentence, lines })
