/** One card made ready for the sum: what stands while a spill is dragged, and the spill that moves. */
import type { BoardModel } from '../../board/index.ts'
import type { SpillHypotheses, SpillMark } from '../../spill/index.ts'
import type { Assumptions } from '../assumptions.ts'
import { type CoreForm, coreVariable } from '../causes/core.ts'
import { type CauseContext, liftableParts } from '../causes/context.ts'
import { ownCauses } from '../causes/own.ts'
import { marginShares, powerVariables } from '../causes/power.ts'
import { pairShares } from './margins.ts'
import { stackVariables } from '../causes/stacks.ts'
import { slipVariable } from '../causes/slip.ts'
import { type Harm, reportedSpill, spillItems, type UnreportedStates, unreportedSpill } from '../causes/spills.ts'
import type { Asked } from '../checks/asked.ts'
import type { ListedVariable, SpillItems, SpillVariable } from '../network/cause.ts'
import { observe } from '../network/observations.ts'
import type { Findings } from '../result.ts'
import { createScratch } from './effect.ts'
import { groupSum } from './evaluate.ts'
import { type Frame, frameOf } from './frame.ts'
import { ownSum, weighOwn } from './own-sum.ts'
import type { Posterior } from './posterior.ts'
import { createSpillMerger, type ReducedVariable, reduceListed, type SpillMerger } from './states.ts'
import { rareWays, type RareWays } from './rare-ways.ts'
import { total, type TotalInput } from './total.ts'
import { createValues, type GroupValues } from './values.ts'

export interface ReportedSpill {
  readonly mark: SpillMark
  readonly hypotheses: SpillHypotheses
  /** What kind of harm its substance does; a liquid's where left out. */
  readonly harm?: Harm | undefined
}

export interface CardInput {
  readonly model: BoardModel
  readonly assumptions: Assumptions
  readonly findings: Findings
  readonly coreForms: readonly CoreForm[]
  readonly unreported: UnreportedStates | undefined
  readonly spills: readonly ReportedSpill[]
  readonly asked?: Asked
}

/** Ways that are kept for words and lift list. */
const MOST_KEPT = 400

/** Everything about a card but the last of its spills, which may move. */
export interface Card {
  readonly context: CauseContext
  readonly frame: Frame
  readonly parts: readonly string[]
  readonly values: GroupValues
  /** Variables as they were before their states were reduced, in the order of `Posterior.variables`. */
  readonly variablesOf: (spills: readonly ReportedSpill[]) => readonly (ListedVariable | SpillVariable)[]
  /** The posterior with the last spill where it is now. */
  readonly judge: (spills: readonly ReportedSpill[], mostKept?: number) => CardPosterior
}

export interface CardPosterior {
  readonly posterior: Posterior
  /** Number of each reported spill's variable, in the order of the marks, and of the unreported one (or -1). */
  readonly spillNumbers: readonly number[]
  readonly unreportedNumber: number
}

/**
 * Observes, divides and reduces once; `judge` then moves only the reported spills. It takes as many spills as the
 * card was made with, in the same order.
 */
export function createCard(input: CardInput): Card {
  const { model, assumptions, findings } = input
  const parts = liftableParts(model)
  const indexOf = new Map(parts.map((ref, index) => [ref, index]))
  const observed = observe(model, findings, assumptions, input.asked)
  const context: CauseContext = { model, assumptions, observed, partIndex: (ref) => indexOf.get(ref) ?? -1 }
  const margins = pairShares(marginShares(assumptions))
  const own = ownCauses(context)
  const packages = model.memories.map(({ ref }) => ref)
  const { signatures } = findings
  const anySpill = input.spills.length > 0 || input.unreported !== undefined
  const frame = frameOf({ observed, own, packages, signatures, assumptions, margins, spills: anySpill })
  const scratch = createScratch(frame)
  const weighed = own.map((cause) => weighOwn(frame, cause))
  const groups = scratch.books.flatMap((book, at) => {
    const group = frame.groups[at]
    if (group === undefined) return []
    const mine = weighed.filter(({ cause }) => group.part !== undefined && cause.part === group.part)
    return [groupSum(frame, group, ownSum(frame, group, mine), book)]
  })
  const idle = weighed.filter(({ bits }) => bits.length === 0)
  const values = createValues(groups)
  const itemsFor = rememberedItems(context)
  const unreported =
    input.unreported === undefined
      ? undefined
      : unreportedSpill(context, itemsFor('liquid'), input.unreported, timesUnreported(input))
  const written = [
    ...powerVariables(context),
    ...coreVariable(context, input.coreForms),
    ...stackVariables(context),
    ...findings.slips.map((slip) => slipVariable(context, slip)),
  ]
  const listed = written.map((variable) => reduceListed(scratch, variable))
  const hidden = unreported === undefined ? [] : [createSpillMerger(frame, scratch, unreported)(unreported)]
  const spillsOf = (spills: readonly ReportedSpill[]): SpillVariable[] =>
    spills.map(({ mark, hypotheses, harm = 'liquid' }) => reportedSpill(context, itemsFor(harm), mark, hypotheses))
  const mergers: SpillMerger[] = spillsOf(input.spills).map((spill) => createSpillMerger(frame, scratch, spill))
  const standing: ReducedVariable[] = [...listed, ...hidden]
  let rare: RareWays | undefined
  const judge = (spills: readonly ReportedSpill[], mostKept = MOST_KEPT): CardPosterior => {
    const reported = spillsOf(spills).flatMap((spill, at) => mergers[at]?.(spill) ?? [])
    const variables = [...standing, ...reported]
    const totalInput: TotalInput = { variables, books: scratch.books, margins, groups, idle, values }
    rare ??= rareWays(totalInput)
    return {
      posterior: total(totalInput, rare, mostKept),
      spillNumbers: reported.map((_, at) => standing.length + at),
      unreportedNumber: hidden.length > 0 ? listed.length : -1,
    }
  }
  const variablesOf: Card['variablesOf'] = (spills) => [
    ...written,
    ...(unreported === undefined ? [] : [unreported]),
    ...spillsOf(spills),
  ]
  return { context, frame, parts, values, variablesOf, judge }
}

function rememberedItems(context: CauseContext): (harm: Harm) => SpillItems {
  const kept = new Map<Harm, SpillItems>()
  return (harm) => {
    const items = kept.get(harm) ?? spillItems(context, harm)
    kept.set(harm, items)
    return items
  }
}

/** How many times the prior of an unreported spill counts, by what the owner says and by what was reported. */
function timesUnreported({ findings, spills, assumptions }: CardInput): number {
  const says = findings.told === 'no-accident' ? assumptions.told.noAccident : 1
  return spills.length > 0 ? says * assumptions.told.reported : says
}
