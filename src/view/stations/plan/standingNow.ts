/** The standing list of the plan on the screen: what was noted shows at once, also while the rest is planned anew. */
import type { Case } from '../../../case/index.ts'
import { type PlanAnswer, standing, type StandingPlan } from '../../../plan/index.ts'
import type { PlanState } from '../../stores/planStore.ts'

type Noted = Pick<Case, 'passes' | 'ticks' | 'planned'>

/** Whether an answer was given to all that is noted, no more and no less. */
export const isAnswered = ({ passes, ticks }: Noted, askedOf: PlanState['askedOf']): boolean =>
  askedOf?.passes.length === passes.length && askedOf.ticks.length === ticks.length

/**
 * Until the plan has followed, a step that was noted since is left out of what is still to do, and nothing is called needless.
 * @param askedOf what the answer was given to
 */
export function standingNow(answer: PlanAnswer, noted: Noted, askedOf: PlanState['askedOf']): StandingPlan {
  const { passes, ticks, planned = [] } = noted
  const { steps } = answer.best
  if (isAnswered(noted, askedOf)) return standing(planned, steps, passes, ticks)
  const fresh = [...passes.slice(askedOf?.passes.length ?? 0), ...ticks.slice(askedOf?.ticks.length ?? 0)]
  const left = steps.filter(
    ({ action, refs }) =>
      !fresh.some(
        (entry) => entry.action === action && entry.outcome !== 'failed' && entry.refs.join() === refs.join(),
      ),
  )
  return { ...standing(planned, left, passes, ticks), dropped: [] }
}
