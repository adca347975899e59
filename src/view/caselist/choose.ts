/** Which cases the list shows, and in which order. */
import { readCode, type VisitState } from '../../case/index.ts'
import type { ShelfEntry } from '../shelf/caseShelf.ts'
import { dueOf } from './due.ts'

export interface CaseChoice {
  /** Every word of it must be somewhere in the case. */
  readonly typed: string
  readonly visit: VisitState | 'any' | 'overdue' | 'due soon'
  readonly where: 'bench' | 'archive' | 'all'
  /** The last changed first, the card that has waited longest, or the one that is due next. */
  readonly order: 'changed' | 'arrived' | 'due'
}

export const everyCase: CaseChoice = { typed: '', visit: 'any', where: 'bench', order: 'changed' }

/** @param today as `2026-03-14`: what is overdue or due soon is told by it */
export function chooseCases(entries: readonly ShelfEntry[], choice: CaseChoice, today: string): ShelfEntry[] {
  const words = wordsOf(choice.typed)
  const chosen = entries.filter(
    (entry) =>
      (choice.where === 'all' || entry.archived === (choice.where === 'archive')) &&
      isInState(entry, choice.visit, today) &&
      words.every((word) => entry.words.includes(word)),
  )
  return chosen.toSorted(ORDERS[choice.order])
}

/** A code counts as one word, however it was typed. */
function wordsOf(typed: string): string[] {
  const read = readCode(typed)
  return read.kind === 'code' ? [read.code.toLowerCase()] : typed.toLowerCase().split(/\s+/).filter(Boolean)
}

function isInState(entry: ShelfEntry, visit: CaseChoice['visit'], today: string): boolean {
  if (visit === 'any') return true
  if (visit !== 'overdue' && visit !== 'due soon') return entry.visit === visit
  const due = dueOf(entry, today)
  return due?.state === 'overdue' || (visit === 'due soon' && due?.state === 'soon')
}

/** Cases that nobody is waiting for come after those with a day. */
const dueDay = ({ dueOn, visit }: ShelfEntry): string => (dueOn === undefined || visit === 'handed back' ? '~' : dueOn)

const ORDERS: Readonly<Record<CaseChoice['order'], (a: ShelfEntry, b: ShelfEntry) => number>> = {
  changed: (a, b) => b.changedAt - a.changedAt,
  arrived: (a, b) => cameOn(a).localeCompare(cameOn(b)) || a.createdAt - b.createdAt,
  due: (a, b) => byText(dueDay(a), dueDay(b)) || b.changedAt - a.changedAt,
}

const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

/** The day the card came, as far as it was told; else the day on which its case was begun (UTC). */
export const cameOn = ({ arrivedOn, createdAt }: Pick<ShelfEntry, 'arrivedOn' | 'createdAt'>): string =>
  arrivedOn ?? new Date(createdAt).toISOString().slice(0, 10)
