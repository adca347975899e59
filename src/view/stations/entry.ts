/** What a station is to the screen around it: one entry a station, in its own folder; `entries.ts` joins them. */
import type { BoardModel } from '../../board/index.ts'
import type { Case, Proof } from '../../case/index.ts'
import type { Tally } from '../../report/index.ts'
import type { LoadedLater } from '../controls/later.tsx'
import type { Overlays, Selection } from '../sheet/index.ts'
import type { PlanState } from '../stores/planStore.ts'
import type { Reading } from '../stores/readingStore.ts'
import type { ResultState } from '../stores/resultStore.ts'

/** What is known when it is told what a station holds. */
export interface Known {
  readonly present: Case
  readonly tally: Tally | undefined
  readonly readings: ReadonlyMap<string, Reading>
  readonly results: ResultState
  readonly plan: Pick<PlanState, 'state' | 'answer'>
  readonly proof?: Proof | undefined
  readonly model?: BoardModel | undefined
}

export interface Held {
  readonly state: 'done' | 'partly' | 'empty'
  /** What it holds, in few words. */
  readonly words: string
  /** What it still lacks; undefined where it lacks nothing. */
  readonly lacks: string | undefined
}

/** What is drawn on the sheet, and what of it can be switched. Stations with the same set switch it together. */
export interface OverlaySet {
  readonly id: 'board' | 'short' | 'plan' | 'proof'
  /** Before anything was switched. */
  readonly shown: Overlays
  /** What this set has nothing for. */
  readonly without: readonly (keyof Overlays)[]
}

export interface StationEntry {
  readonly name: string
  readonly key: string
  readonly Form: LoadedLater<object>
  readonly state: (known: Known) => Held
  readonly overlays: OverlaySet
  /** Whether the lift list stands below the form. */
  readonly showsLiftList: boolean
  /** Whether a selected thing is a line of the form, which then stays in place of the evidence. */
  readonly isLine?: (selection: Selection, model: BoardModel | undefined) => boolean
}
