/** What a record of the case on the desk is made from, as it is known at this moment. */
import { useMemo } from 'react'
import type { RecordInput } from '../../../case/index.ts'
import { useBoard, usePlan, usePresent, useProof, useResults, useRetest, useTally } from '../../stores/hooks.ts'

/** The same object while nothing changed; undefined while no case is open. */
export function useRecordQuestion(
  photos: ReadonlyMap<string, string>,
  today: string,
): Omit<RecordInput, 'audience'> | undefined {
  const caseFile = usePresent()
  const model = useBoard()?.model
  const tally = useTally()
  const retest = useRetest()
  const proof = useProof()
  const assessment = useResults((results) => results.assessment)
  const answer = usePlan((plan) => plan.answer)
  const exposures = usePlan((plan) => plan.exposures)
  const cannot = usePlan((plan) => plan.cannot)
  return useMemo(() => {
    if (caseFile === undefined || model === undefined || proof === undefined) return undefined
    const rework = answer === undefined ? undefined : { answer, exposures, cannot, changes: [] }
    return { caseFile, model, tally, retest, proof, assessment, rework, photos, today }
  }, [photos, today, caseFile, model, tally, retest, proof, assessment, answer, exposures, cannot])
}
