/** What remedies cured, by what owners said weeks later. */
import type { ClosedCard, WorkedPart } from './card.ts'
import { count, type Counts } from './counts.ts'

/**
 * One try of a remedy, where one cause alone was named and one remedy done for it: a hit where the card still works weeks
 * later, a miss where the same fault is back. A card that only passed on the day counts neither way, nor does one with
 * several causes, of which nobody can say which is back. The figure is then the mean of
 * Beta(shipped · weight + hits, (1 − shipped) · weight + misses), as every other share.
 */
export function countCures(counts: Counts, { held, parts, others, metal }: ClosedCard): void {
  if (held === undefined) return
  const causes = [...parts.flatMap((part) => cureAt(part, metal)), ...others.map(({ what }) => cureOf(what))]
  const [only] = causes
  if (causes.length !== 1 || only === undefined) return
  count(counts, `cure.${only}`, held ? 1 : 0, 1)
}

const NONE = undefined

/** What was done at a part that was to blame; nothing of a part that was fine. A cause without a remedy is one all the same. */
function cureAt({ was, refitted }: WorkedPart, metal: boolean): (string | undefined)[] {
  if (was === 'fine' || was === 'unknown') return []
  if (refitted === undefined) return [NONE]
  const isNew = refitted === 'a new one'
  if (was === 'bad') return [isNew ? 'replaceDie' : NONE]
  if (was === 'joints') return ['reballJoints']
  if (isNew) return ['replaceBeneath']
  return [metal ? 'reballBeneathMetal' : 'reballBeneath']
}

/** What a wash cured lay in the open or under a part: nobody can say which. */
const cureOf = (what: ClosedCard['others'][number]['what']): string | undefined =>
  what === 'liquid' ? NONE : 'repairBeside'
