/** What nobody knows about the card as it goes back, in sentences. */
import { joined, say } from '../../base/index.ts'
import { NOT_TESTED, railsMeasuredAfter, uncleaned } from '../doubts-of-repair.ts'
import { notProven } from '../proof.ts'
import type { RecordInput } from './input.ts'
import { lanesIn } from './tested.ts'

/**
 * One sentence for each thing that is open: not cleaned, not tested, not measured, on the list but not done, cause
 * unknown, not proved. Empty where nothing is.
 */
export function openEnds(input: RecordInput): string[] {
  const { caseFile, tally } = input
  const before = lanesIn(tally, 'untested')
  const rails = notMeasuredAfter(input)
  const open = openParts(input)
  const proof = input.proof
  return [
    ...uncleaned(caseFile),
    ...(proof.tested ? [] : [NOT_TESTED]),
    ...(before.length > 0
      ? [
          say('{length, plural, one {# lane} other {# lanes}} not tested before the work: {before}.', {
            length: before.length,
            before: before.join(', '),
          }),
        ]
      : []),
    ...(rails.length > 0 ? [say('Not measured after the work: {rails}.', { rails: joined(rails) })] : []),
    ...(open.length > 0
      ? [say('On the lift list, and no pass on it is logged as done: {open}.', { open: joined(open) })]
      : []),
    ...(caseFile.arrival.accident === 'unknown' ? [say('Nobody knows what happened to the card.')] : []),
    ...notProven(proof),
  ]
}

function notMeasuredAfter({ caseFile, model }: RecordInput): string[] {
  const measured = railsMeasuredAfter(caseFile)
  return model.rails.map(({ name }) => name).filter((name) => !measured.has(name))
}

function openParts({ assessment, tally, caseFile: { passes } }: RecordInput): string[] {
  if (assessment === undefined || tally === undefined) return []
  const done = new Set(passes.flatMap(({ outcome, refs }) => (outcome === 'done' ? refs : [])))
  return assessment.suspects.lift.filter((ref) => !done.has(ref))
}
