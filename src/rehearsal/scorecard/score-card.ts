/** One card's score: what the program said about it beside what was true, and what either cost. */
import { good, type Result } from '../../base/index.ts'
import type { SuspectsResult } from '../../suspects/index.ts'
import { type RemedyScore, scoreRemedies } from './remedies/score.ts'
import { tallyOfCard } from '../simulator/read-card.ts'
import type { SimulatedCard } from '../simulator/types.ts'
import { type Asker, evidenceOfTally, type Known } from './ask.ts'
import { isTrueStory, liftsTheSame, trueStories } from './matching.ts'
import { byChance, inFixedOrder, withoutChecks } from './other-orders.ts'
import { costOfKnowing, costOfList, plainLists, pricesOf } from './rules.ts'
import { type Proposer, type StepsScore, workInSteps } from './technician.ts'

/** Probability said and whether it was so. */
export type Said = readonly [probability: number, was: 0 | 1]

export interface VariantScore {
  readonly liftmap: number
  readonly core: Said
}

export interface CardScore {
  readonly seed: number
  readonly board: string
  readonly layout: string
  /** Kind of the first thing that happened; `two` where there were two. */
  readonly kind: string
  readonly kinds: readonly string[]
  readonly substance: string | undefined
  /** What was broken: `die U13: U13.A0 U13.A1`. */
  readonly broken: readonly string[]
  readonly told: string
  /** Packages that the report names. */
  readonly failing: readonly string[]
  readonly needs: readonly string[]
  readonly list: readonly string[]
  readonly stories: readonly { readonly causes: readonly string[]; readonly probability: number }[]
  readonly remainder: number
  readonly first: boolean
  readonly firstThree: boolean
  readonly firstByPart: boolean
  readonly firstThreeByPart: boolean
  readonly missed: number
  readonly needless: number
  readonly cost: {
    readonly liftmap: number
    readonly named: number
    readonly namedAndCore: number
    readonly ring: number
    readonly allKnowing: number
    /** The same by the book of a technician in steps, who also pays for what is no part and for the run that proves. */
    readonly allKnowingInSteps: number
    readonly steps?: number
  }
  readonly core: Said
  readonly failingSaid: readonly Said[]
  readonly allSaid: readonly Said[]
  /** Probability of each part that is at all in doubt. */
  readonly parts: Readonly<Record<string, number>>
  /** Of a spill that was reported: how far the place said, and the mark, lie from the true one; spread that was said. */
  readonly place: { readonly errorMm: number; readonly markMm: number; readonly sdMm: number } | undefined
  readonly milliseconds: number
  /** A technician who did what was proposed. */
  readonly steps?: StepsScore
  /** The list after the checks that came before the first decision; their minutes are not in its cost. */
  readonly checked?: VariantScore
  /** Costs of the same technician with other checks, where that was asked for. */
  readonly otherOrders?: {
    readonly random: number
    readonly fixed: number
    readonly noChecks: number
    readonly steps: number
  }
  /** The same card by somebody who follows each proposal, remedy by remedy, where that was asked for. */
  readonly remedies?: RemedyScore
  /** The same card judged with less, where that was asked for. */
  readonly without?: { readonly looks: VariantScore; readonly readings: VariantScore; readonly both: VariantScore }
}

export interface ScoreWish {
  /** Milliseconds of processor time from any start: for measuring only. */
  readonly now: () => number
  /** Judge also without looks and without readings. */
  readonly variants: boolean
  /** Let a technician work on it in steps; with `orders` also by other choices of checks. */
  readonly steps: boolean
  readonly orders: boolean
  /** Follow the proposals, remedy by remedy. */
  readonly remedies: boolean
}

/**
 * Reads the card's report and scores what is asked for in `wish`. Times are in ms by the clock handed in. Refuses a
 * card whose report can not be read.
 */
export async function scoreCard(card: SimulatedCard, asker: Asker, wish: ScoreWish): Promise<Result<CardScore>> {
  const tally = await tallyOfCard(card)
  if (!tally.ok) return tally
  const known = knownOf(card, evidenceOfTally(card.model, tally.value))
  const from = wish.now()
  const result = asker.ask(known)
  const milliseconds = wish.now() - from
  const base = { ...scoreOf(card, known, result), milliseconds }
  const followed = wish.remedies ? { ...base, remedies: scoreRemedies(card, asker, known) } : base
  const judged = wish.variants ? { ...followed, without: withLess(card, asker, known) } : followed
  if (!wish.steps) return good(judged)
  const work = (proposer: Proposer): StepsScore =>
    workInSteps(card, known, proposer, pricesOf(card.model), asker.proposeWithoutChecks)
  const watched = watchDecision(asker.propose)
  const steps = work(watched.propose)
  const checked = afterChecks(card, asker, watched.decision() ?? known)
  const walked = { ...judged, steps, checked, cost: { ...base.cost, steps: steps.cost } }
  if (!wish.orders) return good(walked)
  const otherOrders = {
    random: work(byChance(asker, card)).cost,
    fixed: work(inFixedOrder(asker)).cost,
    noChecks: work(withoutChecks(asker)).cost,
    steps: steps.cost,
  }
  return good({ ...walked, otherOrders })
}

