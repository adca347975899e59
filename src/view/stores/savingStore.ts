/** How it stands with keeping the case on the desk: what the shelf has of it, and what is in the way. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Fault } from '../../base/index.ts'
import type { Case, History } from '../../case/index.ts'
import type { NamedCase, OwedExport } from './ledger.ts'

/** The case on the desk as the shelf has it. */
export interface Shelved {
  readonly id: string
  /** 0: not on the shelf yet. */
  readonly rev: number
  /** Undefined: it is to be put there although nothing was changed yet. */
  readonly history: History<Case> | undefined
}

/** Another tab was there first: the user chooses. */
export type Conflict = 'changed-elsewhere' | 'deleted'

export interface SavingState {
  readonly shelved: Shelved | undefined
  readonly saving: boolean
  readonly trouble: Fault | undefined
  readonly conflict: Conflict | undefined
  /** Whether the browser promised not to clear the shelf by itself; undefined until it was asked. */
  readonly promised: boolean | undefined
  /** Files of the case on the desk that the shelf refused, by their names: tried again with each save. */
  readonly unheld: ReadonlyMap<string, Blob>
  /** Cases that the storage refused once: to be exported, also after it took them. */
  readonly owed: readonly OwedExport[]
  /** Cases that went with a shelf that the browser dropped. */
  readonly lost: readonly NamedCase[]
  /** Where the shelf lasts only as long as the page: cases on it that lie in no file. */
  readonly unexported: ReadonlySet<string>
  /** Saves what is unsaved, now. */
  readonly saveNow: () => Promise<void>
}

export type SavingStore = StoreApi<SavingState>

export const createSavingStore = (): SavingStore =>
  createStore<SavingState>(() => ({
    shelved: undefined,
    saving: false,
    trouble: undefined,
    conflict: undefined,
    promised: undefined,
    unheld: new Map(),
    owed: [],
    lost: [],
    unexported: new Set(),
    saveNow: () => Promise.resolve(),
  }))

/** Something was entered since the shelf last had the case. */
export const differsFromShelf = (shelved: Shelved | undefined, history: History<Case> | undefined): boolean => {
  if (shelved === undefined || history === undefined) return false
  const kept = shelved.history
  if (kept === undefined || kept.past !== history.past || kept.future !== history.future) return true
  return !sameButLearnt(kept.present, history.present)
}

/** Something of the case on the desk is not on the shelf yet. */
export const isUnkept = (
  { shelved, unheld }: Pick<SavingState, 'shelved' | 'unheld'>,
  history: History<Case> | undefined,
): boolean => unheld.size > 0 || differsFromShelf(shelved, history)

/** The figures of the shop's good cards are learnt in each tab by itself: where nothing else differs, nothing was entered. */
function sameButLearnt(kept: Case, now: Case): boolean {
  if (kept === now) return true
  const fields = new Set([...Object.keys(kept), ...Object.keys(now)])
  fields.delete('goodReadings')
  return [...fields].every((field) => Reflect.get(kept, field) === Reflect.get(now, field))
}
