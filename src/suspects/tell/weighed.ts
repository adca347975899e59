/** One card, weighed: what the words and the lift list are made from. */
import type { Assumptions } from '../assumptions.ts'
import type { CauseAt, Findings } from '../result.ts'
import type { Prices } from '../lift/costs.ts'
import type { LiftQuestion } from '../lift/lift-list.ts'
import { ownMarginals } from '../sum/own-marginals.ts'
import type { Card, CardPosterior, ReportedSpill } from '../sum/card.ts'
import { needGround, type NoneNeeds, noneNeeds } from '../sum/need.ts'

export interface Weighed extends CardPosterior {
  readonly findings: Findings
  readonly spills: readonly ReportedSpill[]
  readonly assumptions: Assumptions
  readonly prices: Prices
  readonly card: Card
}

/** Which parts of this card have to come off, as a question; the core's own ref stands for its end of every lane. */
export function needsOf({ card, posterior }: Pick<Weighed, 'card' | 'posterior'>): NoneNeeds {
  const { frame, parts, values, context } = card
  return noneNeeds(needGround({ frame, posterior, values, parts, core: context.model.core?.ref }))
}

/** Probability that each part needs lifting, and the joint probability that none of some does. */
export function liftQuestion(weighed: Weighed, liftCost: Float64Array, comebackCost: number): LiftQuestion {
  const none = needsOf(weighed)
  const probability = Float64Array.from(weighed.card.parts, (_, part) => Math.min(1, Math.max(0, 1 - none([part]))))
  return { probability, liftCost, comebackCost, noneNeeds: none }
}

/** One kind of reason why a part may need lifting, or why its lanes may fail. */
export interface Reason {
  readonly at: CauseAt
  readonly probability: number
}

/** By ref: what may be wrong at a memory package, likeliest first, and what has a part come off whatever fails. */
export interface Reasons {
  /** Own causes by package. */
  readonly own: ReadonlyMap<string, readonly (Reason & { readonly lifts: boolean })[]>
  /** Shared causes by label, with the part that they lift (or -1) and whether they touch each package. */
  readonly shared: readonly (Reason & { readonly lifts: readonly number[]; readonly touches: ReadonlySet<string> })[]
}

/**
 * For each part its own causes, and the shared causes by place with the parts that they would lift or touch, each
 * with its probability. A shared cause that touches nothing telling is left out.
 */
export function reasonsOf(weighed: Weighed): Reasons {
  const { posterior, card } = weighed
  const own = new Map<string, (Reason & { lifts: boolean })[]>()
  for (const { cause, probability } of [...ownMarginals(posterior, card.values), ...posterior.idle]) {
    own.set(cause.part, [...(own.get(cause.part) ?? []), { at: cause.at, probability, lifts: cause.lifts }])
  }
  const shared = posterior.variables.flatMap((variable, number) => {
    const states = posterior.states[number]
    const byLabel = variable.labels.map((at) => ({
      at,
      probability: 0,
      lifts: new Set<number>(),
      touches: new Map<string, number>(),
    }))
    for (const [state, { patterns, lifts }] of variable.states.entries()) {
      const mass = states?.[state] ?? 0
      if (mass <= 0) continue
      const touched = card.frame.groups.filter((_, group) => (patterns[group] ?? 0) !== 0)
      if (!touched.some(({ told }) => told)) continue
      for (const [label, entry] of byLabel.entries()) {
        const share = mass * variable.labelShare(state, label)
        if (share <= 0) continue
        entry.probability += share
        if (lifts >= 0) entry.lifts.add(lifts)
        for (const { part } of touched)
          if (part !== undefined) entry.touches.set(part, (entry.touches.get(part) ?? 0) + share)
      }
    }
    return byLabel.map(({ at, probability, lifts, touches }) => ({
      at,
      probability,
      lifts: [...lifts],
      touches: new Set([...touches].filter(([, mass]) => mass > probability / 4).map(([part]) => part)),
    }))
  })
  return { own, shared }
}
