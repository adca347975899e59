/** What speaks against calling a card repaired: nothing proved after the work, or something that nobody noted as cleaned. */
import { joined } from '../base/index.ts'
import { wasWashed } from './assess.ts'
import type { Case } from './schema.ts'

const DIRTY = new Set(['wet', 'metal', 'corroded'])

/** Sentences, weightiest first; empty where the outcome is no repair or nothing is open. */
export function doubtsOfRepair(caseFile: Case): string[] {
  const { handBack, reports, measurements, passes } = caseFile
  if (handBack.outcome !== 'repaired' && handBack.outcome !== 'partly repaired') return []
  const tested = reports.some(({ run }) => run === 'retest')
  const measured = measurements.some(({ phase }) => phase === 'after')
  const heated = passes.some(({ outcome }) => outcome === 'done')
  return [
    ...uncleaned(caseFile),
    ...(heated && !measured ? ['No rail was measured after the work.'] : []),
    ...(tested ? [] : ['The memory was not tested after the work.']),
  ]
}

function uncleaned(caseFile: Case): string[] {
  const { marks, passes, ticks } = caseFile
  const spilled = marks.some(({ kind }) => kind === 'spill') && !wasWashed(caseFile)
  const cleaned = new Set(
    ticks.flatMap(({ action, outcome, refs }) => (action === 'clean' && outcome === 'done' ? refs : [])),
  )
  const dirty = passes.flatMap(({ found }) =>
    found.flatMap(({ ref, what }) => (what.some((each) => DIRTY.has(each)) && !cleaned.has(ref) ? [ref] : [])),
  )
  const refs = [...new Set(dirty)]
  return [
    ...(spilled ? ['A spill is marked, and it is not noted as washed off.'] : []),
    ...(refs.length > 0 ? [`Something lay under ${joined(refs)}, and no cleaning of the site is noted.`] : []),
  ]
}
