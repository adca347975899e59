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
  /** Asks about the board that was read last. */
  call: WorkerClient['call']
  end(): void
}

export function createBoardReader(startWorker: () => WorkerLike): BoardReader {
  let client: WorkerClient | undefined
  const started = (): WorkerClient => (client ??= createSteadyClient(startWorker))
  return {
    read: (board) => started().call(calls.openBoard, board),
    call: (call, input, options) => started().call(call, input, options),
    end: () => {
      client?.close()
      client = undefined
    },
  }
}
