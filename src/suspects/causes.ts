/** The causes that a board can have at fixed places: dies, joints, corridors, rails, branches, stages, the core, slips. */
import { distanceToSegment } from '../base/index.ts'
import type { BoardModel, Corridor, PlacedPart, Rail } from '../board/index.ts'
import type { SlipMark } from '../spill/index.ts'
import type { Assumptions } from './assumptions.ts'
import { type CausePlace, checkTouches } from './check-scope.ts'
import { type Evidence, stagesOfRails } from './evidence.ts'
import type { PointCause, Touch } from './network.ts'
import { gapMm, placeWords } from './places.ts'
import type { CauseKind } from './result.ts'

export interface CauseContext {
  readonly model: BoardModel
  readonly assumptions: Assumptions
  readonly evidence: Evidence
  /** Index of a part that can come off, or -1. */
  readonly partIndex: (ref: string) => number
}

/** Parts that can come off: memory, the core, and what makes the rails. */
export function liftableParts(model: BoardModel): string[] {
  const stages = model.rails.flatMap((rail) => rail.stages).filter((ref) => model.partByRef.has(ref))
  const kinds = model.parts.filter((part) => part.kind === 'power-stage').map((part) => part.ref)
  const core = model.core === undefined ? [] : [model.core.ref]
  return [...new Set([...core, ...model.memories.map((part) => part.ref), ...stages, ...kinds])]
}

/** All point causes of the board and of the slips that were marked, also those that nothing observed speaks of. */
export function pointCauses(context: CauseContext, slips: readonly SlipMark[]): PointCause[] {
  return [
    ...context.model.memories.flatMap((part) => memoryCauses(context, part)),
    ...context.model.corridors.map((corridor) => corridorCause(context, corridor)),
    ...context.model.rails.flatMap((rail) => railCauses(context, rail)),
    ...stageCauses(context),
    ...coreCause(context),
    ...slips.map((slip) => slipCause(context, slip)),
  ]
}

interface Wording {
  readonly kind: CauseKind
  readonly at: string
  readonly refs: readonly string[]
  /** Refs that must come off. */
  readonly lifts: readonly string[]
  /** Where a check can meet it. */
  readonly met: Omit<CausePlace, 'kind'>
}

/** @param share of the kind's prior, where several causes divide it among them */
function causeOf(context: CauseContext, wording: Wording, touches: readonly Touch[], share = 1): PointCause {
  return {
    kind: wording.kind,
    at: { kind: wording.kind, at: wording.at, refs: wording.refs },
    prior: context.assumptions.prior[wording.kind] * share,
    touches: [...touches, ...checkTouches(context.evidence.checkFindings, { kind: wording.kind, ...wording.met })],
    lifts: wording.lifts.map(context.partIndex).filter((index) => index >= 0),
  }
}

/** Touches of tested lanes, each with the same q. */
export function laneTouches(evidence: Evidence, lanes: Iterable<string>, q: number): Touch[] {
  const touches: Touch[] = []
  for (const lane of new Set(lanes)) {
    const finding = evidence.laneFinding.get(lane)
    if (finding !== undefined) touches.push({ finding, q })
  }
  return touches
}

function railTouch(evidence: Evidence, rail: string, q: number): Touch[] {
  const finding = evidence.railFinding.get(rail)
  return finding === undefined ? [] : [{ finding, q }]
}

function stageTouches(evidence: Evidence, refs: readonly string[], q: number): Touch[] {
  return refs.flatMap((ref) => {
    const finding = evidence.stageFinding.get(ref)
    return finding === undefined ? [] : [{ finding, q }]
  })
}

const lanesOfPart = (model: BoardModel, ref: string): string[] =>
  model.lanes.filter((lane) => lane.part === ref).map((lane) => lane.id)

function memoryCauses(context: CauseContext, part: PlacedPart): PointCause[] {
  const { model, assumptions, evidence } = context
  const about = { refs: [part.ref], lifts: [part.ref] }
  const lanes = lanesOfPart(model, part.ref)
  const die = causeOf(
    context,
    { kind: 'die', at: part.ref, ...about, met: { parts: [part.ref], lanes } },
    laneTouches(evidence, lanes, assumptions.fails.die),
  )
  const regions = model.regions.filter((region) => region.part === part.ref && region.lanes.length > 0)
  const commandMm2 = regions.reduce((sum, { role, areaMm2 }) => sum + (role === 'command' ? areaMm2 : 0), 0)
  const joints = regions.map((region) => {
    const kind = region.role === 'command' ? 'command-joints' : 'joints'
    const q = region.role === 'power' ? assumptions.fails['power-region'] : assumptions.fails[kind]
    const share = kind === 'command-joints' && commandMm2 > 0 ? region.areaMm2 / commandMm2 : 1
    const met = { parts: [part.ref], lanes: region.lanes }
    return causeOf(context, { kind, at: region.id, ...about, met }, laneTouches(evidence, region.lanes, q), share)
  })
  return [die, ...joints]
}

