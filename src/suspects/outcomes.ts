/** The joint probability of a check's outcome and of what needs lifting, exactly, for either engine of the judge. */
import type { Evidence } from './evidence.ts'
import { type Given, givenGood } from './given.ts'
import type { CheckInstance } from './check-instances.ts'
import type { LookPlace } from './check-instances.ts'
import type { Problem } from './posterior.ts'
import type { Setting } from './setting.ts'
import { idleNone, liftedByTouching } from './weighed.ts'

/** Probability that an outcome comes and that none of some parts (indices, ascending) needs lifting. */
export type NoneNeeds = (parts: readonly number[]) => number

/** Of a problem that weighs the causes of one problem anew: mass of all in which nothing is there that lifts a part. */
export type MassesOf = (weighedAnew: Problem) => (parts: readonly number[]) => number

export interface Outcomes {
  readonly found: NoneNeeds
  readonly notFound: NoneNeeds
}

export interface OutcomeModel {
  /** As the card is known now. */
  readonly now: NoneNeeds
  readonly of: (instance: CheckInstance) => Outcomes | undefined
}

export function outcomeModel(
  setting: Setting,
  problem: Problem,
  massesOf: MassesOf,
  places: readonly LookPlace[],
): OutcomeModel {
  const count = setting.frame.network.parts.length
  const touched = liftedByTouching(problem)
  const masses = massesOf(problem)
  const whole = masses([])
  const noneNeeds = ({ problem: weighed, idle, factor }: Given): NoneNeeds => {
    const massesThen = isSame(weighed, problem) ? masses : massesOf(weighed)
    const idleThen = idleNone(idle, count)
    const scale = whole > 0 ? factor / whole : 0
    return (asked) => scale * massesThen(asked.filter((part) => touched.has(part))) * idleThen(asked)
  }
  const now = noneNeeds({ problem, idle: setting.idle, factor: 1 })
  const of = (instance: CheckInstance): Outcomes | undefined => {
    const finding = findingOf(setting.context.evidence, instance, places)
    if (finding === undefined) return undefined
    const notFound = noneNeeds(givenGood(setting, problem, finding.clean))
    const notSeen = finding.seen === finding.clean ? notFound : noneNeeds(givenGood(setting, problem, finding.seen))
    return { notFound, found: (asked) => Math.max(0, now(asked) - notSeen(asked)) }
  }
  return { now, of }
}

const isSame = (a: Problem, b: Problem): boolean =>
  a.moving === b.moving &&
  a.points.every((point, i) => point === b.points[i]) &&
  a.standing.every((spatial, i) => spatial === b.standing[i])

/** Its findings: the one that is bad when it finds something, the one that is good when it finds nothing. */
function findingOf(
  evidence: Evidence,
  { check, at, look }: CheckInstance,
  places: readonly LookPlace[],
): { seen: number; clean: number } | undefined {
  if (check.evidence === 'area') return look === undefined ? undefined : evidence.askedAreas[places.indexOf(look)]
  const finding =
    check.evidence === 'rail'
      ? evidence.railFinding.get(at)
      : check.evidence === 'stage'
        ? evidence.stageFinding.get(at)
        : evidence.checkFindings.find((known) => known.check === check && known.at === at)?.finding
  return finding === undefined ? undefined : { seen: finding, clean: finding }
}
