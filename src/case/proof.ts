/** The proof: what the runs after the work say beside the run of the card as it came, and how much their passes show. */
import type { BoardModel } from '../board/index.ts'
import type { Tally } from '../report/index.ts'
import { exactBound, ruleOfThree } from './proof/bounds.ts'
import { type LaneProof, laneProofs, type LaneVerdict } from './proof/lanes.ts'
import { type PartProof, partProofs } from './proof/part.ts'
import { countPasses, type PassCount, passesOfRun } from './proof/passes.ts'
import type { Case } from './schema.ts'

export { exactBound, passesFor, ruleOfThree } from './proof/bounds.ts'
export { type LaneProof, type LaneVerdict } from './proof/lanes.ts'
export { type MeasuredLine, measuredBeforeAfter } from './proof/measured.ts'
export type { PartProof } from './proof/part.ts'
export type { PassCount, RetestRun } from './proof/passes.ts'
export { boundSentence, notProven, passesWanted } from './proof/words.ts'

/** An opened case has all of it. */
export interface ProofQuestion {
  readonly model: BoardModel
  readonly caseFile: Pick<Case, 'reports'>
  /** Of the card as it came; undefined where no report tells. */
  readonly tally: Tally | undefined
  /** Of all runs after the work together. */
  readonly retest: Tally | undefined
  /** Of each run after the work, by the name of its report. */
  readonly retests: ReadonlyMap<string, Tally>
}

export interface Proof {
  /** Of the board, in its order. */
  readonly lanes: readonly LaneProof[]
  readonly parts: readonly PartProof[]
  /** Ids of lanes. `untested` has those first that failed before. */
  readonly gone: readonly string[]
  readonly fresh: readonly string[]
  readonly still: readonly string[]
  readonly untested: readonly string[]
  readonly notTold: readonly string[]
  readonly passes: PassCount
  /** Upper bound at 95 % on the chance that one more pass fails, exact; undefined where no pass is counted. */
  readonly boundPerPass95: number | undefined
  /** 3/n; undefined where a pass failed or none is counted. */
  readonly ruleOfThree95: number | undefined
  /** A run after the work was read or entered. */
  readonly tested: boolean
}

/**
 * Each lane before and after with a verdict, and bounds in errors a pass at 95 %: undefined as soon as a run is
 * unsure, the rule of three also where a pass failed. `retest` is undefined while nothing was tested after the work.
 */
export function proofOf({ model, caseFile, tally, retest, retests }: ProofQuestion): Proof {
  const { reports } = caseFile
  const passesOfRuns = { before: passesOfRun(reports, 'first'), after: passesOfRun(reports, 'retest') }
  const lanes = laneProofs(model, tally, retest, passesOfRuns)
  const passes = countPasses(reports, retests)
  // rows that nobody could place may be errors: no figure then
  const unsure = passes.runs.some(({ kind }) => kind === 'unsure')
  const having = (verdict: LaneVerdict): string[] =>
    lanes.filter((lane) => lane.verdict === verdict).map((lane) => lane.id)
  const failedBefore = new Set(lanes.filter((lane) => lane.before === 'fail').map(({ id }) => id))
  return {
    lanes,
    parts: partProofs(model, lanes, tally, retest),
    gone: having('gone'),
    fresh: having('fresh'),
    still: having('still'),
    untested: having('untested').toSorted((a, b) => Number(failedBefore.has(b)) - Number(failedBefore.has(a))),
    notTold: having('not-told'),
    passes,
    boundPerPass95: unsure ? undefined : exactBound(passes.clean + passes.failing, passes.failing),
    ruleOfThree95: unsure || passes.failing > 0 ? undefined : ruleOfThree(passes.clean),
    tested: retest !== undefined,
  }
}
