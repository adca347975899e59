/**
 * Rails, their branches and their stages as variables: sound, or off with a severity. How many lanes of a package fail
 * then depends on its margin: a weak rail spares those that have more of it.
 */
import type { BoardModel, Rail } from '../../board/index.ts'
import { type Assumptions, MARGINS, SEVERITIES, type Severity } from '../assumptions.ts'
import { checkTouches } from '../checks/check-scope.ts'
import type { ListedVariable, SharedState, SharedTouch } from '../network/cause.ts'
import { NEVER, stagesOfRails } from '../network/observations.ts'
import { type CauseContext, lasting, laneTouches, toLift } from './context.ts'

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
  const q = coreAlone ? figures[`core-fed-${severity}`] : figures[`${severity}-usual`]
  const byMargin = MARGINS.map((margin) => figures[`${severity}-${margin}`])
  return laneTouches(context, lanes, q).map((touch) => ({
    ...touch,
    ...(coreAlone ? {} : { byMargin }),
    end: 'other',
    rightFrom,
  }))
}

function readingTouch({ observed }: CauseContext, rail: string, q: number): SharedTouch[] {
  const finding = observed.rail.get(rail)
  return finding === undefined ? [] : [lasting({ finding, q })]
}

export function stageReading({ observed }: CauseContext, refs: readonly string[], q: number): SharedTouch[] {
  return refs.flatMap((ref) => {
    const finding = observed.stage.get(ref)
    return finding === undefined ? [] : [lasting({ finding, q })]
  })
}

function railVariables(context: CauseContext, rail: Rail): ListedVariable[] {
  const { observed, assumptions } = context
  const { prior, evidence, severity: figures } = assumptions
  const shares = severityShares(assumptions, 'rail')
  const rightFrom = observed.rightFrom(`rail ${rail.name}`)
  const whole = shares.map(([severity, share]): SharedState => {
    const met = { kind: 'rail', rails: [rail.name], parts: rail.feeds } as const
    return {
      weight: prior.rail * share,
      at: { kind: 'rail', at: `rail ${rail.name}`, refs: rail.stages },
      touches: [
        ...supplyTouches(context, rail.feeds, severity, rightFrom),
        ...readingTouch(context, rail.name, figures[`reads-${severity}`]),
        ...stageReading(context, [...new Set(rail.stages)], evidence.stageBadIfRail),
        ...checkTouches(observed.checks, met).map(lasting),
      ],
      lifts: -1,
    }
  })
  const branches = rail.branches.map(({ name, feeds }) =>
    shares.map(([severity, share]): SharedState => {
      const met = { kind: 'rail-branch', rails: [rail.name], parts: feeds } as const
      return {
        weight: prior['rail-branch'] * share,
        at: { kind: 'rail-branch', at: `branch ${name} of rail ${rail.name}`, refs: feeds },
        touches: [
          ...supplyTouches(context, feeds, severity, rightFrom),
          ...readingTouch(context, rail.name, figures[`reads-${severity}`] * evidence.railBadIfBranch),
          ...checkTouches(observed.checks, met).map(lasting),
        ],
        lifts: -1,
      }
    }),
  )
  return [
    { kind: 'power', isOpen: rightFrom === NEVER, absent: 1 - prior.rail, states: whole },
    ...branches.map(
      (states): ListedVariable => ({
        kind: 'power',
        isOpen: rightFrom === NEVER,
        absent: 1 - prior['rail-branch'],
        states,
      }),
    ),
  ]
}

/** What a stage that is off does through every rail that it makes, with the strongest figure where rails overlap. */
export function stageTouches(context: CauseContext, ref: string, severity: Severity): SharedTouch[] {
  const { model, assumptions, observed } = context
  const rails = model.rails.filter((rail) => rail.stages.includes(ref))
  const rightFrom = observed.rightFrom(ref)
  const strongest = new Map<number, SharedTouch>()
  for (const rail of rails) {
    for (const touch of supplyTouches(context, rail.feeds, severity, rightFrom)) {
      const before = strongest.get(touch.finding)
      if (before === undefined || touch.q > before.q) strongest.set(touch.finding, touch)
    }
  }
  const readings = rails.flatMap(({ name }) => readingTouch(context, name, assumptions.severity[`reads-${severity}`]))
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
  const states = severityShares(assumptions, alone ? 'rail' : 'stage').map(
    ([severity, share]): SharedState => ({
      weight: assumptions.prior['power-stage'] * share,
      at: { kind: 'power-stage', at: ref, refs: [ref] },
      touches: [
        ...stageTouches(context, ref, severity),
        ...stageReading(context, [ref], assumptions.evidence.stageBadIfStage),
        ...checkTouches(observed.checks, met).map(lasting),
      ],
      lifts: toLift(context, ref),
    }),
  )
  return { kind: 'power', isOpen: false, absent: 1 - assumptions.prior['power-stage'], states }
}
