/** The judge's ranking of checks: the network with everything that could be looked at, and the engine that fits it. */
import type { BoardModel } from '../board/index.ts'
import { type Assumptions, usableAssumptions, withAssumptions } from './assumptions.ts'
import { massesByPackage } from './by-package.ts'
import { checkInstances, type LookPlace } from './check-instances.ts'
import { comebackCost, liftCosts } from './costs.ts'
import { exactMasses } from './exact.ts'
import type { JudgeInput } from './judge.ts'
import { rankChecks, type RankedChecks } from './rank-checks.ts'
import { createSetting, problemOf } from './setting.ts'
import { type PatchStates, unreportedStates } from './spatials.ts'

export interface ChecksInput extends JudgeInput {
  /** Hypotheses of all spills index the marks of these places after the areas of the findings. */
  readonly places: readonly LookPlace[]
  /** For so many of the best it is told what each outcome would change. */
  readonly told?: number
}

/** Up to so many bad findings the decision is about `MOST_PARTS` parts; each one more takes a part off, for time. */
const EASY_UP_TO = 8
const MOST_PARTS = 5
const LEAST_PARTS = 3
const TOLD = 16

export function createRanking(
  model: BoardModel,
  exactUpTo: number,
  patchesFor: (patch: Assumptions['patch']) => PatchStates,
): (input: ChecksInput) => RankedChecks {
  return (input) => {
    const { findings, places, spills, unreported: sides = [], told = TOLD } = input
    const assumptions = usableAssumptions(withAssumptions(input.assumptions))
    const { instances, leftOut } = checkInstances(model, findings, places)
    const setting = createSetting({
      model,
      assumptions,
      findings,
      patch: patchesFor(assumptions.patch),
      unreported: sides.length === 0 ? undefined : unreportedStates(model, sides),
      spills,
      asked: {
        rails: new Set(instances.flatMap(({ check, at }) => (check.evidence === 'rail' ? [at] : []))),
        stages: new Set(instances.flatMap(({ check, at }) => (check.evidence === 'stage' ? [at] : []))),
        areas: places.map(({ mark }) => mark),
        checks: instances.flatMap(({ check, at }) => (check.evidence === 'check' ? [{ check, at }] : [])),
      },
    })
    const problem = problemOf(setting, spills)
    const refs = setting.frame.network.parts
    const ground = { refs, liftCost: liftCosts(model, refs, assumptions), comebackCost: comebackCost(assumptions) }
    const exact = problem.n <= exactUpTo
    const engine = exact ? { massesOf: exactMasses(problem), leftOut: [] } : massesByPackage(problem)
    const mostParts = exact
      ? Math.max(LEAST_PARTS, Math.min(MOST_PARTS, MOST_PARTS + EASY_UP_TO - problem.n))
      : LEAST_PARTS
    const ranked = rankChecks({
      setting,
      problem,
      massesOf: engine.massesOf,
      instances,
      places,
      ground,
      mostParts,
      told,
    })
    return { ...ranked, leftOut: [...engine.leftOut, ...leftOut, ...ranked.leftOut] }
  }
}
