/** Which causes a check of the catalogue can find at its target. */
import type { Side } from '../../board/index.ts'
import type { CheckTarget, OwnCheck } from './check-catalogue.ts'
import type { Touch } from '../network/cause.ts'
import type { CauseKind } from '../result.ts'

/** A finding that stands for one check at one target, answered or only asked. */
export interface CheckFinding {
  readonly finding: number
  readonly check: OwnCheck
  readonly at: string
}

/** Where a cause, or one region that a spatial cause reaches, can be met by a check. */
export interface CausePlace {
  readonly kind: CauseKind
  readonly parts?: readonly string[]
  readonly lanes?: readonly string[]
  readonly rails?: readonly string[]
  readonly side?: Side
}

const MET_BY: Record<CheckTarget, (place: CausePlace, at: string) => boolean> = {
  rail: ({ rails }, at) => rails?.includes(at) ?? false,
  stage: ({ parts }, at) => parts?.includes(at) ?? false,
  memory: ({ parts }, at) => parts?.includes(at) ?? false,
  core: ({ parts }, at) => parts?.includes(at) ?? false,
  lane: ({ lanes }, at) => lanes?.includes(at) ?? false,
  corridor: ({ lanes }, at) => lanes?.includes(at) ?? false,
  edge: () => false,
  side: ({ side }, at) => side === at,
}

/** What a cause there does to the checks; an unreported spill is found like a reported one. */
export const checkTouches = (checks: readonly CheckFinding[], place: CausePlace): Touch[] =>
  checksMet(checks, place).map(({ touch }) => touch)

/** The same, with the target of each check. */
export function checksMet(checks: readonly CheckFinding[], place: CausePlace): { at: string; touch: Touch }[] {
  const kind = place.kind === 'unreported-spill' ? 'spill' : place.kind
  return checks.flatMap(({ finding, check, at }) => {
    const q = check.finds[kind]
    return q !== undefined && check.targets.some((target) => MET_BY[target](place, at))
      ? [{ at, touch: { finding, q } }]
      : []
  })
}
