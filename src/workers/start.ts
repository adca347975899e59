/** Starts a worker that speaks the contract, in the language of whoever starts it. */
import { speech } from '../base/index.ts'
import type { SpeechMessage } from './envelope.ts'
import { newCoreWorker } from './new-worker.ts'

/** @returns a worker that was told the language before all else */
export function startCoreWorker(): Worker {
  const worker = newCoreWorker()
  worker.postMessage({ kind: 'speech', ...speech() } satisfies SpeechMessage)
  return worker
}
