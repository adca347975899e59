/** Next checks and what is proposed, as the cores last reckoned them. Only the worker's answers are put here. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { RankedChecks, RemedyProposal } from '../../suspects/index.ts'

export interface NextChecksState {
  readonly state: 'none' | 'working' | 'done' | 'failed'
  /** The last good answer; while `working` it is that of a moment ago. */
  readonly ranked: RankedChecks | undefined
  readonly proposal: RemedyProposal | undefined
  /** How long the last answer took in the worker and on the way, ms. */
  readonly tookMs: number | undefined
  /** The assessment that the last good answer follows. */
  readonly follows: object | undefined
}

export type CheckStore = StoreApi<NextChecksState>

export const noChecks: NextChecksState = {
  state: 'none',
  ranked: undefined,
  proposal: undefined,
  tookMs: undefined,
  follows: undefined,
}

export const createCheckStore = (): CheckStore => createStore<NextChecksState>(() => noChecks)
