/**
 * Rails, their branches and their stages as variables: sound, or off with a severity. How many lanes of a package fail
 * then depends on its margin: a weak rail spares those that have more of it.
 */
import type { BoardModel, Rail } from '../../board/index.ts'
import { type Assumptions, MARGINS, SEVERITIES, type Severity } from '../assumptions.ts'
import { checkTouches } from '../checks/check-scope.ts'
import type { ListedVariable, MarginOf, SharedState, SharedTouch } from '../network/cause.ts'
import { NEVER, stagesOfRails } from '../network/observations.ts'
import { uncuredBy } from '../remedies/figures.ts'
import { type CauseContext, lasting, laneTouches, type Version, versionsOf } from './context.ts'

/**
 * One variable for each rail and one for each stage, in the board's order; a stage that several rails name comes
 * once.
 */
export const powerVariables = (context: CauseContext): ListedVariable[] => [
  ...context.model.rails.flatMap((rail) => railVariables(context, rail)),
  ...[...stagesOfRails(context.model)].map((ref) => stageVariable(context, ref)),
]

/** How likely each margin of a memory package is, thin first; sums to one. */
export function marginShares({ severity }: Assumptions): number[] {
  const shares = MARGINS.map((margin) => severity[`margin-${margin}`])
  const total = shares.reduce((sum, share) => sum + share, 0)
  return shares.map((share) => (total > 0 ? share / total : 1 / shares.length))
}

/** How likely each severity is, once the rail or stage is off; sums to one. */
export function severityShares({ severity }: Assumptions, of: 'rail' | 'stage'): [Severity, number][] {
  const total = SEVERITIES.reduce((sum, each) => sum + severity[`${of}-${each}`], 0)
  return SEVERITIES.map((each) => [each, total > 0 ? severity[`${of}-${each}`] / total : 1 / SEVERITIES.length])
}

/**
 * Lanes of the memory that a list of parts holds; where it holds no memory but the core, every lane that runs to it.
 * @returns the lanes, and whether it is the core alone that is fed
 */
function lanesFed(model: BoardModel, feeds: readonly string[]): { lanes: string[]; coreAlone: boolean } {
  const fed = new Set(feeds)
  const lanes = model.lanes.filter((lane) => fed.has(lane.part)).map((lane) => lane.id)
  if (lanes.length > 0 || model.core === undefined || !fed.has(model.core.ref)) return { lanes, coreAlone: false }
  return { lanes: model.lanes.map((lane) => lane.id), coreAlone: true }
}

/** What a supply that is off does to the lanes that it feeds. */
export function supplyTouches(
  context: CauseContext,
  feeds: readonly string[],
  severity: Severity,
  rightFrom: number,
): SharedTouch[] {
  const figures = context.assumptions.severity
  const { lanes, coreAlone } = lanesFed(context.model, feeds)
  if (coreAlone) return throughTheCore(context, lanes, figures[`core-fed-${severity}`], rightFrom)
  const byMargin = MARGINS.map((margin) => figures[`${severity}-${margin}`])
  return laneTouches(context, lanes, figures[`${severity}-usual`]).map((touch) => ({
    ...touch,
    byMargin,
    end: 'other',
    rightFrom,
  }))
}

/** Up to so many channels of a package each meet the core with a margin of their own; of more, as a stack has, each lane fails by itself. */
const WITH_MARGINS = 2

/**
 * What feeds the core alone starves the controllers: the lanes of one channel meet it side by side and fail together.
 * @param mean how surely a lane fails where nothing is known of its margin
 */
function throughTheCore(
  context: CauseContext,
  lanes: readonly string[],
  mean: number,
  rightFrom: number,
): SharedTouch[] {
  const { model, assumptions } = context
  const byMargin = thinnestFirst(mean, marginShares(assumptions))
  const channels = new Map<string, string[]>()
  for (const { part, channel } of model.lanes) {
    const known = channels.get(part) ?? []
    if (!known.includes(channel)) channels.set(part, [...known, channel])
  }
  const placeOf = (lane: string): Place => {
    const { part = '', channel = '' } = model.laneById.get(lane) ?? {}
    const of = channels.get(part) ?? []
    if (of.length > WITH_MARGINS) return 'alone'
    return of.indexOf(channel) === 0 ? 'first' : 'second'
  }
  const at = (place: Place, margins: Pick<SharedTouch, 'byMargin' | 'marginOf'>): SharedTouch[] =>
    laneTouches(
      context,
      lanes.filter((lane) => placeOf(lane) === place),
      mean,
    ).map((touch) => ({ ...touch, ...margins, end: 'other', rightFrom }))
  return [...at('first', { byMargin }), ...at('second', { byMargin, marginOf: 'second' }), ...at('alone', {})]
}

type Place = MarginOf | 'alone'

/** Of faults of what feeds the core alone: the card seldom starts with them, and then no memory test tells of them. */
const STILL_STARTS = 1 / 3

const ranAll = ({ model }: CauseContext, feeds: readonly string[]): number =>
  lanesFed(model, feeds).coreAlone ? STILL_STARTS : 1

/** A lane whose margin is used up fails nearly always. */
const USED_UP = 0.95

/** By margin, with that mean: as sure as can be from the thinnest on. */
function thinnestFirst(mean: number, shares: readonly number[]): number[] {
  let left = mean
  return shares.map((share) => {
    const q = share > 0 ? Math.min(Math.max(USED_UP, mean), left / share) : 0
    left -= q * share
    return q
  })
}

/** How surely a supply that is so badly off gives the very reading that was taken: off its range, or short. */
const readingOf = ({ observed, assumptions: { severity } }: CauseContext, rail: string, how: Severity): number =>
  observed.isShort(rail) ? severity[`shorts-${how}`] : severity[`reads-${how}`]

