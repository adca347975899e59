/** Hours in which nobody works on the card: drying after a wash, baking. */
import type { PlanStep } from '../../plan/index.ts'
import { substanceOf } from '../../spill/index.ts'
import { wasWashed } from '../cleaning-done.ts'
import type { Case } from '../schema.ts'
import { settingsOf } from './spent.ts'

/**
 * Those of the plan where there is one; else the longest drying of what was spilled and not washed off yet, by the
 * substance's own figures or by the shop's where it has none. Nothing without a spill.
 */
export function waitingHours(caseFile: Case, steps?: readonly Pick<PlanStep, 'hours'>[]): number {
  if (steps !== undefined) return steps.reduce((sum, { hours = 0 }) => sum + hours, 0)
  if (wasWashed(caseFile)) return 0
  const usual = settingsOf(caseFile)?.heat.dryHours ?? 0
  const hours = caseFile.marks.flatMap((mark) => {
    if (mark.kind !== 'spill') return []
    const minutes = substanceOf(mark.substance, caseFile.substances)?.cleaning?.dryMinutes.value
    return [minutes === undefined ? usual : minutes / 60]
  })
  return Math.max(0, ...hours)
}
