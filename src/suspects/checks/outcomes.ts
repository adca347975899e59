/**
 * The joint probability of a check's outcome and of what needs lifting: the judge's own sum over the ways that it kept,
 * each weighed by how surely it would leave the check good.
 */
import type { OwnCause } from '../network/cause.ts'
import type { Card, ReportedSpill } from '../sum/card.ts'
import { groupSum } from '../sum/evaluate.ts'
import {
  byPart,
  type NeedGround,
  needGround,
  type NeedInput,
  type NoneNeeds,
  noneNeeds,
  quietShares,
  soundValue,
  type Spared,
  massesOfWays,
  sumOfMasses,
} from '../sum/need.ts'
import { ownSum, type WeighedCause } from '../sum/own-sum.ts'
import type { Posterior } from '../sum/posterior.ts'
import { createValues } from '../sum/values.ts'
import type { CheckInstance, LookPlace } from './check-instances.ts'
import { type StateOutcomes, stateOutcomes } from './state-outcomes.ts'

export interface Outcomes {
  readonly found: NoneNeeds
  readonly notFound: NoneNeeds
}

export interface OutcomeModel {
  /** As the card is known now. */
  readonly now: NoneNeeds
  readonly of: (instance: CheckInstance) => Outcomes | undefined
}

/**
 * What the card needs now, and for each check what it would need after either outcome. `of` gives undefined for a
 * check whose finding the card was not made with.
 */
export function outcomeModel(
  card: Card,
  posterior: Posterior,
  spills: readonly ReportedSpill[],
  places: readonly LookPlace[],
): OutcomeModel {
  const { frame, parts, values, context } = card
  const input: NeedInput = { frame, posterior, values, parts, core: context.model.core?.ref }
  const ground = needGround(input)
  const now = noneNeeds(ground)
  const asked = askedFindings(card)
  const column = new Int32Array(frame.list.length).fill(-1)
  for (const [at, finding] of asked.entries()) column[finding] = at
  const written = card.variablesOf(spills)
  const room = new Float64Array(posterior.kept.length)
  const tables = posterior.variables.flatMap((reduced, number): StateOutcomes[] => {
    const own = written[number]
    return own === undefined ? [] : [stateOutcomes(own, reduced, column, asked.length)]
  })
  const goodWith = (finding: number): NoneNeeds =>
    jointWithGood({ ground, card, tables, finding, column: column[finding] ?? -1, room })
  const of = (instance: CheckInstance): Outcomes | undefined => {
    const finding = findingOf(card, instance, places)
    if (finding === undefined) return undefined
    const notFound = goodWith(finding.clean)
    const notSeen = finding.seen === finding.clean ? notFound : goodWith(finding.seen)
    return { notFound, found: (parts_) => Math.max(0, now(parts_) - notSeen(parts_)) }
  }
  return { now, of }
}

function askedFindings({ context }: Card): number[] {
  const { rail, stage, checks, askedAreas, list } = context.observed
  const all = [...rail.values(), ...stage.values(), ...checks.map(({ finding }) => finding)]
  const open = all.filter((finding) => list[finding]?.badIn === -1 && list[finding]?.goodIn === Infinity)
  return [...open, ...askedAreas.flatMap(({ seen, clean }) => [seen, clean])]
}

interface GoodWork {
  readonly ground: NeedGround
  readonly card: Card
  readonly tables: readonly StateOutcomes[]
  readonly finding: number
  readonly column: number
  /** By kept way: written anew by each sum. */
  readonly room: Float64Array
}

