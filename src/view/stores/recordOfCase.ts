/** The record of the case on the desk, derived from what is known at this moment. */
import { useDeferredValue, useMemo } from 'react'
import { type Audience, type RecordDocument, recordOf } from '../../case/index.ts'
import { useBoard, usePlan, usePresent, useProof, useResults, useRetest, useTally } from './hooks.ts'

/** Lags behind fast typing, so that a keystroke never waits for the pictures of the sheet. */
export function useRecord(
  audience: Audience,
  photos: ReadonlyMap<string, string>,
  today: string,
): RecordDocument | undefined {
  const present = useDeferredValue(usePresent())
  const model = useBoard()?.model
  const tally = useTally()
  const retest = useRetest()
  const proof = useProof()
  const assessment = useResults((results) => results.assessment)
  const answer = usePlan((plan) => plan.answer)
  const exposures = usePlan((plan) => plan.exposures)
  const cannot = usePlan((plan) => plan.cannot)
  return useMemo(() => {
    if (present === undefined || model === undefined || proof === undefined) return undefined
    const rework = answer === undefined ? undefined : { answer, exposures, cannot, changes: [] }
    return recordOf({
      audience,
      caseFile: present,
      model,
      tally,
      retest,
      proof,
      assessment,
      rework,
      photos,
      today,
    })
  }, [audience, photos, today, present, model, tally, retest, proof, assessment, answer, exposures, cannot])
}
