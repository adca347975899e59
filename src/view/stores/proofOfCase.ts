/** The proof of the case on the desk: derived from its reports and readings, made anew only when one of them changes. */
import type { BoardModel } from '../../board/index.ts'
import { type Case, type Proof, proofOf } from '../../case/index.ts'
import { mergeTallies, type Tally } from '../../report/index.ts'
import { createTalliesOfRun, remembering } from './derive.ts'
import type { ReadingState } from './readingStore.ts'

/** One such function a screen. */
export function createProofOfCase() {
  const retestsOf = createTalliesOfRun('retest')
  const prove = remembering(
    (
      model: BoardModel,
      reports: Case['reports'],
      tally: Tally | undefined,
      retests: ReadonlyMap<string, Tally>,
    ): Proof => {
      const retest = retests.size === 0 ? undefined : mergeTallies([...retests.values()])
      return proofOf({ model, caseFile: { reports }, tally, retest, retests })
    },
  )
  return (
    model: BoardModel,
    reports: Case['reports'],
    readings: ReadingState['byId'],
    tally: Tally | undefined,
  ): Proof => prove(model, reports, tally, retestsOf(model, reports, readings))
}
