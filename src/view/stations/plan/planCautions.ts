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
/** As much as one line takes. */
const IN_SIGHT = 50

/** The heads of the first cautions as one line, the short ones first, without what stands in brackets. */
export function headsInSight(cautions: readonly string[]): string {
  const heads = cautions
    .filter((caution) => !RULES.test(caution))
    .map((caution) => `${headOf(caution).replaceAll(/ \([^)]*\)/g, '')}.`)
    .toSorted((a, b) => Number(a.length > IN_SIGHT) - Number(b.length > IN_SIGHT))
  const [first = '', ...others] = heads
  return others.reduce((line, head) => (line.length + head.length < IN_SIGHT ? `${line} ${head}` : line), first)
}
