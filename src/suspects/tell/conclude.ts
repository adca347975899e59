/** From posteriors to what is told: stories, suspicions with reasons, the lift list, where the spill was. */
import { joined, percentAtMost, say } from '../../base/index.ts'
import type { SpillHypotheses } from '../../spill/index.ts'
import { comebackCost, liftCosts } from '../lift/costs.ts'
import { bestLiftList, costOf, type LiftQuestion } from '../lift/lift-list.ts'
import type { PartSuspicion, Story, SuspectsResult } from '../result.ts'
import { priceOf } from '../prices/work.ts'
import { workOnList } from '../remedies/list-work.ts'
import { type AtTheBench, washedShare } from '../remedies/pose.ts'
import { plainProposal } from '../steps/propose.ts'
import { remedyOf, splitOf } from './remedy.ts'
import { storySentence } from './sentences.ts'
import { findStories, type RawStory } from './stories.ts'
import { liftQuestion, type Weighed } from './weighed.ts'
import { hypothesisMasses, type LocatedSpill, whereTheSpillWas } from './where.ts'
import { groundsOf, reasonsFor } from './why.ts'

export interface WeighedCard extends Weighed {
  /** Hypotheses of the unreported spill, in the order in which its states were made. */
  readonly sides: readonly SpillHypotheses[]
}

const SUSPECT_FROM = 0.01
/** An unreported spill is placed on the sheet only from this probability on. */
const PLACED_FROM = 0.2
/** What was not summed is said from this share on. */
const SAID_FROM = 0.001

/**
 * All that is told of one weighed card, in the shop's currency. Parts are refs, the likeliest first; `remainder` is
 * the probability of all stories that are not told.
 */
export function conclude(weighed: WeighedCard, bench: AtTheBench): SuspectsResult {
  const { card, prices, posterior } = weighed
  const { parts } = card
  const costs = liftCosts(card.context.model, parts, prices)
  const question = liftQuestion(weighed, costs, comebackCost(prices))
  const best = bestLiftList(question)
  const stories = findStories(posterior, card.values)
  const reached = new Map<number, readonly string[]>()
  const reachedBy = (variable: number): readonly string[] => {
    const refs = reached.get(variable) ?? refsReached(weighed, variable)
    reached.set(variable, refs)
    return refs
  }
  const likely = (a: number, b: number): number => (question.probability[b] ?? 0) - (question.probability[a] ?? 0)
  const suspects = [...parts.keys()].filter((index) => (question.probability[index] ?? 0) >= SUSPECT_FROM)
  const lift = best.lift.map((index) => parts[index] ?? '')
  const work = workOnList(weighed, lift, bench)
  return {
    stories: stories.map((story) => tell(weighed, story, reachedBy)),
    remainder: Math.max(0, 1 - stories.reduce((sum, story) => sum + story.probability, 0)),
    lift: [...best.lift].toSorted(likely).map((index) => parts[index] ?? ''),
    expectedCost: {
      ofTheList: best.cost,
      ofLiftingNone: costOf(question, []),
      ofLiftingAllSuspects: costOf(question, suspects),
    },
    parts: suspicions(weighed, question, new Set(best.lift), work.replaced, washedShare(weighed, bench)).map((part) =>
      toldOff(part, bench),
    ),
    works: work.works,
    proved: plainProposal(weighed.findings)?.action.kind === 'hand-back',
    spill: whereItWas(weighed),
    leftOut: [
      ...whatWasNotSummed(posterior.leftOut),
      ...channelsGuessed(weighed),
      ...(posterior.passedOver ? [say('the rarest of many places and causes, which were not gone through')] : []),
      ...(posterior.groups.some(({ own }) => own.cut) ? [say('more than three faults at once in one package')] : []),
      ...(best.exact ? [] : [say('a proof that no other list of parts to lift costs less')]),
    ],
  }
}

/**
 * A learnt map may have guessed which channel of a package is which. Where one of them fails and another passes, lanes are
 * taken as the map has them: that they may stand the other way round is not summed.
 */
function channelsGuessed({ card, findings }: WeighedCard): string[] {
  const { model } = card.context
  const guessed = (model.addressMap?.channel.orderGuessed ?? []).filter((ref) => {
    const own = model.lanes.filter(({ part }) => part === ref)
    const states = own.map(({ id }) => findings.lanes.get(id) ?? 'untested')
    const isAlike = own.every(({ channel }, at) => channel === own[0]?.channel || states[at] === states[0])
    return states.includes('fail') && !isAlike
  })
  return guessed.length === 0
    ? []
    : [say('that the channels of {refs} may be the other way round, as the map guessed', { refs: joined(guessed) })]
}

function whatWasNotSummed(share: number): string[] {
  if (share < SAID_FROM) return []
  const most =
    share > 0.5
      ? say('how likely that is, is not bounded')
      : say('at most {share} of all', { share: percentAtMost(share) })
  return [say('several rare faults at once ({most})', { most })]
}

