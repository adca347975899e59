/** From posteriors to what is told: stories, suspicions with reasons, the lift list, where the spill was. */
import type { SpillHypotheses } from '../spill/index.ts'
import { comebackCost, liftCosts } from './costs.ts'
import { bestLiftList, costOf, type LiftQuestion } from './lift-list.ts'
import type { CauseAt, PartSuspicion, Story, SuspectsResult } from './result.ts'
import { storySentence } from './sentences.ts'
import { causesOf, findStories, type RawStory } from './stories.ts'
import { liftQuestion, spatialsOf, type Weighed } from './weighed.ts'
import { type LocatedSpill, whereTheSpillWas } from './where.ts'
import { groundsOf, reasonsFor } from './why.ts'

export interface WeighedCard extends Weighed {
  /** Hypotheses of the unreported spill, in the order in which its states were made. */
  readonly sides: readonly SpillHypotheses[]
}

const SUSPECT_FROM = 0.01

export function conclude(card: WeighedCard): SuspectsResult {
  const { setting, assumptions, problem, posterior } = card
  const parts = setting.frame.network.parts
  const costs = liftCosts(setting.context.model, parts, assumptions)
  const question = liftQuestion(card, costs, comebackCost(assumptions))
  const best = bestLiftList(question)
  const search = findStories(problem, posterior)
  const { stories } = search
  const likely = (a: number, b: number): number => (question.probability[b] ?? 0) - (question.probability[a] ?? 0)
  const suspects = [...parts.keys()].filter((index) => (question.probability[index] ?? 0) >= SUSPECT_FROM)
  return {
    stories: stories.map((story) => tell(card, story)),
    remainder: Math.max(0, 1 - stories.reduce((sum, story) => sum + story.probability, 0)),
    lift: [...best.lift].toSorted(likely).map((index) => parts[index] ?? ''),
    expectedCost: {
      ofTheList: best.cost,
      ofLiftingNone: costOf(question, []),
      ofLiftingAllSuspects: costOf(question, suspects),
    },
    parts: suspicions(card, question, new Set(best.lift)),
    spill: whereTheSpillWas(locatedSpills(card), spillProbability(card)),
    leftOut: [
      ...posterior.leftOut,
      ...search.leftOut,
      ...(best.exact ? [] : ['a proof that no other list of parts to lift costs less']),
    ],
  }
}

function suspicions(card: WeighedCard, question: LiftQuestion, lift: ReadonlySet<number>): PartSuspicion[] {
  const grounds = groundsOf(card, question)
  const list = card.setting.frame.network.parts.map((ref, index) => {
    const probability = question.probability[index] ?? 0
    const costIfLifted = question.liftCost[index] ?? 0
    return {
      ref,
      probability,
      lift: lift.has(index),
      costIfLifted,
      costIfLeft: probability * (question.comebackCost + costIfLifted),
      why: reasonsFor(grounds, ref, index, lift.has(index)),
    }
  })
  return list.toSorted((a, b) => b.probability - a.probability)
}

function tell(card: WeighedCard, story: RawStory): Story {
  const places = spatialsOf(card.problem).flatMap((_, index) => {
    const label = story.labels[index]
    return label === undefined ? [] : [placeIn(card, index, label)]
  })
  const causes = [...places, ...causesOf(card.problem, story)]
  return { causes, probability: story.probability, sentence: storySentence(causes, card.problem.n > 0) }
}

/** A spatial cause under one of its labels, with the parts that it more likely than not covers there. */
function placeIn(card: WeighedCard, index: number, label: number): CauseAt {
  const spatial = spatialsOf(card.problem)[index]
  const at = spatial?.cause.labels[label]
  if (spatial === undefined || at === undefined) return { kind: 'spill', at: '', refs: [] }
  const parts = card.setting.frame.network.parts
  const covered = new Float64Array(parts.length)
  let total = 0
  for (const [group, { weight, firing, lifts }] of spatial.groups.entries()) {
    if (firing.bits.length === 0 || weight === 0) continue
    const share = (spatial.labelWeight[group * spatial.cause.labels.length + label] ?? 0) / weight
    const mass = share * (card.posterior.groups[index]?.[group] ?? 0)
    total += mass
    for (const part of lifts) covered[part] = (covered[part] ?? 0) + mass
  }
  const refs = parts.filter((_, part) => (covered[part] ?? 0) > total / 2)
  return { ...at, refs: at.kind === 'core-patch' ? at.refs : refs }
}

/** Probability that a spill, reported or not, reached something that fails or was seen to be dirty. */
function spillProbability(card: WeighedCard): number {
  let none = 1
  for (const [index, spatial] of spatialsOf(card.problem).entries()) {
    if (spatial.cause.kind === 'core-patch') continue
    let touching = 0
    for (const [group, { firing }] of spatial.groups.entries()) {
      if (firing.bits.length > 0) touching += card.posterior.groups[index]?.[group] ?? 0
    }
    none *= 1 - Math.min(1, touching)
  }
  return 1 - none
}

function locatedSpills(card: WeighedCard): LocatedSpill[] {
  const reported: LocatedSpill[] = []
  const unreported: LocatedSpill[] = []
  for (const [index, spatial] of spatialsOf(card.problem).entries()) {
    const posterior = card.posterior.groups[index] ?? new Float64Array(0)
    const own = card.spills.find(({ hypotheses }) => hypotheses.groups === spatial.cause.states)
    if (own !== undefined) reported.push({ hypotheses: own.hypotheses, spatial, posterior, offset: 0 })
    if (spatial.cause.kind !== 'unreported-spill') continue
    let offset = 0
    for (const hypotheses of card.sides) {
      unreported.push({ hypotheses, spatial, posterior, offset })
      offset += hypotheses.groups.length
    }
  }
  return [...reported, ...unreported]
}
