/** Next checks that need the card under power, held to what the judge of power says. */
import { say } from '../base/index.ts'
import type { PowerUp } from '../measure/index.ts'
import type { RankedChecks } from '../suspects/index.ts'

const FIRST = say('Not before every rail is measured and nothing speaks against power.')

/** Those that may be made before any work, as the card is: none under power while it is not known whether it may have any. */
export const checksAsItIs = (
  { checks }: RankedChecks,
  verdict: PowerUp['verdict'] | undefined,
): RankedChecks['checks'] =>
  verdict === undefined || verdict === 'safe' ? checks : checks.filter(({ powered }) => !powered)

/** With parts off nothing can be powered, and what stands on a part that lies in a tray can't be looked at on the board. */
export function heldToBench(ranked: RankedChecks, offNow: readonly string[]): RankedChecks {
  if (offNow.length === 0) return ranked
  const isAway = ({ powered, refs }: RankedChecks['checks'][number]): boolean =>
    powered || refs.some((ref) => offNow.includes(ref))
  return { ...ranked, checks: ranked.checks.filter((check) => !isAway(check)) }
}

/**
 * Against power none of them is proposed; while it is not known they come after all that can be done cold, and say what
 * must come first. @param verdict undefined where nobody judged
 */
export function heldToPower(ranked: RankedChecks, verdict: PowerUp['verdict'] | undefined): RankedChecks {
  if (verdict === undefined || verdict === 'safe') return ranked
  const cold = ranked.checks.filter(({ powered }) => !powered)
  const powered = ranked.checks.filter((check) => check.powered)
  if (powered.length === 0) return ranked
  if (verdict === 'not-known') {
    const later = powered.map((check) => ({ ...check, caution: [FIRST, check.caution ?? ''].join(' ').trim() }))
    return { ...ranked, checks: [...cold, ...later] }
  }
  const waiting = say(
    '{length} {length, plural, one {check waits} other {checks wait}}: they need power, and what was measured speaks against it.',
    { length: powered.length },
  )
  return { ...ranked, checks: cold, waiting }
}
