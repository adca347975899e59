/**
 * The joint probability of a check's outcome and of what needs lifting: the judge's own sum over the ways that it kept,
 * each weighed by how surely it would leave the check good.
 */
import type { OwnCause } from '../network/cause.ts'
import type { Bundle } from '../sum/bundle.ts'
import type { Card } from '../sum/card.ts'
import { groupSum } from '../sum/evaluate.ts'
import { type NeedInput, type NoneNeeds, noneNeeds, soundShare, sparedBy } from '../sum/need.ts'
import { ownSum, type WeighedCause } from '../sum/own-sum.ts'
import type { Posterior } from '../sum/posterior.ts'
import type { ReducedVariable } from '../sum/states.ts'
import { createValues, type GroupValues } from '../sum/total.ts'
import type { ReportedSpill } from '../sum/card.ts'
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

export function outcomeModel(
  card: Card,
  posterior: Posterior,
  spills: readonly ReportedSpill[],
  places: readonly LookPlace[],
): OutcomeModel {
  const { frame, parts, values, context } = card
  const input: NeedInput = { frame, posterior, values, parts, core: context.model.core?.ref }
  const now = noneNeeds(input)
  const asked = askedFindings(card)
  const column = new Int32Array(frame.list.length).fill(-1)
  for (const [at, finding] of asked.entries()) column[finding] = at
  const written = card.variablesOf(spills)
  const tables = posterior.variables.flatMap((reduced, number): StateOutcomes[] => {
    const own = written[number]
    return own === undefined ? [] : [stateOutcomes(own, reduced, column, asked.length)]
  })
  const goodWith = (finding: number): NoneNeeds =>
    jointWithGood({ input, card, tables, finding, column: column[finding] ?? -1 })
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
  readonly input: NeedInput
  readonly card: Card
  readonly tables: readonly StateOutcomes[]
  readonly finding: number
  readonly column: number
}

/** P(the finding is good, none of the parts needs lifting). */
function jointWithGood({ input, card, tables, finding, column }: GoodWork): NoneNeeds {
  const { posterior, values, frame, parts } = input
  const leak = frame.list[finding]?.leak ?? 0
  const own = ownOutcome(card, posterior, finding)
  const goodOf = (variable: number, state: number): number => {
    const table = tables[variable]
    return table === undefined || column < 0 ? 1 : (table.good[state * table.columns + column] ?? 1)
  }
  const shares = new Map<Bundle, readonly GoodShare[]>()
  const sharesOf = (bundle: Bundle): readonly GoodShare[] => {
    const known = shares.get(bundle) ?? goodShares(posterior, bundle, goodOf)
    shares.set(bundle, known)
    return known
  }
  const remembered = new Map<string, number>()
  return (asked) => {
    const key = asked.join()
    const known = remembered.get(key)
    if (known !== undefined) return known
    const spared = sparedBy(input, asked)
    const quiet = Float64Array.from(posterior.variables, (variable, number) =>
      quietGood(variable, spared.asked, (state) => goodOf(number, state)),
    )
    const allQuiet = quiet.reduce((product, value) => product * value, 1)
    const without = (bundle: Bundle): number => {
      let share = 0
      for (const each of sharesOf(bundle)) {
        if (each.parts.some((part) => spared.asked.has(part))) continue
        share += each.share / each.loud.reduce((product, number) => product * (quiet[number] ?? 1), 1)
      }
      return share
    }
    let sum = 0
    for (const { probability, rare, likely, patterns } of posterior.kept) {
      let share = probability * allQuiet * without(rare) * without(likely)
      for (let group = 0; group < patterns.length && share > 0; group++) {
        const packageAsked = spared.packages[group] === 1
        const pattern = patterns[group] ?? 0
        if (group === own.group) {
          const before = values.of(group, pattern).all
          const then = own.values?.of(group, pattern)
          if (then !== undefined && before > 0) {
            share *= (own.factor * then.all * soundShare(then, packageAsked, spared.core)) / before
          }
        } else if (packageAsked || spared.core) {
          share *= soundShare(values.of(group, pattern), packageAsked, spared.core)
        }
      }
      sum += share
    }
    const refs = new Set(asked.map((part) => parts[part]))
    for (const { cause, probability } of posterior.idle) {
      const q = qOf(cause, finding)
      if (cause.lifts && refs.has(cause.part)) sum *= 1 - probability
      else if (q > 0) sum *= 1 - probability * q
    }
    const result = (1 - leak) * sum
    remembered.set(key, result)
    return result
  }
}

/** Share of a bundle's weight that leaves the finding good, by what comes off whatever fails and by what is not quiet. */
interface GoodShare {
  readonly parts: readonly number[]
  readonly loud: readonly number[]
  readonly share: number
}

function goodShares(
  { variables }: Posterior,
  { ways, weight }: Bundle,
  goodOf: (variable: number, state: number) => number,
): GoodShare[] {
  const shares = new Map<string, { parts: number[]; loud: number[]; share: number }>()
  for (const way of ways) {
    let share = weight > 0 ? way.weight / weight : 0
    const parts: number[] = []
    const loud: number[] = []
    for (const { variable, state } of way.chosen) {
      share *= goodOf(variable, state)
      loud.push(variable)
      const part = variables[variable]?.states[state]?.lifts ?? -1
      if (part >= 0) parts.push(part)
    }
    const key = `${parts.join()}/${loud.join()}`
    const known = shares.get(key)
    if (known === undefined) shares.set(key, { parts, loud, share })
    else known.share += share
  }
  return [...shares.values()]
}

/** Probability that a variable which touches nothing bad has none of these parts come off and leaves the finding good. */
function quietGood(
  { idle, states, quiet }: ReducedVariable,
  asked: ReadonlySet<number>,
  goodOf: (state: number) => number,
): number {
  let lost = 0
  for (const state of idle) {
    const { lifts = -1, weight = 0 } = states[state] ?? {}
    lost += weight * (lifts >= 0 && asked.has(lifts) ? 1 : 1 - goodOf(state))
  }
  return quiet > 0 ? 1 - lost / quiet : 1
}

const qOf = (cause: OwnCause, finding: number): number =>
  cause.touches.find((touch) => touch.finding === finding)?.q ?? 0

/** The finding's own group with its causes weighed anew, as if it had come out good; no group where none touches it. */
function ownOutcome(card: Card, posterior: Posterior, finding: number) {
  const { frame } = card
  const group = posterior.groups.findIndex(({ own }) => own.causes.some(({ cause }) => qOf(cause, finding) > 0))
  const sum = posterior.groups[group]
  const of = frame.groups[group]
  if (sum === undefined || of === undefined) return { group: -1, factor: 1, values: undefined }
  let factor = 1
  const causes = sum.own.causes.map((weighed): WeighedCause => {
    const share = 1 - weighed.probability * qOf(weighed.cause, finding)
    factor *= share
    return { ...weighed, probability: (weighed.probability * (1 - qOf(weighed.cause, finding))) / share }
  })
  const then = groupSum(frame, of, ownSum(frame, of, causes), sum.book)
  const values: GroupValues = createValues(posterior.groups.map((each, at) => (at === group ? then : each)))
  return { group, factor, values }
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