/** P(the finding is good, none of the parts needs lifting). */
function jointWithGood({ ground, card, tables, finding, column, room }: GoodWork): NoneNeeds {
  const { input, table, idleLifts } = ground
  const { posterior, frame } = input
  const leak = frame.list[finding]?.leak ?? 0
  const own = ownOutcome(input, posterior, finding)
  const touchesShared = column >= 0 && tables.some((outcomes) => touchesColumn(outcomes, column))
  const goodOf = (variable: number, state: number): number => {
    const outcomes = tables[variable]
    return outcomes === undefined || column < 0 ? 1 : (outcomes.good[state * outcomes.columns + column] ?? 1)
  }
  const shares = table.sharesGood(goodOf)
  const lost = Float64Array.from(
    posterior.variables.map(({ idle, states }, number) =>
      idle.reduce((sum, state) => sum + (states[state]?.weight ?? 0) * (1 - goodOf(number, state)), 0),
    ),
  )
  const gone = idleLifts.map((lifts, number) => byPart(lifts, (state) => goodOf(number, state)))
  const quietOf = quietShares(posterior.variables, lost, gone)
  const massesWith = (spared: Spared): Float64Array =>
    touchesShared ? massesOfWays(ground, spared, shares, quietOf(spared.asked), room) : ground.masses(spared)
  const idleTouching = posterior.idle.flatMap(({ cause, probability }) => {
    const q = qOf(cause, finding)
    return q > 0 ? [{ part: cause.lifts ? card.parts.indexOf(cause.part) : -1, good: 1 - probability * q }] : []
  })
  const remembered = new Map<string, number>()
  return (asked) => {
    const key = asked.join()
    const known = remembered.get(key)
    if (known !== undefined) return known
    const spared = ground.spared(asked)
    let sum = sumOfMasses(massesWith(spared), own?.(spared)) * spared.idle * (1 - leak)
    for (const { part, good } of idleTouching) if (!spared.asked.has(part)) sum *= good
    remembered.set(key, sum)
    return sum
  }
}

function touchesColumn({ columns, good }: StateOutcomes, column: number): boolean {
  for (let at = column; at < good.length; at += columns) if ((good[at] ?? 1) < 1 - ROUNDING) return true
  return false
}

/** Means over merged states are not exactly one. */
const ROUNDING = 1e-12

const qOf = (cause: OwnCause, finding: number): number =>
  cause.touches.find((touch) => touch.finding === finding)?.q ?? 0

/**
 * The finding's own group with its causes weighed anew, as if it had come out good; undefined where none touches it.
 * @returns by what is spared, by kept way: the group's value then over its value now
 */
function ownOutcome({ frame, values }: NeedInput, posterior: Posterior, finding: number) {
  const group = posterior.groups.findIndex(({ own }) => own.causes.some(({ cause }) => qOf(cause, finding) > 0))
  const sum = posterior.groups[group]
  const of = frame.groups[group]
  if (sum === undefined || of === undefined) return undefined
  let factor = 1
  const causes = sum.own.causes.map((weighed): WeighedCause => {
    const share = 1 - weighed.probability * qOf(weighed.cause, finding)
    factor *= share
    return { ...weighed, probability: (weighed.probability * (1 - qOf(weighed.cause, finding))) / share }
  })
  const then = groupSum(frame, of, ownSum(frame, of, causes), sum.book)
  const thenOf = createValues(posterior.groups.map((each, at) => (at === group ? then : each)))
  const remembered = new Map<number, Float64Array>()
  return ({ core, packages }: Spared): Float64Array => {
    const packageAsked = packages[group] === 1
    const known = remembered.get(Number(packageAsked) + 2 * Number(core))
    if (known !== undefined) return known
    const ratios = new Map<number, number>()
    const times = Float64Array.from(posterior.kept, ({ patterns }) => {
      const pattern = patterns[group] ?? 0
      const ratio = ratios.get(pattern) ?? ratioOf(pattern, packageAsked, core)
      ratios.set(pattern, ratio)
      return ratio
    })
    remembered.set(Number(packageAsked) + 2 * Number(core), times)
    return times
  }

  // What can't be sound before the outcome is known can't be sound after it.
  function ratioOf(pattern: number, packageAsked: boolean, core: boolean): number {
    const before = soundValue(values.of(group, pattern), packageAsked, core)
    return before > 0 ? (factor * soundValue(thenOf.of(group, pattern), packageAsked, core)) / before : 0
  }
}

/** Its findings: the one that is bad when it finds something, the one that is good when it finds nothing. */
function findingOf(
  { context }: Card,
  { check, at, look }: CheckInstance,
  places: readonly LookPlace[],
): { seen: number; clean: number } | undefined {
  const { observed } = context
  if (check.evidence === 'area') return look === undefined ? undefined : observed.askedAreas[places.indexOf(look)]
  const finding =
    check.evidence === 'rail'
      ? observed.rail.get(at)
      : check.evidence === 'stage'
        ? observed.stage.get(at)
        : observed.checks.find((known) => known.check.id === check.id && known.at === at)?.finding
  return finding === undefined ? undefined : { seen: finding, clean: finding }
}
