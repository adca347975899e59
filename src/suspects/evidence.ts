/** Findings of a card as bad or good findings of the network, and the ratio that a part's signature gives a cause. */
import type { BoardModel } from '../board/index.ts'
import type { Signature } from '../report/index.ts'
import type { Assumptions } from './assumptions.ts'
import type { Finding } from './network.ts'
import type { CauseKind, Findings } from './result.ts'

export interface Evidence {
  readonly findings: readonly Finding[]
  /** Index into `findings`; absent where untested. */
  readonly laneFinding: ReadonlyMap<string, number>
  readonly railFinding: ReadonlyMap<string, number>
  /** By index into `Findings.areas`. */
  readonly areaFinding: readonly number[]
}

export function evidenceOf(model: BoardModel, findings: Findings, assumptions: Assumptions): Evidence {
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
    if (state === undefined) continue
    railFinding.set(rail.name, list.length)
    const leak = assumptions.evidence.railBadElsewhere
    list.push({ id: `rail ${rail.name}`, kind: 'rail', bad: state !== 'fine', leak, part: undefined })
  }
  const areaFinding = findings.areas.map((area) => {
    const leak = area.kind === 'clean' ? 0 : assumptions.evidence.residueElsewhere
    return list.push({ id: area.id, kind: 'area', bad: area.kind !== 'clean', leak, part: undefined }) - 1
  })
  return { findings: list, laneFinding, railFinding, areaFinding }
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
