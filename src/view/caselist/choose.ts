/** Which cases the list shows, and in which order. */
import type { VisitState } from '../../case/index.ts'
import type { ShelfEntry } from '../shelf/caseShelf.ts'

export interface CaseChoice {
  /** Every word of it must be somewhere in the case. */
  readonly typed: string
  readonly visit: VisitState | 'any'
  readonly where: 'bench' | 'archive' | 'all'
  /** The last changed first, or the card that has waited longest. */
  readonly order: 'changed' | 'arrived'
}

export const everyCase: CaseChoice = { typed: '', visit: 'any', where: 'bench', order: 'changed' }

export function chooseCases(entries: readonly ShelfEntry[], choice: CaseChoice): ShelfEntry[] {
  const words = choice.typed.toLowerCase().split(/\s+/).filter(Boolean)
  const chosen = entries.filter(
    (entry) =>
      (choice.where === 'all' || entry.archived === (choice.where === 'archive')) &&
      (choice.visit === 'any' || entry.visit === choice.visit) &&
      words.every((word) => entry.words.includes(word)),
  )
  return choice.order === 'changed'
    ? chosen.toSorted((a, b) => b.changedAt - a.changedAt)
    : chosen.toSorted((a, b) => cameOn(a).localeCompare(cameOn(b)) || a.createdAt - b.createdAt)
}

/** The day the card came, as far as it was told; else the day on which its case was begun (UTC). */
export const cameOn = ({ arrivedOn, createdAt }: Pick<ShelfEntry, 'arrivedOn' | 'createdAt'>): string =>
  arrivedOn ?? new Date(createdAt).toISOString().slice(0, 10)