function corridorCause(context: CauseContext, corridor: Corridor): PointCause {
  const part = context.model.laneById.get(corridor.lane)?.part
  const refs = part === undefined ? [] : [part]
  const wording = { kind: 'corridor', at: corridor.lane, refs, lifts: [], met: { lanes: [corridor.lane] } } as const
  return causeOf(context, wording, laneTouches(context.evidence, [corridor.lane], context.assumptions.fails.corridor))
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

function railCauses(context: CauseContext, rail: Rail): PointCause[] {
  const { model, assumptions, evidence } = context
  const { fails } = assumptions
  const whole = lanesFed(model, rail.feeds)
  const wording = { kind: 'rail', at: `rail ${rail.name}`, refs: rail.stages, lifts: [] } as const
  const cause = causeOf(context, { ...wording, met: { rails: [rail.name], parts: rail.feeds } }, [
    ...laneTouches(evidence, whole.lanes, whole.coreAlone ? fails.core : fails.rail),
    ...railTouch(evidence, rail.name, assumptions.evidence.railBadIfRail),
    ...stageTouches(evidence, [...new Set(rail.stages)], assumptions.evidence.stageBadIfRail),
  ])
  const branches = rail.branches.map((branch) => {
    const part = lanesFed(model, branch.feeds)
    const at = `branch ${branch.name} of rail ${rail.name}`
    const met = { rails: [rail.name], parts: branch.feeds }
    return causeOf(context, { kind: 'rail-branch', at, refs: branch.feeds, lifts: [], met }, [
      ...laneTouches(evidence, part.lanes, part.coreAlone ? fails.core : fails['rail-branch']),
      ...railTouch(evidence, rail.name, assumptions.evidence.railBadIfBranch),
    ])
  })
  return [cause, ...branches]
}

/** What a fault of a stage does through every rail that it makes; the highest q wins where rails overlap. */
function throughRails(context: CauseContext, rails: readonly Rail[], qOf: (rail: Rail) => number, railQ: number) {
  const { model, assumptions, evidence } = context
  const byFinding = new Map<number, number>()
  for (const rail of rails) {
    const fed = lanesFed(model, rail.feeds)
    const q = fed.coreAlone ? Math.min(qOf(rail), assumptions.fails.core) : qOf(rail)
    for (const touch of [...laneTouches(evidence, fed.lanes, q), ...railTouch(evidence, rail.name, railQ)]) {
      byFinding.set(touch.finding, Math.max(touch.q, byFinding.get(touch.finding) ?? 0))
    }
  }
  return byFinding
}

const touchesOf = (byFinding: ReadonlyMap<number, number>): Touch[] =>
  [...byFinding].map(([finding, q]) => ({ finding, q }))

function stageCauses(context: CauseContext): PointCause[] {
  const { model, assumptions, evidence } = context
  return [...stagesOfRails(model)].map((ref) => {
    const rails = model.rails.filter((rail) => rail.stages.includes(ref))
    const qOf = (rail: Rail): number => assumptions.fails[rail.stages.length > 1 ? 'power-stage' : 'power-stage-alone']
    const touches = [
      ...touchesOf(throughRails(context, rails, qOf, assumptions.evidence.railBadIfStage)),
      ...stageTouches(evidence, [ref], assumptions.evidence.stageBadIfStage),
    ]
    const met = { rails: rails.map(({ name }) => name), parts: [ref, ...rails.flatMap(({ feeds }) => feeds)] }
    return causeOf(context, { kind: 'power-stage', at: ref, refs: [ref], lifts: [ref], met }, touches)
  })
}

function coreCause(context: CauseContext): PointCause[] {
  const { model, assumptions, evidence } = context
  if (model.core === undefined) return []
  const ref = model.core.ref
  const lanes = model.lanes.map((lane) => lane.id)
  const touches = laneTouches(evidence, lanes, assumptions.fails.core)
  return [causeOf(context, { kind: 'core', at: ref, refs: [ref], lifts: [ref], met: { parts: [ref], lanes } }, touches)]
}

/** A tool slipped: tracks within its radius may be cut, stages nudged, small parts knocked off. */
function slipCause(context: CauseContext, slip: SlipMark): PointCause {
  const { model, assumptions, evidence } = context
  const { fails } = assumptions
  const cut = model.corridors.filter(
    (corridor) => corridor.side === slip.side && gapToPath(corridor, slip) <= slip.radiusMm + corridor.widthMm / 2,
  )
  const hit = model.parts.filter((part) => part.side === slip.side && gapMm(part, slip.at) <= slip.radiusMm)
  const stages = hit.filter((part) => part.kind === 'power-stage' || part.kind === 'controller')
  const small = hit.filter((part) => part.kind === 'capacitor' || part.kind === 'inductor' || part.kind === 'other')
  const railsAt = (parts: readonly PlacedPart[]): Rail[] =>
    model.rails.filter((rail) => parts.some(({ ref }) => rail.stages.includes(ref) || rail.feeds.includes(ref)))
  const railQ = assumptions.evidence.railBadIfSlip
  const touched = throughRails(context, railsAt(small), () => fails['slip-on-small-part'], railQ)
  for (const [finding, q] of throughRails(context, railsAt(stages), () => fails['slip-on-stage'], railQ)) {
    touched.set(finding, Math.max(q, touched.get(finding) ?? 0))
  }
  const cutLanes = cut.map((corridor) => corridor.lane)
  for (const { finding, q } of laneTouches(evidence, cutLanes, fails['slip-on-corridor'])) {
    touched.set(finding, 1 - (1 - q) * (1 - (touched.get(finding) ?? 0)))
  }
  for (const { finding, q } of stageTouches(
    evidence,
    hit.map(({ ref }) => ref),
    assumptions.evidence.stageBadIfSlip,
  )) {
    touched.set(finding, q)
  }
  const refs = hit.map((part) => part.ref)
  const lifts = stages.map((part) => part.ref)
  const at = placeWords(model, slip.at, slip.side)
  const met = { parts: refs, lanes: cutLanes, rails: railsAt(hit).map(({ name }) => name) }
  return causeOf(context, { kind: 'slip', at, refs, lifts, met }, touchesOf(touched))
}

function gapToPath(corridor: Corridor, slip: SlipMark): number {
  let gap = Infinity
  for (let i = 1; i < corridor.path.length; i++) {
    const a = corridor.path[i - 1]
    const b = corridor.path[i]
    if (a !== undefined && b !== undefined) gap = Math.min(gap, distanceToSegment(slip.at, a, b))
  }
  return gap
}
