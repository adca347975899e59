/**
 * What was cleaned off the whole board, by the note at measuring and by what was ticked off in the plan: the one rule for
 * power, suspects, plan, record and hand-back.
 */
import type { BenchTick } from '../plan/index.ts'
import { substances as shippedSubstances } from '../spill/index.ts'
import { harmOf } from '../suspects/index.ts'
import type { Case } from './schema.ts'

type Cleanings = Pick<Case, 'cleaned' | 'ticks'>

/** Noted as cleaned and dried, or ticked off in the plan as washed. */
export const wasWashed = ({ cleaned, ticks }: Cleanings): boolean =>
  cleaned !== undefined || ticks.some((tick) => isDone(tick, 'wash'))

/** So many passes were on the log when the whole board was first cleaned; the note at measuring comes before all. */
export function cleanedAfter({ cleaned, ticks }: Cleanings): number | undefined {
  if (cleaned !== undefined) return 0
  return ticks.find((tick) => isDone(tick, 'wash') || isDone(tick, 'take-up'))?.afterPasses
}

/** Metal was taken up by hand, by the note at measuring or by a tick. */
const wasTakenUp = ({ cleaned, ticks }: Cleanings): boolean =>
  cleaned !== undefined || ticks.some((tick) => isDone(tick, 'take-up'))

/** The card was washed, and nothing was marked since that a wash takes off. */
export const isWashed = (caseFile: Case): boolean => wasWashed(caseFile) && !isSpilledSince('wash', caseFile)

/** Metal was taken up by hand, and none was marked since. */
export const isTakenUp = (caseFile: Case): boolean => wasTakenUp(caseFile) && !isSpilledSince('take-up', caseFile)

/**
 * Something was spilled, by a mark, that no cleaning of its kind took care of: it was marked after the wash, or after metal
 * was taken up. A tick that does not name its marks took care of all.
 */
export function isSpilledSince(
  action: 'wash' | 'take-up',
  { marks, substances, cleaned, ticks }: Cleanings & Pick<Case, 'marks' | 'substances'>,
): boolean {
  if (ticks.some((tick) => isDone(tick, action) && tick.marks === undefined)) return false
  const done = marksCleaned({ cleaned, ticks })
  const ofKind = new Set(marksCleanedBy(action, { marks, substances }))
  return marks.some(({ id, kind }) => kind === 'spill' && ofKind.has(id) && !done.has(id))
}

/** Washed by a tick, and neither dried nor baked since. */
export function isStillWet({ cleaned, ticks }: Cleanings): boolean {
  if (cleaned !== undefined) return false
  const washedAt = ticks.findLastIndex((tick) => isDone(tick, 'wash'))
  return washedAt >= 0 && !ticks.slice(washedAt).some((tick) => isDone(tick, 'dry') || isDone(tick, 'bake'))
}

/** Ids of the marks that a cleaning took care of, dried or not; one that was made since is not among them. */
export const marksCleaned = ({ cleaned, ticks }: Cleanings): ReadonlySet<string> =>
  new Set([
    ...(cleaned?.marks ?? []),
    ...ticks.flatMap((tick) => (isDone(tick, 'wash') || isDone(tick, 'take-up') ? (tick.marks ?? []) : [])),
  ])

/** As the judge of power takes it: undefined while nothing was cleaned, or while the board is still wet from it. */
export function cleanedOf(cleanings: Cleanings): { readonly marks: readonly string[] } | undefined {
  const marks = marksCleaned(cleanings)
  if (isStillWet(cleanings) || (cleanings.cleaned === undefined && marks.size === 0)) return undefined
  return { marks: [...marks] }
}

/** Ids of the marks that such a step takes care of: taking up those of metal, washing all others. */
export function marksCleanedBy(
  action: 'wash' | 'take-up',
  { marks, substances }: Pick<Case, 'marks' | 'substances'>,
): string[] {
  const harms = new Map([...shippedSubstances, ...substances].map((substance) => [substance.id, harmOf(substance)]))
  const isMetal = (mark: Case['marks'][number]): boolean =>
    mark.kind === 'spill' && harms.get(mark.substance) === 'metal'
  return marks.flatMap((mark) => (isMetal(mark) === (action === 'take-up') ? [mark.id] : []))
}

const isDone = ({ action, outcome }: BenchTick, wanted: BenchTick['action']): boolean =>
  action === wanted && outcome === 'done'