/** What stands on the sheet before anything was asked. */
export function knownOf({ observations }: SimulatedCard, evidence: Pick<Known, 'lanes' | 'signatures'>): Known {
  const { spills, slips, areas, measurements, told } = observations
  return { ...evidence, spills, slips, areas, measurements, told, checks: [], rounds: [] }
}

function scoreOf(card: SimulatedCard, known: Known, result: SuspectsResult): Omit<CardScore, 'milliseconds'> {
  const { model, truth, observations, seed } = card
  const { needs, causes } = truth
  const prices = pricesOf(model)
  const plain = plainLists(model, known.lanes)
  const truths = trueStories(model, truth)
  const right = result.stories.map((story) => isTrueStory(model, story, truths))
  const rightParts = result.stories.map((story) => liftsTheSame(story, needs))
  const said = (ref: string): Said => [probabilityOf(result, ref), needs.includes(ref) ? 1 : 0]
  const core = model.core?.ref ?? ''
  const kinds = causes.map(({ kind }) => kind)
  return {
    seed,
    board: model.name,
    layout: observations.report.layout,
    kind: kinds.length > 1 ? 'two' : (kinds[0] ?? ''),
    kinds,
    substance: causes.find(({ spill }) => spill !== undefined)?.spill?.substance,
    broken: truth.damages.map(({ kind, at, lanes }) => `${kind} ${at}: ${lanes.map(({ lane }) => lane).join(' ')}`),
    told: observations.told,
    failing: plain.named,
    needs,
    list: result.lift,
    stories: result.stories.slice(0, 6).map(({ causes: told, probability }) => {
      return { causes: told.map(({ kind, at }) => `${kind} ${at}`), probability }
    }),
    remainder: result.remainder,
    first: right[0] ?? false,
    firstThree: right.slice(0, 3).includes(true),
    firstByPart: rightParts[0] ?? false,
    firstThreeByPart: rightParts.slice(0, 3).includes(true),
    missed: needs.filter((ref) => !result.lift.includes(ref)).length,
    needless: result.lift.filter((ref) => !needs.includes(ref)).length,
    cost: {
      liftmap: costOfList(prices, result.lift, needs),
      named: costOfList(prices, plain.named, needs),
      namedAndCore: costOfList(prices, plain.namedAndCore, needs),
      ring: costOfList(prices, plain.ring, needs),
      allKnowing: costOfList(prices, needs, needs),
      allKnowingInSteps: costOfKnowing(prices, truth),
    },
    core: said(core),
    failingSaid: plain.named.map(said),
    allSaid: result.parts.map(({ ref }) => said(ref)),
    parts: Object.fromEntries(
      result.parts.flatMap(({ ref, probability }) => (probability < IN_DOUBT ? [] : [[ref, rounded(probability)]])),
    ),
    place: placeOf(card, result),
  }
}

const probabilityOf = (result: SuspectsResult, ref: string): number =>
  rounded(result.parts.find((part) => part.ref === ref)?.probability ?? 0)

const IN_DOUBT = 0.001

const rounded = (value: number): number => Math.round(value * 1e5) / 1e5

function placeOf({ truth, observations }: SimulatedCard, result: SuspectsResult): CardScore['place'] {
  const spill = truth.causes.find((cause) => cause.spill !== undefined)?.spill
  const mark = observations.spills[0]
  if (spill === undefined || mark === undefined || result.spill === undefined) return undefined
  const from = ({ x, y }: { x: number; y: number }): number => Math.hypot(x - spill.at.x, y - spill.at.y)
  return { errorMm: from(result.spill.at), markMm: from(mark.at), sdMm: result.spill.sdMm }
}

/** Hears what was known when the first thing other than a check was decided. */
function watchDecision(propose: Proposer): { readonly propose: Proposer; readonly decision: () => Known | undefined } {
  let decided: Known | undefined
  return {
    propose: (known) => {
      const action = propose(known)
      if (action.kind !== 'check') decided ??= known
      return action
    },
    decision: () => decided,
  }
}

function afterChecks({ model, truth }: SimulatedCard, asker: Asker, decided: Known): VariantScore {
  const prices = pricesOf(model)
  const result = asker.ask({ ...decided, rounds: [] })
  const core = model.core?.ref ?? ''
  return {
    liftmap: costOfList(prices, result.lift, truth.needs),
    core: [probabilityOf(result, core), truth.needs.includes(core) ? 1 : 0],
  }
}

function withLess({ model, truth }: SimulatedCard, asker: Asker, known: Known): NonNullable<CardScore['without']> {
  const prices = pricesOf(model)
  const judged = (less: Partial<Known>): VariantScore => {
    const result = asker.ask({ ...known, ...less })
    const core = model.core?.ref ?? ''
    return {
      liftmap: costOfList(prices, result.lift, truth.needs),
      core: [probabilityOf(result, core), truth.needs.includes(core) ? 1 : 0],
    }
  }
  return {
    looks: judged({ areas: [] }),
    readings: judged({ measurements: [] }),
    both: judged({ areas: [], measurements: [] }),
  }
}
