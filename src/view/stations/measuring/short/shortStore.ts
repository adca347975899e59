/** The hunt for a short that is open: its last answer, and the point that the next reading is for. Answers and view state only. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Fault } from '../../../../base/index.ts'
import type { BoardModel } from '../../../../board/index.ts'
import type { ProbePlace, ShortAnswer, ShortHunt } from '../../../../measure/index.ts'
import type { Desk } from '../../../stores/desk.ts'

export interface ShortState {
  /** Id of the hunt that is open. */
  readonly open: string | undefined
  readonly state: 'none' | 'working' | 'done' | 'failed'
  /** The last good answer, and the hunt that it is about as it stood then. */
  readonly answer: ShortAnswer | undefined
  readonly askedOf: ShortHunt | undefined
  /** The board that the answer is about. */
  readonly model: BoardModel | undefined
  readonly faults: readonly Fault[]
  /** Chosen by hand for the next reading; the suggested one where undefined. */
  readonly place: ProbePlace | undefined
  /** What a press on the sheet sets while the probe is in hand. */
  readonly pointing: 'reading' | 'source'
}

export type ShortStore = StoreApi<ShortState>

export const noShort: ShortState = {
  open: undefined,
  state: 'none',
  answer: undefined,
  askedOf: undefined,
  model: undefined,
  faults: [],
  place: undefined,
  pointing: 'reading',
}

const stores = new WeakMap<Desk, ShortStore>()

export function shortStoreOf(desk: Desk): ShortStore {
  const known = stores.get(desk) ?? createStore<ShortState>(() => noShort)
  stores.set(desk, known)
  return known
}
