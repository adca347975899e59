/** What was wrong with a card as far as log, meter and retests tell: a draft for the hand-back, to be confirmed by hand. */
import type { BoardModel } from '../board/index.ts'
import { lineStates } from '../measure/index.ts'
import type { CausesFound, PartTruth } from '../rehearsal/index.ts'
import { wasWashed } from './cleaning-done.ts'
import type { Proof } from './proof.ts'
import type { Case } from './schema.ts'
import { partsWorkedOn } from './shop-record.ts'

/** @param proof the runs after the work beside the first; undefined where the card was not tested again */
export function causesDraft(caseFile: Case, model: BoardModel, proof: Proof | undefined): CausesFound {
  const { passes } = caseFile
  const worked = partsWorkedOn(passes)
  const parts = worked.map((ref) => ({
    ref,
    was: truthOf({ caseFile, model, proof, worked }, ref),
    harmed: passes.some(({ found }) => found.some((each) => each.ref === ref && each.what.includes('torn-pad'))),
  }))
  const explained = parts.some(({ was }) => was !== 'fine' && was !== 'unknown')
  return { parts, others: explained ? [] : otherDrafts(caseFile, model, proof, worked) }
}

interface DraftQuestion {
  readonly caseFile: Case
  readonly model: BoardModel
  readonly proof: Proof | undefined
  readonly worked: readonly string[]
}

/**
 * Residue under a part speaks first. A memory part that did not fail was fine. One that fails no more was mended by a new
 * part, or by new joints where the core stayed on; with the core off too nobody can tell which of them it was.
 */
function truthOf({ caseFile, model, proof, worked }: DraftQuestion, ref: string): PartTruth {
  const { passes } = caseFile
  const found = passes.flatMap((pass) => pass.found.flatMap((each) => (each.ref === ref ? each.what : [])))
  if (found.includes('wet') || found.includes('metal') || found.includes('corroded')) return 'under'
  const replaced = passes.some(
    ({ action, outcome, replaced: fresh, refs }) =>
      action === 'refit' && outcome === 'done' && fresh && refs.includes(ref),
  )
  const mended: PartTruth = replaced ? 'bad' : 'joints'
  const core = model.core?.ref
  if (model.partByRef.get(ref)?.kind === 'memory') {
    const own = proof?.parts.find((part) => part.ref === ref)?.lanes ?? []
    if (proof !== undefined && own.every(({ before }) => before === 'pass')) return 'fine'
    if (!isMended(own)) return 'unknown'
    return replaced || core === undefined || !worked.includes(core) ? mended : 'unknown'
  }
  const alone = worked.length === 1
  return isMended(proof?.lanes ?? []) && alone ? mended : 'unknown'
}

/** Something failed before, all of that passes now, and nothing new fails. */
const isMended = (lanes: Proof['lanes']): boolean =>
  lanes.some(({ verdict }) => verdict === 'gone') &&
  lanes.every(
    ({ verdict, before }) => verdict === 'gone' || verdict === 'clean' || (verdict === 'untested' && before !== 'fail'),
  )

/** A rail that measured bad before and well after; a card that was only cleaned and works. */
function otherDrafts(
  { measurements, goodReadings, leads, cleaned, ticks }: Case,
  model: BoardModel,
  proof: Proof | undefined,
  worked: readonly string[],
): CausesFound['others'] {
  const before = lineStates(model, measurements, goodReadings, leads).rails
  const asBefore = measurements.flatMap((each) =>
    each.phase === 'after' ? [{ ...each, phase: 'before' as const }] : [],
  )
  const after = lineStates(model, asBefore, goodReadings, leads).rails
  const rails = [...before].flatMap(([name, state]) =>
    state !== 'fine' && after.get(name) === 'fine' ? [{ what: 'rail' as const, at: name }] : [],
  )
  if (rails.length > 0) return rails
  const washed = wasWashed({ cleaned, ticks }) && worked.length === 0 && isMended(proof?.lanes ?? [])
  return washed ? [{ what: 'liquid' }] : []
}
