/** Checks that were answered, held against what was wrong: how often each finds a kind of cause, and how often nothing. */
import { type CheckAnswer, checkById, type CheckEntry } from '../../suspects/index.ts'
import { count, type Counts } from './counts.ts'
import type { TrueCause } from './truth.ts'

/**
 * An answer counts for a kind of cause where the check met that kind alone, and as a false alarm or none where it met no
 * cause at all; where it met several kinds, or one that it is not made for, nobody can say what it found.
 */
export function countChecks(counts: Counts, answers: readonly CheckAnswer[], causes: readonly TrueCause[]): void {
  const last = new Map(answers.map((answer) => [`${answer.check} ${answer.at}`, answer]))
  for (const { check, at, found } of last.values()) {
    const entry = checkById(check)
    if (entry?.evidence !== 'check') continue
    const met = [...new Set(causes.filter((cause) => meets(entry, cause, at)).map(({ kind }) => kind))]
    const [only] = met
    const hit = found ? 1 : 0
    if (only === undefined) count(counts, `check.${check}.falseAlarm`, hit, 1)
    else if (met.length === 1 && Object.hasOwn(entry.finds, only)) count(counts, `check.${check}.finds.${only}`, hit, 1)
  }
}

/** A spill or a slip without a place may have been anywhere, so that every check may have met it. */
function meets({ targets }: CheckEntry, { kind, parts, lanes, rails }: TrueCause, at: string): boolean {
  const placeless =
    (kind === 'spill' || kind === 'slip' || kind === 'corridor' || kind === 'rail') &&
    parts.length + lanes.length + rails.length === 0
  if (placeless) return true
  return targets.some((target) => {
    if (target === 'rail') return rails.includes(at)
    if (target === 'lane' || target === 'corridor') return lanes.includes(at)
    if (target === 'side') return kind === 'spill'
    return target !== 'edge' && parts.includes(at)
  })
}
