/** Cautions of the steps: in full where a hazard is met first, and by their heads at every later step; none is left out. */
import type { PlanStep } from '../../../plan/index.ts'

export interface StepCautions {
  /** Sentences that no earlier step has. */
  readonly full: readonly string[]
  /** Numbers of earlier steps at which the others stand in full. */
  readonly fullAt: readonly number[]
}

/** @returns one entry a step, in their order */
export function cautionsByStep(steps: readonly Pick<PlanStep, 'n' | 'cautions'>[]): StepCautions[] {
  const firstAt = new Map<string, number>()
  return steps.map(({ n, cautions }) => {
    const known = cautions.filter((caution) => firstAt.has(caution))
    const full = cautions.filter((caution) => !firstAt.has(caution))
    for (const caution of full) firstAt.set(caution, n)
    const places = known.map((caution) => firstAt.get(caution) ?? n)
    return { full, fullAt: [...new Set(places)].toSorted((a, b) => a - b) }
  })
}

/** A sentence up to its first stop, comma aside: what the hazard is or what not to do. */
export const headOf = (caution: string): string => caution.split(/[:;.]\s|[:;.]$/)[0] ?? caution

/** They hold everywhere and say no danger. */
const RULES = /local rules|rules of your place/
const IN_SIGHT = 2
/** Short heads go first: what is dangerous is read in passing. */
const SHORT = 40

/** The heads of the first cautions as one line, without what stands in brackets. */
export const headsInSight = (cautions: readonly string[]): string =>
  `${cautions
    .filter((caution) => !RULES.test(caution))
    .map((caution) => headOf(caution).replaceAll(/ \([^)]*\)/g, ''))
    .toSorted((a, b) => Number(a.length > SHORT) - Number(b.length > SHORT))
    .slice(0, IN_SIGHT)
    .join('. ')}.`
