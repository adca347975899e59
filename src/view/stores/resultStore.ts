/** What the cores last answered about the case: reach, stories, lift list. Only the worker's answers are put here. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Fault } from '../../base/index.ts'
import type { Assessment } from '../../case/index.ts'

export interface ResultState {
  readonly state: 'none' | 'working' | 'done' | 'failed'
  /** The last good answer; while `working` it is that of a moment ago. */
  readonly assessment: Assessment | undefined
  readonly faults: readonly Fault[]
  /** How long the last answer took in the worker and on the way, ms. */
  readonly tookMs: number | undefined
}

export type ResultStore = StoreApi<ResultState>

export const noResult: ResultState = { state: 'none', assessment: undefined, faults: [], tookMs: undefined }

export const createResultStore = (): ResultStore => createStore<ResultState>(() => noResult)
