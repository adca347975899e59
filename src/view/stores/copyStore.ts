/** How it stands with the copies of cases in a folder of the user's own. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Fault } from '../../base/index.ts'
import type { CopyFolder } from '../shelf/copyFolder.ts'

export interface CopyState {
  /** `asks`: the browser wants to ask again whether Liftmap may write there. */
  readonly stage: 'off' | 'on' | 'asks' | 'failed'
  readonly folder: CopyFolder | undefined
  /** Why no copy was written. */
  readonly fault: Fault | undefined
}

export type CopyStore = StoreApi<CopyState>

export const noCopies: CopyState = { stage: 'off', folder: undefined, fault: undefined }

export const createCopyStore = (): CopyStore => createStore<CopyState>(() => noCopies)
