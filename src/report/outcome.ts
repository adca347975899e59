/** What reading a report came to, small enough to keep in a case, and what a later reading of the same text changes. */
import { numberWords } from '../base/index.ts'
import { someOf, say } from '../base/index.ts'
import { z } from 'zod'
import { laneStates } from './count/lane-states.ts'
import type { Tally } from './tally.ts'

const errors = z.number().int().min(0).max(Number.MAX_SAFE_INTEGER)

export const readOutcomeSchema = z
  .strictObject({
    sure: z.enum(['sure', 'unsure', 'unknown']),
    rows: z.int().min(0).describe('rows of errors that were read'),
    parts: z.record(z.string(), errors).describe('errors of each part that has some'),
    failing: z.array(z.string()).max(65_536).describe('ids of the lanes that fail by it'),
    passing: z.array(z.string()).max(65_536).describe('ids of the lanes that were tested and are clean by it'),
  })
  .describe('what a report came to when it was read last, so that a later version can say what changed')
export type ReadOutcome = z.infer<typeof readOutcomeSchema>

/**
 * What is kept of a reading: rows read, errors by part without the parts that have none, and lanes that fail or pass;
 * untested lanes are in neither list.
 */
export function outcomeOf({ sure, tally }: { readonly sure: ReadOutcome['sure']; readonly tally: Tally }): ReadOutcome {
  const states = [...laneStates(tally)]
  const lanesThat = (wanted: string): string[] => states.flatMap(([id, state]) => (state === wanted ? [id] : []))
  return {
    sure,
    rows: tally.rows.read,
    parts: Object.fromEntries(tally.parts.filter((part) => part.errors > 0).map((part) => [part.ref, part.errors])),
    failing: lanesThat('fail'),
    passing: lanesThat('pass'),
  }
}

const SURENESS = {
  sure: say('surely read right'),
  unsure: say('read, but not surely right'),
  unknown: say('not known how to read'),
} as const

const MOST_NAMED = 12

/** What the later reading says otherwise, a sentence each; none where it says the same. */
export function whatChanged(before: ReadOutcome, after: ReadOutcome): string[] {
  const { sure } = before
  const [failed, passed] = [new Set(before.failing), new Set(before.passing)]
  const [fails, passes] = [new Set(after.failing), new Set(after.passing)]
  const unlisted = (id: string): boolean => !fails.has(id) && !passes.has(id)
  const lanes = (ids: readonly string[], says: string): string[] => {
    if (ids.length === 0) return []
    return [`${someOf(ids, MOST_NAMED)}: ${says}.`]
  }
  return [
    ...(sure === after.sure
      ? []
      : [
          say('It was {before}; now it is {now}.', {
            before: SURENESS[sure],
            now: SURENESS[after.sure],
          }),
        ]),
    ...lanes(
      after.failing.filter((id) => passed.has(id)),
      say('passed before, fails now'),
    ),
    ...lanes(
      after.failing.filter((id) => !passed.has(id) && !failed.has(id)),
      say('untested before, fails now'),
    ),
    ...lanes(
      before.failing.filter((id) => passes.has(id)),
      say('failed before, passes now'),
    ),
    ...lanes(before.failing.filter(unlisted), say('failed before, untested now')),
    ...lanes(before.passing.filter(unlisted), say('passed before, untested now')),
    ...lanes(
      after.passing.filter((id) => !passed.has(id) && !failed.has(id)),
      say('untested before, passes now'),
    ),
    ...countChanges(before.parts, after.parts),
    ...(before.rows === after.rows
      ? []
      : [
          say('{before} rows were read before, {now} now.', {
            before: numberWords(before.rows),
            now: numberWords(after.rows),
          }),
        ]),
  ]
}

function countChanges(before: ReadOutcome['parts'], after: ReadOutcome['parts']): string[] {
  const refs = [...new Set([...Object.keys(before), ...Object.keys(after)])]
  return refs.flatMap((ref) => {
    const [was, is] = [before[ref] ?? 0, after[ref] ?? 0]
    return was === is
      ? []
      : [say('{ref} had {was} errors, now {is}.', { ref, was: numberWords(was), is: numberWords(is) })]
  })
}
