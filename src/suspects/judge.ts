/** The judge of one board: findings and spill hypotheses in; stories, places, suspicions and the lift list out. */
import type { BoardModel } from '../board/index.ts'
import type { SpillHypotheses } from '../spill/index.ts'
import { type AssumptionOverrides, type Assumptions, usableAssumptions, withAssumptions } from './assumptions.ts'
import { judgeByPackage } from './by-package.ts'
import { conclude } from './conclude.ts'
import { judgeExactly } from './exact.ts'
import { type ChecksInput, createRanking } from './judge-checks.ts'
import type { RankedChecks } from './rank-checks.ts'
import type { Findings, SuspectsResult } from './result.ts'
import { createSetting, problemOf, type ReportedSpill, type Setting } from './setting.ts'
import { createStanding, type Standing } from './standing.ts'
import { patchStates, unreportedStates } from './spatials.ts'

export interface JudgeInput {
  readonly findings: Findings
  /** Figures that differ from the shipped ones. */
  readonly assumptions?: AssumptionOverrides | undefined
  /** Reported spills; a mark that could not be computed is left out. */
  readonly spills: readonly ReportedSpill[]
  /** Hypotheses of a spill that nobody reported, one entry a board side; areas as in the findings. */
  readonly unreported?: readonly SpillHypotheses[] | undefined
}

export interface Judge {
  /** Remembers what one call shares with the next, so that dragging a spill is cheap; the answer does not depend on it. */
  readonly judge: (input: JudgeInput) => SuspectsResult
  /** What to look at or measure next, by expected information about what to lift, per minute. */
  readonly rankChecks: (input: ChecksInput) => RankedChecks
}

export interface JudgeOptions {
  /** Up to so many bad findings the sum runs over explained sets, exactly; beyond, package by package. At most 16. */
  readonly exactUpTo?: number
}

const EXACT_UP_TO = 13
const MOST_EXACT = 16

export function createJudge(model: BoardModel, options: JudgeOptions = {}): Judge {
  const exactUpTo = Math.min(MOST_EXACT, options.exactUpTo ?? EXACT_UP_TO)
  const patchesFor = rememberLast(({ radiiMm, stepMm }: Assumptions['patch']) => patchStates(model, radiiMm, stepMm))
  const unreportedFor = rememberLast((sides: readonly SpillHypotheses[]) => unreportedStates(model, sides))
  const numberOf = identityNumbers()
  let last: { key: string; setting: Setting; standing: Standing | undefined } | undefined

  const settingOf = (input: JudgeInput, assumptions: Assumptions): NonNullable<typeof last> => {
    const key = settingKey(input, assumptions, numberOf)
    if (last?.key === key) return last
    const sides = input.unreported ?? []
    const setting = createSetting({
      model,
      assumptions,
      findings: input.findings,
      patch: patchesFor(JSON.stringify(assumptions.patch), assumptions.patch),
      unreported: sides.length === 0 ? undefined : unreportedFor(sides.map(numberOf).join(), sides),
      spills: input.spills,
    })
    last = { key, setting, standing: undefined }
    return last
  }

  const judge = (input: JudgeInput): SuspectsResult => {
    const assumptions = usableAssumptions(withAssumptions(input.assumptions))
    const known = settingOf(input, assumptions)
    const { setting } = known
    const problem = problemOf(setting, input.spills)
    const { findings, spills } = input
    const card = { findings, spills, assumptions, setting, problem, sides: input.unreported ?? [] }
    if (problem.n > exactUpTo) return conclude({ ...card, posterior: judgeByPackage(problem) })
    known.standing ??= createStanding(problem)
    return conclude({ ...card, posterior: judgeExactly(problem, known.standing) })
  }
  return { judge, rankChecks: createRanking(model, exactUpTo, (patch) => patchesFor(JSON.stringify(patch), patch)) }
}

/** For a single question; `createJudge` is for many. */
export const judge = (model: BoardModel, input: JudgeInput): SuspectsResult => createJudge(model).judge(input)

function rememberLast<A, T>(make: (argument: A) => T): (key: string, argument: A) => T {
  let kept: { key: string; value: T } | undefined
  return (key, argument) => {
    if (kept?.key !== key) kept = { key, value: make(argument) }
    return kept.value
  }
}

function identityNumbers(): (object: object) => number {
  const numbers = new WeakMap<object, number>()
  let next = 0
  return (object) => {
    const known = numbers.get(object)
    if (known !== undefined) return known
    numbers.set(object, next)
    return next++
  }
}

/** Equal for two calls that differ at most in the last spill. */
function settingKey(input: JudgeInput, assumptions: Assumptions, numberOf: (object: object) => number): string {
  const { findings, spills, unreported } = input
  return JSON.stringify([
    assumptions,
    [...findings.lanes],
    [...findings.signatures].map(([ref, { kind }]) => [ref, kind]),
    findings.areas.map(({ kind }) => kind),
    findings.slips.map(({ at, radiusMm, side }) => [at, radiusMm, side]),
    [...findings.rails],
    [...(findings.stages ?? [])],
    (findings.checks ?? []).map(({ check, at, found }) => [check, at, found]),
    spills.slice(0, -1).map(({ mark, hypotheses }) => [mark.at, mark.side, numberOf(hypotheses)]),
    spills.length,
    (spills.at(-1)?.hypotheses.groups.length ?? 0) > 0,
    (unreported ?? []).map(numberOf),
  ])
}
