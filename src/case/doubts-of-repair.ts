/** What speaks against calling a card repaired: nothing proved after the work, or something that nobody noted as cleaned. */
import { joined, say } from '../base/index.ts'
import { isStillWet, marksCleaned } from './cleaning-done.ts'
import type { Case } from './schema.ts'

const DIRTY = new Set(['wet', 'metal', 'corroded'])

export const NOT_TESTED = say('The memory was not tested after the work.')

/** Sentences, weightiest first; empty where the outcome is no repair or nothing is open. */
export function doubtsOfRepair(caseFile: Case): string[] {
  const { handBack, reports, passes } = caseFile
  if (handBack.outcome !== 'repaired' && handBack.outcome !== 'partly repaired') return []
  const tested = reports.some(({ run }) => run === 'retest')
  const heated = passes.some(({ outcome }) => outcome === 'done')
  return [
    ...uncleaned(caseFile),
    ...(heated && railsMeasuredAfter(caseFile).size === 0 ? [say('No rail was measured after the work.')] : []),
    ...(tested ? [] : [NOT_TESTED]),
  ]
}

/** Names of the rails that were read cold after the work. */
export const railsMeasuredAfter = ({ measurements }: Pick<Case, 'measurements'>): ReadonlySet<string> =>
  new Set(
    measurements.flatMap(({ phase, quantity, line }) =>
      phase === 'after' && quantity !== 'volts' && line.kind === 'rail' ? [line.name] : [],
    ),
  )

/** What lies on the card or under its parts for all that is noted, in sentences. */
export function uncleaned(caseFile: Case): string[] {
  const { marks, passes, ticks } = caseFile
  const off = marksCleaned(caseFile)
  // older ticks do not say which marks they took care of
  const unsaid = ticks.some(
    ({ action, outcome, marks: of }) =>
      (action === 'wash' || action === 'take-up') && outcome === 'done' && of === undefined,
  )
  const spilled = !unsaid && marks.some(({ kind, id }) => kind === 'spill' && !off.has(id))
  const cleaned = new Set(
    ticks.flatMap(({ action, outcome, refs }) => (action === 'clean' && outcome === 'done' ? refs : [])),
  )
  const dirty = passes.flatMap(({ found }) =>
    found.flatMap(({ ref, what }) => (what.some((each) => DIRTY.has(each)) && !cleaned.has(ref) ? [ref] : [])),
  )
  const refs = [...new Set(dirty)]
  return [
    ...(spilled ? [say('A spill is marked, and no cleaning of it is noted.')] : []),
    ...(isStillWet(caseFile) ? [say('The card was washed, and no drying is noted.')] : []),
    ...(refs.length > 0
      ? [say('Something lay under {refs}, and no cleaning of the site is noted.', { refs: joined(refs) })]
      : []),
  ]
}
