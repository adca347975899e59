/** What one closed card adds to the counts. */
import type { ClosedCard, WorkedPart } from './card.ts'
import { countChecks } from './count-checks.ts'
import { countCures } from './count-cures.ts'
import { countLines } from './count-lines.ts'
import { count, type Counts, noCounts } from './counts.ts'
import { type TrueCause, trueCauses } from './truth.ts'

/**
 * What nobody reported is counted where nobody had denied it either, as its prior stands for such cards. Priors, lines and
 * checks only of a card of which everything is known: a prior is the share of such places that were the
 * cause, over the cards that came to this shop and were closed with their cause confirmed. Lifts, minutes and looks count
 * of every closed card that tells them, cures of every card whose owner was asked.
 */
export function countsOf(card: ClosedCard): Counts {
  const counts = noCounts()
  countLifts(counts, card.parts)
  countLooks(counts, card.parts)
  countCures(counts, card)
  if (!card.known) return counts
  counts.cards = 1
  const causes = trueCauses(card)
  countPriors(counts, card, causes)
  countLines(counts, card, causes)
  countChecks(counts, card.checks, causes)
  return counts
}

function countPriors(counts: Counts, card: ClosedCard, causes: readonly TrueCause[]): void {
  const hits = (kind: string): number =>
    causes.reduce((sum, cause) => sum + (cause.kind === kind ? cause.places : 0), 0)
  for (const [kind, places] of Object.entries(card.places)) count(counts, `prior.${kind}`, hits(kind), places)
  count(counts, 'prior.slip', hits('slip'), card.slipMarks)
  if (!card.spillReported && !card.noAccidentTold)
    count(counts, 'prior.unreported-spill', Math.min(1, hits('spill')), 1)
}

const risk = { memory: 'risk.memoryDamage', core: 'risk.coreDamage', other: 'risk.otherDamage' } as const
const minutesId = {
  memory: 'cost.minutesPerMemoryLift',
  core: 'cost.minutesPerCoreLift',
  other: 'cost.minutesPerOtherLift',
} as const

function countLifts(counts: Counts, parts: readonly WorkedPart[]): void {
  for (const { kind, harmed, lifts, minutes } of parts) {
    count(counts, risk[kind], harmed ? 1 : 0, lifts)
    if (minutes === undefined) continue
    const id = minutesId[kind]
    const known = counts.minutes[id]
    counts.minutes[id] = { lifts: 1 + (known?.lifts ?? 0), minutes: Math.round(minutes) + (known?.minutes ?? 0) }
  }
}

/** What inspection said at a part's edge, against what lay under it: one look a part. */
function countLooks(counts: Counts, parts: readonly WorkedPart[]): void {
  for (const { under, look } of parts) {
    if (under === undefined || look === undefined) continue
    const seen = look === 'residue' ? 1 : 0
    if (under === 'clean') count(counts, 'evidence.residueElsewhere', seen, 1)
    else {
      count(counts, 'evidence.residueWhereReached', seen, 1)
      count(counts, 'evidence.cleanOverlooksReached', 1 - seen, 1)
    }
  }
}
