/** What became of each memory part, out of what became of its lanes. */
import type { BoardModel } from '../../board/index.ts'
import type { Signature, Tally } from '../../report/index.ts'
import { type LaneProof, type LaneVerdict, laneVerdicts } from './lanes.ts'

export interface PartProof {
  readonly ref: string
  /** The gravest of its lanes': fresh, still, not told, untested, gone, clean. */
  readonly verdict: LaneVerdict
  readonly errorsBefore: number
  readonly errorsAfter: number
  readonly signatureBefore: Signature | undefined
  readonly signatureAfter: Signature | undefined
  readonly lanes: readonly LaneProof[]
}

/** All memory parts in the board's order. */
export function partProofs(
  model: BoardModel,
  lanes: readonly LaneProof[],
  tally: Tally | undefined,
  retest: Tally | undefined,
): PartProof[] {
  return model.memories.map(({ ref }) => {
    const own = lanes.filter((lane) => lane.part === ref)
    const before = tally?.parts.find((part) => part.ref === ref)
    const after = retest?.parts.find((part) => part.ref === ref)
    return {
      ref,
      verdict: laneVerdicts.find((verdict) => own.some((lane) => lane.verdict === verdict)) ?? 'untested',
      errorsBefore: before?.errors ?? 0,
      errorsAfter: after?.errors ?? 0,
      signatureBefore: before?.signature,
      signatureAfter: after?.signature,
      lanes: own,
    }
  })
}
