/** Rails and stages that were measured cold, held against what was wrong. */
import type { ClosedCard } from './card.ts'
import { count, type Counts } from './counts.ts'
import type { TrueCause } from './truth.ts'

/**
 * A line counts where one cause alone could have made it read wrong, or none; a slip or a liquid could have touched any,
 * so that such a card says nothing about lines.
 */
export function countLines(counts: Counts, card: ClosedCard, causes: readonly TrueCause[]): void {
  if (causes.some(({ kind }) => kind === 'slip' || kind === 'spill')) return
  const badRails = new Set(causes.flatMap(({ kind, rails }) => (kind === 'rail' ? rails : [])))
  const ofBranches = new Set(causes.flatMap(({ kind, rails }) => (kind === 'rail-branch' ? rails : [])))
  const unnamed = causes.some(({ kind, rails }) => kind === 'rail' && rails.length === 0)
  if (unnamed) return
  const badStages = new Set(causes.flatMap(({ kind, parts }) => (kind === 'power-stage' ? parts.slice(0, 1) : [])))
  for (const { name, bad } of card.rails) {
    const stages = card.railParts.get(name)?.stages ?? []
    const atFault = badRails.has(name) || ofBranches.has(name) || stages.some((ref) => badStages.has(ref))
    if (!atFault) count(counts, 'evidence.railBadElsewhere', bad ? 1 : 0, 1)
  }
  for (const { name, bad } of card.stages) {
    const byStage = badStages.has(name)
    const byRail = [...card.railParts].some(([rail, { stages }]) => badRails.has(rail) && stages.includes(name))
    if (byRail && byStage) continue
    const id = byStage ? 'stageBadIfStage' : byRail ? 'stageBadIfRail' : 'stageBadElsewhere'
    count(counts, `evidence.${id}`, bad ? 1 : 0, 1)
  }
}
