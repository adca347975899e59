/** The case on the desk with its history, and the board that it is about. What can be computed from them is not kept. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { BoardModel } from '../../board/index.ts'
import type { Case, History } from '../../case/index.ts'
import type { CameraStore } from '../sheet/index.ts'

export interface OpenBoard {
  /** Another number each time that a board is put on the desk: its sheet is a new one. */
  readonly opening: number
  readonly model: BoardModel
  readonly camera: CameraStore
  /** What an imported layout did not tell, in words. */
  readonly untold: readonly string[]
}

export interface CaseState {
  /** The case's own id on the shelf; undefined while no case is open. */
  readonly id: string | undefined
  readonly history: History<Case> | undefined
  readonly board: OpenBoard | undefined
  /** The case as it was last saved or opened: the present differs from it when something is unsaved. */
  readonly saved: Case | undefined
}

export type CaseStore = StoreApi<CaseState>

export const createCaseStore = (): CaseStore =>
  createStore<CaseState>(() => ({ id: undefined, history: undefined, board: undefined, saved: undefined }))