/** Of a part that lies in the tray it is said so first. */
const toldOff = (part: PartSuspicion, { offNow }: AtTheBench): PartSuspicion =>
  offNow.includes(part.ref) ? { ...part, why: [say('It is off already.'), ...part.why] } : part

function suspicions(
  weighed: WeighedCard,
  question: LiftQuestion,
  lift: ReadonlySet<number>,
  replaced: ReadonlySet<string>,
  washed: number,
): PartSuspicion[] {
  const grounds = groundsOf(weighed, question)
  const { card, prices } = weighed
  const list = card.parts.map((ref, index) => {
    const probability = question.probability[index] ?? 0
    const costIfLifted = question.liftCost[index] ?? 0
    const isListed = lift.has(index)
    const part = card.context.model.partByRef.get(ref)
    const price = part === undefined ? 0 : priceOf(part, prices.book)
    const remedy = remedyOf({ grounds, ref, index, lift: isListed, isNew: replaced.has(ref), price })
    const wrong = splitOf(grounds, ref, index)
    const comesOff = Math.max(0, probability - wrong.beneath * washed)
    const { why, whyReached } = reasonsFor(grounds, ref, index, { lift: isListed, comesOff })
    return {
      ref,
      probability,
      comesOff,
      lift: isListed,
      costIfLifted,
      wrong,
      costIfLeft: probability * (question.comebackCost + costIfLifted),
      remedy,
      why: remedy.action === 'leave' ? why : [remedy.because, ...why],
      whyReached: remedy.action === 'wash' ? [remedy.because, ...whyReached] : whyReached,
    }
  })
  return list.toSorted((a, b) => b.probability - a.probability)
}

function tell(weighed: WeighedCard, story: RawStory, reachedBy: (variable: number) => readonly string[]): Story {
  const causes = story.causes.map((at, index) => {
    const isSpill = at.kind === 'spill' || at.kind === 'unreported-spill'
    const variable = story.labels[index]?.variable
    return isSpill && variable !== undefined ? { ...at, refs: reachedBy(variable) } : at
  })
  const anythingBad = weighed.card.frame.groups.some(({ told }) => told)
  return { causes, probability: story.probability, sentence: storySentence(causes, anythingBad) }
}

/** By variable of a spill: the packages whose lanes it more likely than not touches, and the core where its end is. */
function refsReached({ posterior, card }: WeighedCard, variable: number): string[] {
  const { states = [] } = posterior.variables[variable] ?? {}
  const masses = posterior.states[variable]
  let whole = 0
  let core = 0
  const touched = new Float64Array(posterior.groups.length)
  for (const [state, { patterns }] of states.entries()) {
    const mass = masses?.[state] ?? 0
    if (mass <= 0) continue
    let any = false
    let atCore = false
    for (let group = 0; group < patterns.length; group++) {
      const number = patterns[group] ?? 0
      const sum = posterior.groups[group]
      if (number === 0 || sum === undefined) continue
      any ||= sum.group.told
      if (sum.book.touches(number, 'memory')) touched[group] = (touched[group] ?? 0) + mass
      atCore ||= sum.book.touches(number, 'core')
    }
    if (any) whole += mass
    if (atCore) core += mass
  }
  const coreRef = card.context.model.core?.ref
  return [
    ...(coreRef !== undefined && core > whole / 2 ? [coreRef] : []),
    ...card.frame.groups.flatMap(({ part }, group) =>
      part !== undefined && (touched[group] ?? 0) > whole / 2 ? [part] : [],
    ),
  ]
}

/** Where a reported spill was; an unreported one only where none was reported and one is likely. */
function whereItWas(weighed: WeighedCard): SuspectsResult['spill'] {
  const { posterior, spills, spillNumbers, unreportedNumber, sides } = weighed
  if (spills.length > 0) {
    const located = spills.map(({ hypotheses }, at): LocatedSpill => {
      const masses = hypothesisMasses(posterior, spillNumbers[at] ?? -1, 0, hypotheses.groups.length)
      return { hypotheses, masses }
    })
    return whereTheSpillWas(located, touching(weighed, spillNumbers))
  }
  const probability = touching(weighed, [unreportedNumber])
  if (probability < PLACED_FROM) return undefined
  let offset = 0
  const located = sides.map((hypotheses): LocatedSpill => {
    const masses = hypothesisMasses(posterior, unreportedNumber, offset, hypotheses.groups.length)
    offset += hypotheses.groups.length
    return { hypotheses, masses }
  })
  return whereTheSpillWas(located, probability)
}

/** Probability that one of these spills touches something that fails or was seen to be dirty. */
function touching({ posterior }: WeighedCard, variables: readonly number[]): number {
  let none = 1
  for (const variable of variables) {
    let touches = 0
    for (const [state, { patterns }] of (posterior.variables[variable]?.states ?? []).entries()) {
      if (patterns.some((pattern) => pattern !== 0)) touches += posterior.states[variable]?.[state] ?? 0
    }
    none *= 1 - Math.min(1, touches)
  }
  return 1 - none
}
