/** The shelf of one's own cases: what is asked of it, whether it lies in the browser's database or in memory. */
import type { Fault, Result } from '../../base/index.ts'
import type { BoardDescription } from '../../board/index.ts'
import type { Case, HandBack, History, Station, VisitState } from '../../case/index.ts'
import type { GoodReadings } from '../../measure/index.ts'
import type { KeptPractice } from '../../rehearsal/index.ts'
import type { BoardShelf } from './boardShelf.ts'
import type { StockShelf } from './stockShelf.ts'
import type { ClosedCards, RecordChoice } from './ownRecord.ts'

/** What the list of cases shows of one, without opening it. */
export interface ShelfEntry {
  readonly id: string
  readonly title: string
  readonly card?: string
  readonly owner: string
  readonly boardName: string
  readonly demo: boolean
  readonly goodCard: boolean
  readonly outcome?: NonNullable<HandBack['outcome']>
  /** The day the card came, as `2026-03-14`. */
  readonly arrivedOn?: string
  /** The day by which it was promised, as `2026-03-14`. */
  readonly dueOn?: string
  /** Of its intake slip. */
  readonly code?: string
  /** The day a mended card went back, while its owner has still to be asked whether it works. */
  readonly askAfter?: string
  /** Milliseconds since 1970. */
  readonly createdAt: number
  /** Milliseconds since 1970, of the last change of what is in the case. */
  readonly changedAt: number
  readonly archived: boolean
  /** The last of the ten stations at which something was entered. */
  readonly furthest: Station
  /** That, and what came of it, in one word. */
  readonly visit: VisitState
  /** What a search looks through, in small letters: title, card, code, serial number, model, owner, board, account, what was seen, substance. */
  readonly words: string
  /** Grows by one with each save. */
  readonly rev: number
  /** Saved by a newer Liftmap: it can be seen, archived and deleted, but not opened here. */
  readonly newer: boolean
}

export interface StoredCase {
  readonly entry: ShelfEntry
  /** Undo and redo as they were when it was last saved. */
  readonly history: History<Case>
  /** Steps of undo and redo that could not be read any more and were left out. */
  readonly droppedSteps: number
}

export interface CaseToSave {
  readonly id: string
  readonly history: History<Case>
  readonly boardName: string
  /** The `rev` that the change started from; 0 for a case that is not on the shelf yet. */
  readonly basedOnRev: number
}

export type SaveOutcome =
  | { readonly kind: 'saved'; readonly rev: number }
  /** Somebody else saved it meanwhile: nothing was written. */
  | { readonly kind: 'changed-elsewhere'; readonly rev: number }
  /** It was deleted meanwhile: nothing was written. */
  | { readonly kind: 'deleted-elsewhere' }

/** Something on the shelf is not as it was. */
export type ShelfChange =
  | { readonly kind: 'saved'; readonly id: string; readonly rev: number; readonly elsewhere: boolean }
  | { readonly kind: 'deleted'; readonly id: string; readonly elsewhere: boolean }
  /** Archived, taken back, duplicated, restored: the list changed, no case did. */
  | { readonly kind: 'listed'; readonly id: string; readonly elsewhere: boolean }
  /** Whether the shop's own record is used, or whose counts are pooled in it. */
  | { readonly kind: 'own-record'; readonly elsewhere: boolean }
  /** Boards of one's own got a version. */
  | { readonly kind: 'own-boards'; readonly elsewhere: boolean }
  /** The shop's stock. */
  | { readonly kind: 'stock'; readonly elsewhere: boolean }
  /** The shelf can be used (again). */
  | { readonly kind: 'opened' }

/** A fault of any of these says in words what is wrong with the storage and what to do; nothing is lost by it. */
export interface CaseShelf {
  /** False where cases last only as long as the page. */
  readonly lasting: boolean
  /** What the user must know about the shelf as such: why it doesn't last. */
  readonly notice?: Fault
  /** One's own boards in their versions, apart from the cases on them. */
  readonly boards: BoardShelf
  /** What the shop has, and what it has on order. */
  readonly stock: StockShelf
  /** All but deleted ones, the last changed first. */
  list(): Promise<Result<readonly ShelfEntry[]>>
  /** Refuses a case that is not there, one of a newer Liftmap, and one whose present state can't be read. */
  load(id: string): Promise<Result<StoredCase>>
  /** A case as it was last saved, without opening it. Refuses as `load` does. */
  peek(id: string): Promise<Result<Case>>
  /** The board of a case, without opening the case. */
  boardOf(id: string): Promise<Result<BoardDescription>>
  /** Writes only if the case still has the `rev` that the change started from. */
  save(what: CaseToSave): Promise<Result<SaveOutcome>>
  /** A second case like it, with a title of its own and no history. @returns its id */
  duplicate(id: string, title: string): Promise<Result<string>>
  archive(id: string, archived: boolean): Promise<Result<undefined>>
  /** Takes it off the list. @returns a token with which it can be restored, until the page is opened anew an hour later */
  remove(id: string): Promise<Result<string>>
  restore(token: string): Promise<Result<undefined>>
  /** Resistances and voltages of the shop's good cards on that board, one value a card and line. */
  goodReadings(boardName: string, exceptId: string): Promise<Result<readonly GoodReadings[]>>
  /** Closed cards of all boards, for the shop's own record; one card counts once, however often its case lies here. */
  closedCards(exceptId?: string): Promise<Result<ClosedCards>>
  recordChoice(): Promise<Result<RecordChoice>>
  setRecordChoice(choice: RecordChoice): Promise<Result<undefined>>
  /** The practice card that is played: seed and actions alone, apart from all cases. Undefined where there is none, or none that can be read. */
  practice(): Promise<Result<KeptPractice | undefined>>
  setPractice(kept: KeptPractice | undefined): Promise<Result<undefined>>
  /** The case that was open last. */
  lastOpen(): Promise<Result<string | undefined>>
  setLastOpen(id: string): Promise<Result<undefined>>
  /** What the shelf is called by itself: another name, and the browser has dropped it and begun a new one. Undefined where it has none. */
  stamp(): Promise<Result<string | undefined>>
  /** @returns a function that ends it */
  subscribe(onChange: (change: ShelfChange) => void): () => void
  close(): void
}