function readingTouch({ observed }: CauseContext, rail: string, q: number): SharedTouch[] {
  const finding = observed.rail.get(rail)
  return finding === undefined ? [] : [lasting({ finding, q })]
}

/** The readings of these stages that were taken, each touched with q; a stage that nobody measured gives none. */
export function stageReading({ observed }: CauseContext, refs: readonly string[], q: number): SharedTouch[] {
  return refs.flatMap((ref) => {
    const finding = observed.stage.get(ref)
    return finding === undefined ? [] : [lasting({ finding, q })]
  })
}

/** The rail and its branches, each as often as it may have fared differently in what was put right. */
const railVariables = (context: CauseContext, rail: Rail): ListedVariable[] =>
  versionsOf(context.observed.rightBefore(`rail ${rail.name}`), uncuredBy(context.assumptions).beside).flatMap(
    (version) => [
      railVariable(context, rail, version),
      ...rail.branches.map((branch) => branchVariable(context, rail, branch, version)),
    ],
  )

function railVariable(context: CauseContext, rail: Rail, { share: of, rightFrom }: Version): ListedVariable {
  const { observed, assumptions } = context
  const { prior, evidence } = assumptions
  const own = prior.rail * of * ranAll(context, rail.feeds)
  const met = { kind: 'rail', rails: [rail.name], parts: rail.feeds } as const
  const states = severityShares(assumptions, 'rail').map(
    ([severity, share]): SharedState => ({
      weight: own * share,
      at: { kind: 'rail', at: `rail ${rail.name}`, refs: rail.stages },
      touches: [
        ...supplyTouches(context, rail.feeds, severity, rightFrom),
        ...readingTouch(context, rail.name, readingOf(context, rail.name, severity)),
        ...stageReading(context, [...new Set(rail.stages)], evidence.stageBadIfRail),
        ...checkTouches(observed.checks, met).map(lasting),
      ],
      lifts: -1,
    }),
  )
  return { kind: 'power', isOpen: rightFrom === NEVER, absent: 1 - own, states }
}

function branchVariable(
  context: CauseContext,
  rail: Rail,
  { name, feeds }: Rail['branches'][number],
  { share: of, rightFrom }: Version,
): ListedVariable {
  const { observed, assumptions } = context
  const { evidence } = assumptions
  const prior = assumptions.prior['rail-branch'] * of
  const met = { kind: 'rail-branch', rails: [rail.name], parts: feeds } as const
  const states = severityShares(assumptions, 'rail').map(
    ([severity, share]): SharedState => ({
      weight: prior * share,
      at: { kind: 'rail-branch', at: `branch ${name} of rail ${rail.name}`, refs: feeds },
      touches: [
        ...supplyTouches(context, feeds, severity, rightFrom),
        ...readingTouch(context, rail.name, readingOf(context, rail.name, severity) * evidence.railBadIfBranch),
        ...checkTouches(observed.checks, met).map(lasting),
      ],
      lifts: -1,
    }),
  )
  return { kind: 'power', isOpen: rightFrom === NEVER, absent: 1 - prior, states }
}

/**
 * What a stage that is off does through every rail that it makes, with the strongest figure where rails overlap.
 * @param rightFrom the run from which on the stage is put right
 */
export function stageTouches(
  context: CauseContext,
  ref: string,
  severity: Severity,
  rightFrom = context.observed.rightFrom(ref),
): SharedTouch[] {
  const { model } = context
  const rails = model.rails.filter((rail) => rail.stages.includes(ref))
  const strongest = new Map<number, SharedTouch>()
  for (const rail of rails) {
    for (const touch of supplyTouches(context, rail.feeds, severity, rightFrom)) {
      const before = strongest.get(touch.finding)
      if (before === undefined || touch.q > before.q) strongest.set(touch.finding, touch)
    }
  }
  const readings = rails.flatMap(({ name }) => readingTouch(context, name, readingOf(context, name, severity)))
  return [...strongest.values(), ...readings]
}

function stageVariable(context: CauseContext, ref: string): ListedVariable {
  const { model, assumptions, observed } = context
  const rails = model.rails.filter((rail) => rail.stages.includes(ref))
  const alone = rails.some(({ stages }) => stages.length === 1)
  const met = {
    kind: 'power-stage',
    rails: rails.map(({ name }) => name),
    parts: [ref, ...rails.flatMap(({ feeds }) => feeds)],
  } as const
  const versions = versionsOf(observed.rightBefore(ref), uncuredBy(assumptions).die)
  const ran = Math.max(...rails.map(({ feeds }) => ranAll(context, feeds)))
  const prior = assumptions.prior['power-stage'] * shareFelt(rails) * ran
  const states = severityShares(assumptions, alone ? 'rail' : 'stage').flatMap(([severity, share]) =>
    versions.map(
      ({ share: of, rightFrom }): SharedState => ({
        weight: prior * share * of,
        at: { kind: 'power-stage', at: ref, refs: [ref] },
        touches: [
          ...stageTouches(context, ref, severity, rightFrom),
          ...stageReading(context, [ref], assumptions.evidence.stageBadIfStage),
          ...checkTouches(observed.checks, met).map(lasting),
        ],
        lifts: rightFrom === NEVER ? context.partIndex(ref) : -1,
      }),
    ),
  )
  return { kind: 'power', isOpen: false, absent: 1 - prior, states }
}

/** Stages that one rail can lose without its being felt hang on how many there are: beyond so many they share their chance. */
const FELT_TOGETHER = 2

/** Of many stages side by side the others carry on, so that a dozen of them is felt about as seldom as two. */
const shareFelt = (rails: readonly Rail[]): number =>
  Math.min(1, ...rails.map(({ stages }) => FELT_TOGETHER / stages.length))
