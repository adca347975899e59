/**
 * Reads boards that are only looked at, in a worker of its own: neither the page nor the board on the desk waits for a
 * large one. The worker starts with the first board and ends when nobody looks any more.
 */
import type { Result } from '../../base/index.ts'
import type { BoardDescription, BoardModel } from '../../board/index.ts'
import type { WorkerClient, WorkerLike } from '../../workers/client.ts'
import { calls } from '../../workers/contract.ts'
import { createSteadyClient } from '../../workers/steady.ts'

export interface BoardReader {
  /** Fails with an abort where it is ended meanwhile. */
  read(board: { readonly text?: string; readonly description?: BoardDescription }): Promise<Result<BoardModel>>
  end(): void
}

export function createBoardReader(startWorker: () => WorkerLike): BoardReader {
  let client: WorkerClient | undefined
  return {
    read: (board) => (client ??= createSteadyClient(startWorker)).call(calls.openBoard, board),
    end: () => {
      client?.close()
      client = undefined
    },
  }
}
