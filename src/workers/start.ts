/** Starts a worker that speaks the contract. */
export const startCoreWorker = (): Worker =>
  new Worker(new URL('./core.worker.ts', import.meta.url), { type: 'module', name: 'liftmap-cores' })
