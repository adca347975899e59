/** The network of one card, split into what stands while a spill is dragged and what moves; the standing part is kept. */
import type { BoardModel } from '../board/index.ts'
import type { SpillHypotheses, SpillMark } from '../spill/index.ts'
import type { Asked } from './asked.ts'
import type { Assumptions } from './assumptions.ts'
import { type CauseContext, liftableParts, pointCauses } from './causes.ts'
import { evidenceOf, signatureRatios } from './evidence.ts'
import type { Network, SpatialCause } from './network.ts'
import { createMerger, type Merger } from './merge-states.ts'
import type { Problem } from './posterior.ts'
import { type Frame, frameOf, type ReducedPoint, type ReducedSpatial, reducePoints } from './reduce.ts'
import type { Findings } from './result.ts'
import {
  type PatchStates,
  patchCause,
  reportedSpill,
  type SpillItems,
  spillItems,
  type UnreportedStates,
  unreportedSpill,
} from './spatials.ts'

export interface ReportedSpill {
  readonly mark: SpillMark
  readonly hypotheses: SpillHypotheses
}

/** Everything about a card but the spill that moves. */
export interface Setting {
  readonly context: CauseContext
  readonly frame: Frame
  readonly items: SpillItems
  readonly points: readonly ReducedPoint[]
  readonly idle: readonly ReducedPoint[]
  /** The patch, the unreported spill, the reported spills that stand: those of them that can be there. */
  readonly standing: readonly ReducedSpatial[]
  /** Merges the states of the spill that moves; undefined where none is reported. */
  readonly mergeMoving: Merger | undefined
}

export interface SettingInput {
  readonly model: BoardModel
  readonly assumptions: Assumptions
  readonly findings: Findings
  readonly patch: PatchStates
  readonly unreported: UnreportedStates | undefined
  readonly spills: readonly ReportedSpill[]
  readonly asked?: Asked
}

/** @param input the last of its spills is the one that moves; its hypotheses may change afterwards */
export function createSetting(input: SettingInput): Setting {
  const { model, assumptions, findings } = input
  const parts = liftableParts(model)
  const indexOf = new Map(parts.map((ref, index) => [ref, index]))
  const evidence = evidenceOf(model, findings, assumptions, input.asked)
  const context: CauseContext = { model, assumptions, evidence, partIndex: (ref) => indexOf.get(ref) ?? -1 }
  const items = spillItems(context)
  const patch = patchCause(context, input.patch)
  const unreported = input.unreported === undefined ? [] : [unreportedSpill(context, items, input.unreported)]
  const reported = input.spills.map(({ mark, hypotheses }) => reportedSpill(context, items, mark, hypotheses))
  const spatials: SpatialCause[] = [patch, ...unreported, ...reported]
  const network: Network = {
    findings: evidence.findings,
    points: pointCauses(context, findings.slips),
    spatials,
    parts,
    signatureRatio: signatureRatios(findings.signatures, assumptions),
  }
  const frame = frameOf(network)
  const reduced = spatials.map((cause, index) => ({ cause, merge: createMerger(frame, index, cause) }))
  const moving = reported.length > 0 ? reduced.pop() : undefined
  const standing = reduced.map(({ cause, merge }) => merge(cause)).filter((spatial) => spatial !== undefined)
  return {
    context,
    frame,
    items,
    ...reducePoints(frame),
    standing,
    mergeMoving: moving?.merge,
  }
}

function moveSpill(setting: Setting, spill: ReportedSpill | undefined): ReducedSpatial | undefined {
  if (spill === undefined || setting.mergeMoving === undefined) return undefined
  const cause = reportedSpill(setting.context, setting.items, spill.mark, spill.hypotheses)
  return setting.mergeMoving(cause)
}

/** @param spills the last of them is where the moving spill is now */
export function problemOf(setting: Setting, spills: readonly ReportedSpill[]): Problem {
  const { frame, points, standing } = setting
  const partOfBit = frame.bad.map((index) => {
    const finding = frame.network.findings[index]
    return finding?.part ?? `${finding?.kind} ${finding?.id}`
  })
  const moving = moveSpill(setting, spills.at(-1))
  return { n: frame.bad.length, leak: frame.leak, points, standing, moving, partOfBit }
}
