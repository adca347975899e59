/** The practice card that is played: what was done, what is seen of it, and the worker that holds it. No case knows of it. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Fault } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { KeptPractice, PracticeResult, PracticeView, Proposed } from '../../rehearsal/index.ts'
import type { WorkerClient, WorkerLike } from '../../workers/client.ts'
import type { Progress } from '../../workers/envelope.ts'
import { createSteadyClient } from '../../workers/steady.ts'

export interface PracticeTable {
  readonly model: BoardModel
  readonly kept: KeptPractice
  readonly view: PracticeView
}

export interface PracticeState {
  /** `unread` before the shelf was asked whether a game goes on. */
  readonly stage: 'unread' | 'choosing' | 'playing'
  readonly table: PracticeTable | undefined
  /** What the worker is at, in words; undefined while it is the user's turn. */
  readonly waiting: { readonly words: string; readonly progress: Progress | undefined } | undefined
  /** What Liftmap would do now; gone with the next action. */
  readonly proposed: Proposed | undefined
  readonly result: PracticeResult | undefined
  readonly faults: readonly Fault[]
}

export const nothingPlayed: PracticeState = {
  stage: 'unread',
  table: undefined,
  waiting: undefined,
  proposed: undefined,
  result: undefined,
  faults: [],
}

export interface PracticeDesk {
  readonly store: StoreApi<PracticeState>
  /** Started when first asked. */
  readonly worker: () => WorkerClient
  /** Whatever it was at ends with it; the next question starts another. */
  readonly endWorker: () => void
}

export function createPracticeDesk(startWorker: () => WorkerLike): PracticeDesk {
  let client: WorkerClient | undefined
  return {
    store: createStore<PracticeState>(() => nothingPlayed),
    worker: () => (client ??= createSteadyClient(startWorker)),
    endWorker: () => {
      client?.close()
      client = undefined
    },
  }
}
