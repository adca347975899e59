/** Findings of a card as bad or good findings of the network, and the ratio that a part's signature gives a cause. */
import type { BoardModel } from '../board/index.ts'
import type { Signature } from '../report/index.ts'
import type { Assumptions } from './assumptions.ts'
import { type Asked, lastAnswers, NOTHING_ASKED } from './asked.ts'
import { checkById, type OwnCheck } from './check-catalogue.ts'
import type { CheckFinding } from './check-scope.ts'
import type { Finding } from './network.ts'
import type { CauseKind, Findings } from './result.ts'

export interface Evidence {
  readonly findings: readonly Finding[]
  /** Index into `findings`; absent where untested. */
  readonly laneFinding: ReadonlyMap<string, number>
  readonly railFinding: ReadonlyMap<string, number>
  /** By ref of the power stage. */
  readonly stageFinding: ReadonlyMap<string, number>
  /** By index into `Findings.areas`. */
  readonly areaFinding: readonly number[]
  readonly checkFindings: readonly CheckFinding[]
  /** By index into `Asked.areas`: that residue is seen there, and that it is seen to be clean. */
  readonly askedAreas: readonly { readonly seen: number; readonly clean: number }[]
}

/** @param asked what nobody has looked at yet, but could: findings without an outcome */
export function evidenceOf(
  model: BoardModel,
  findings: Findings,
  assumptions: Assumptions,
  asked: Asked = NOTHING_ASKED,
): Evidence {
  const list: Finding[] = []
  const laneFinding = new Map<string, number>()
  for (const lane of model.lanes) {
    const state = findings.lanes.get(lane.id)
    if (state === undefined || state === 'untested') continue
    laneFinding.set(lane.id, list.length)
    list.push({ id: lane.id, kind: 'lane', bad: state === 'fail', leak: assumptions.fails.leak, part: lane.part })
  }
  const railFinding = new Map<string, number>()
  for (const rail of model.rails) {
    const state = findings.rails.get(rail.name)
    if (state === undefined && !asked.rails.has(rail.name)) continue
    railFinding.set(rail.name, list.length)
    const leak = assumptions.evidence.railBadElsewhere
    const finding = { id: `rail ${rail.name}`, kind: 'rail', leak, part: undefined } as const
    list.push(state === undefined ? { ...finding, ...NO_OUTCOME } : { ...finding, bad: state !== 'fine' })
  }
  const stageFinding = new Map<string, number>()
  for (const ref of stagesOfRails(model)) {
    const state = findings.stages?.get(ref)
    if (state === undefined && !asked.stages.has(ref)) continue
    stageFinding.set(ref, list.length)
    const leak = assumptions.evidence.stageBadElsewhere
    const finding = { id: `stage ${ref}`, kind: 'stage', leak, part: undefined } as const
    list.push(state === undefined ? { ...finding, ...NO_OUTCOME } : { ...finding, bad: state !== 'fine' })
  }
  const areaFinding = findings.areas.map((area) => {
    const leak = area.kind === 'clean' ? 0 : assumptions.evidence.residueElsewhere
    return list.push({ id: area.id, kind: 'area', bad: area.kind !== 'clean', leak, part: undefined }) - 1
  })
  const checkFindings = [
    ...lastAnswers(findings.checks ?? []).flatMap(({ check, at, found }) => {
      const entry = checkById(check)
      return entry?.evidence === 'check' ? [addCheck(list, asLearnt(entry, assumptions), at, { bad: found })] : []
    }),
    ...asked.checks.map(({ check, at }) => addCheck(list, asLearnt(check, assumptions), at, NO_OUTCOME)),
  ]
  const askedAreas = asked.areas.map(({ id }) => addAskedArea(list, id, findings, assumptions))
  return { findings: list, laneFinding, railFinding, stageFinding, areaFinding, checkFindings, askedAreas }
}

/** Refs of the parts on the board that make a rail. */
export const stagesOfRails = (model: BoardModel): Set<string> =>
  new Set(model.rails.flatMap((rail) => rail.stages).filter((ref) => model.partByRef.has(ref)))

const NO_OUTCOME = { bad: false, asked: true } as const

/** A check of the catalogue with the figures that were learnt about it; a kind that it is not made for stays out. */
function asLearnt(check: OwnCheck, { checks }: Assumptions): OwnCheck {
  const learnt = checks[check.id]
  if (learnt === undefined) return check
  const known = Object.entries(learnt.finds ?? {}).filter(([kind]) => Object.hasOwn(check.finds, kind))
  const finds = { ...check.finds, ...Object.fromEntries(known) }
  return { ...check, finds, falseAlarm: learnt.falseAlarm ?? check.falseAlarm }
}

function addCheck(list: Finding[], check: OwnCheck, at: string, outcome: Pick<Finding, 'bad' | 'asked'>): CheckFinding {
  const id = `check ${check.id} ${at}`
  return {
    finding: list.push({ id, kind: 'check', leak: check.falseAlarm, part: undefined, ...outcome }) - 1,
    check,
    at,
  }
}

/**
 * The assumptions on marks leave room between "residue is seen" and "seen to be clean": nobody can tell. Where changed
 * figures leave less than none, `clean` counts for as much less as makes room for all spills that may have been there.
 */
function addAskedArea(list: Finding[], id: string, findings: Findings, { evidence }: Assumptions) {
  const leak = evidence.residueElsewhere
  const finding = { id, kind: 'area', part: undefined, ...NO_OUTCOME } as const
  const room = (1 - evidence.residueWhereReached) / evidence.cleanOverlooksReached
  const share = Math.min(1, room) ** (findings.spills.length + 1)
  const seen = list.push({ ...finding, leak }) - 1
  return { seen, clean: list.push({ ...finding, leak: 1 - (1 - leak) * share }) - 1 }
}

/**
 * P(signature | kind) / P(signature | unknown) for parts with a bad lane: 1 where a part has no signature. Byte,
 * channel and package share one figure, because which lanes fail is told by the lanes themselves.
 */
export function signatureRatios(
  signatures: ReadonlyMap<string, Signature>,
  assumptions: Assumptions,
): (part: string, kind: CauseKind) => number {
  return (part, kind) => {
    const look = lookOf(signatures.get(part)?.kind)
    if (look === undefined) return 1
    const unknown = assumptions.signature.unknown[look]
    return unknown > 0 ? assumptions.signature[kind][look] / unknown : 1
  }
}

function lookOf(kind: Signature['kind'] | undefined): 'cells' | 'line' | 'sparse' | 'whole' | undefined {
  if (kind === undefined || kind === 'clean') return undefined
  return kind === 'cells' || kind === 'line' || kind === 'sparse' ? kind : 'whole'
}
